package bakeday

import (
	"fyne.io/fyne/v2"

	"twinloaf/app/look"
)

// bigLayout lays out what is read, what is pressed and the schedule. The schedule has a
// column at the right, a narrower one where there is less room, and goes where there is none
// for both. What is pressed is at the bottom, always in sight: under what is read, and where
// the room is narrow under the schedule as well. It tells what it lays out whether it is,
// which asks for smaller figures.
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
	left, foot, list := things[0], things[1], things[2]
	whole := size.Width - 2*margin
	width := whole
	narrow := size.Width < bothAtLeast
	if narrow != l.narrow {
		l.narrow = narrow
		l.onNarrow(narrow)
	}
	if size.Width >= bothNarrow {
		w := float32(listWidth)
		if narrow {
			w = listWidthNarrow
		}
		width -= w + look.Space(6)
		list.Show()
		list.Move(fyne.NewPos(size.Width-margin-w, look.Space(7)))
		list.Resize(fyne.NewSize(w, size.Height-look.Space(7)))
	} else {
		list.Hide()
	}
	under := width
	if narrow {
		under = whole
	}
	foot.Resize(fyne.NewSize(under, foot.Size().Height)) // its height follows from its width
	high := foot.MinSize().Height
	foot.Resize(fyne.NewSize(under, high))
	down := size.Height - look.Space(4) - high
	foot.Move(fyne.NewPos(margin, down))
	down -= look.Space(3)
	if narrow {
		list.Resize(fyne.NewSize(list.Size().Width, max(0, down-look.Space(7))))
	}
	left.Move(fyne.NewPos(margin-ringRoom, look.Space(4)))
	left.Resize(fyne.NewSize(width+2*ringRoom, max(0, down-look.Space(4))))
}
