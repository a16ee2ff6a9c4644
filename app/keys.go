package app

import (
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/room"
)

// everywhere are the keys that work on every page.
func (w *Window) everywhere() []kit.Key {
	keys := []kit.Key{
		{Name: "Ctrl+K", Doc: lang.L("Find anything"), Do: w.find},
		{Name: "Ctrl+Z", Doc: lang.L("Undo"), Do: w.undo},
		{Name: "Shift+Ctrl+Z", Doc: lang.L("Redo"), Do: w.redo},
		{Name: "Ctrl+Y", Doc: lang.L("Redo"), Do: w.redo, Hidden: true},
		{Name: "Alt+Left", Doc: lang.L("Back"), Do: w.Back},
		{Name: "Alt+Right", Doc: lang.L("Forward"), Do: w.Forward},
		{Name: "F1", Doc: lang.L("Every key"), Do: w.listKeys},
		{Name: "?", Doc: lang.L("Every key"), Do: w.listKeys, Hidden: true},
		{Name: "Ctrl+Q", Doc: lang.L("Close"), Do: w.Close, Always: true},
		{Name: "Ctrl+Enter", Doc: lang.L("do what the main button of a sheet says"), Always: true, Do: func() { kit.SubmitSheet(w.win.Canvas()) }},
		{Name: "Ctrl+V", Doc: lang.L("Paste pictures"), Do: w.paste, Hidden: true},
	}
	for i, d := range doors() {
		keys = append(keys, kit.Key{
			Name: "Ctrl+" + string(rune('1'+i)), Doc: d.word(),
			Do: func() { w.Go(room.Place{Name: d.name}) },
		})
	}
	return keys
}
