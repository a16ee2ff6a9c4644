package bakeday

import (
	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/look"
)

// bigLayout lays out what is read, what is pressed and the schedule. The schedule has a
// column at the right, a narrower one where there is less room, and goes where there is none
// for both; in a wide window it is wider. What is pressed is at the bottom, always in sight:
// under what is read, and where the room is narrow under the schedule as well. It tells what
// it lays out how much room there is, by which its figures are smaller or larger.
type bigLayout struct {
	room   dayRoom
	onRoom func(dayRoom)
}

// A dayRoom is how much room the large view has.
type dayRoom int

const (
	usualRoom dayRoom = iota
	narrowRoom
	tightRoom  // narrow and low, as a small window is with large letters: no button is larger than others are
	wideRoom   // from windows of 1600 points on
	widestRoom // and from 2350 on
)

func roomOf(size fyne.Size) dayRoom {
	switch {
	case size.Width < bothNarrow && size.Height < lowBelow:
		return tightRoom
	case size.Width < bothAtLeast:
		return narrowRoom
	case size.Width < wideAtLeast:
		return usualRoom
	case size.Width < widestAtLeast:
		return wideRoom
	}
	return widestRoom
}

// narrow says that the schedule takes the room, or has none.
func (r dayRoom) narrow() bool { return r == narrowRoom || r == tightRoom }

// letters is how large what is read from a metre away is written.
func (r dayRoom) letters() (count, step, due, list float32) {
	switch r {
	case narrowRoom, tightRoom:
		return sizeCountSmall, sizeStepNarrow, look.TextTitle, look.TextLead
	case wideRoom, widestRoom:
		return sizeCountWide, sizeStepWide, sizeDue, look.TextTitle
	}
	return sizeCount, sizeStep, sizeDue, look.TextLead
}

const (
	listWidth       = 300
	listWidthNarrow = 236
	listWidthWide   = 440
	bothAtLeast     = 860
	bothNarrow      = 660
	lowBelow        = 560
	wideAtLeast     = 1440
	widestAtLeast   = 2200
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
	room := roomOf(size)
	if room != l.room {
		l.room = room
		l.onRoom(room)
	}
	if size.Width >= bothNarrow {
		w := [...]float32{usualRoom: listWidth, narrowRoom: listWidthNarrow, wideRoom: listWidthWide, widestRoom: listWidthWide}[room]
		width -= w + look.Space(6)
		list.Show()
		kit.Put(list, fyne.NewPos(size.Width-margin-w, look.Space(7)), fyne.NewSize(w, size.Height-look.Space(7)))
	} else {
		list.Hide()
	}
	under := width
	if room.narrow() {
		under = whole
	}
	high := kit.FitHeight(foot, under)
	down := size.Height - look.Space(4) - high
	foot.Move(fyne.NewPos(margin, down))
	down -= look.Space(3)
	if room == narrowRoom {
		list.Resize(fyne.NewSize(list.Size().Width, max(0, down-look.Space(7))))
	}
	kit.Put(left, fyne.NewPos(margin-ringRoom, look.Space(4)), fyne.NewSize(width+2*ringRoom, max(0, down-look.Space(4))))
}
