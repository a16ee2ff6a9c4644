package kit

import (
	"fyne.io/fyne/v2"

	"twinloaf/app/look"
)

// KeyGroup is a titled list of keys.
type KeyGroup struct {
	Name string
	Keys []Key
}

// KeyList shows groups of keys, each key boxed with what it does beside it.
func KeyList(groups []KeyGroup) fyne.CanvasObject {
	parts := make([]fyne.CanvasObject, 0, len(groups))
	for _, g := range groups {
		rows := Stack(1.5, Section(g.Name))
		for _, k := range g.Keys {
			rows.Add(NewKeyHint(k.Name, k.Doc))
		}
		parts = append(parts, rows)
	}
	return Columns(look.Space(55), parts...)
}
