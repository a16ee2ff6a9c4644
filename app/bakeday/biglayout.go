package bakeday

import (
	"fyne.io/fyne/v2"

	"twinloaf/app/look"
)

// bigLayout gives the schedule a column at the right, a narrower one where there is less
// room, and lets it go where there is none for both. It tells what it lays out whether the
// room is narrow, which asks for smaller figures.
type bigLayout struct {
	narrow   bool
	onNarrow func(bool)
}

const (
	listWidth       = 300
	listWidthNarrow = 236
	bothAtLeast     = 860
	bothNarrow      = 660
	ringRoom        = 4 // at either side of what scrolls, for the ring around what has the keyboard
)

func (*bigLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(look.Space(80), look.Space(60))
}

func (l *bigLayout) Layout(things []fyne.CanvasObject, size fyne.Size) {
	margin := look.Space(10) // as every page has
	if size.Width < bothNarrow {
		margin = look.Space(4)
	}
	left, list := things[0], things[1]
	width := size.Width - 2*margin
	if size.Width >= bothNarrow {
		w := float32(listWidth)
		if size.Width < bothAtLeast {
			w = listWidthNarrow
		}
		width -= w + look.Space(6)
		list.Show()
		list.Move(fyne.NewPos(size.Width-margin-w, look.Space(7)))
		list.Resize(fyne.NewSize(w, size.Height-look.Space(7)))
	} else {
		list.Hide()
	}
	if narrow := size.Width < bothAtLeast; narrow != l.narrow {
		l.narrow = narrow
		l.onNarrow(narrow)
	}
	left.Move(fyne.NewPos(margin-ringRoom, look.Space(4)))
	left.Resize(fyne.NewSize(width+2*ringRoom, size.Height-look.Space(4)))
}
