package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"twinloaf/app/look"
)

// KeyGroup is a titled list of keys.
type KeyGroup struct {
	Name string
	Keys []Key
}

// KeyList shows groups of keys one under another, each key boxed with what it does beside
// it, in as many columns as there is room for.
func KeyList(groups ...KeyGroup) fyne.CanvasObject {
	list := Stack(6)
	for _, g := range groups {
		keys := container.New(&keyColumns{})
		for _, k := range g.Keys {
			hint := NewKeyHint(k.Name, k.Doc)
			hint.size = look.TextBody
			keys.Add(hint)
		}
		list.Add(Stack(1.5, Section(g.Name), keys))
	}
	return list
}

// keyColumns sets things down one column after another, each as wide as the widest in it. It
// remembers its width, from which its height follows.
type keyColumns struct{ width float32 }

func (l *keyColumns) MinSize(keys []fyne.CanvasObject) fyne.Size {
	one, _ := l.run(keys, len(keys), nil)
	_, high := l.run(keys, l.rows(keys), nil)
	return fyne.NewSize(one, high)
}

func (l *keyColumns) Layout(keys []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	l.run(keys, l.rows(keys), func(o fyne.CanvasObject, at fyne.Position) { Put(o, at, o.MinSize()) })
}

// rows is how few stand in a column where all of them have room.
func (l *keyColumns) rows(keys []fyne.CanvasObject) int {
	for n := 1; n < len(keys); n++ {
		if wide, _ := l.run(keys, n, nil); wide <= l.width {
			return n
		}
	}
	return len(keys)
}

// run walks columns of so many rows and gives the room they need; place may be nil.
func (l *keyColumns) run(keys []fyne.CanvasObject, rows int, place func(fyne.CanvasObject, fyne.Position)) (wide, high float32) {
	x := float32(0)
	for i, o := range keys {
		m := o.MinSize()
		y := float32(0)
		if i%rows == 0 {
			if i > 0 {
				x = wide + look.Space(6)
			}
		} else {
			y = float32(i%rows) * (m.Height + look.Space(1.5))
		}
		if place != nil {
			place(o, fyne.NewPos(x, y))
		}
		wide, high = max(wide, x+m.Width), max(high, y+m.Height)
	}
	return wide, high
}
