package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"twinloaf/app/look"
)

// A float shows one thing on raised paper over all else that a frame or a sheet holds,
// beneath the thing it is for: nothing has to make room for it.
type float struct {
	box   *fyne.Container // fills the frame; what is shown lies in it at its place
	under fyne.CanvasObject
	shown fyne.CanvasObject
}

func newFloat() *float {
	f := &float{box: container.NewWithoutLayout()}
	f.box.Hide()
	return f
}

// floatOver finds the float of the sheet or the frame that an object is in, or nil.
func floatOver(o fyne.CanvasObject) *float {
	if s := dialogAround(o); s != nil {
		return s.float
	}
	if f := frameOf(o); f != nil {
		return f.float
	}
	return nil
}

// show shows a thing beneath another.
func (f *float) show(under, o fyne.CanvasObject) {
	if f.shown != o {
		f.box.Objects = []fyne.CanvasObject{onRaisedPaper(o, look.Space(1.5))}
	}
	f.under, f.shown = under, o
	f.box.Show()
	f.place()
}

// hide takes a thing away, if it is shown.
func (f *float) hide(o fyne.CanvasObject) {
	if f.shown != o {
		return
	}
	f.under, f.shown, f.box.Objects = nil, nil, nil
	f.box.Hide()
}

// place puts what is shown beneath what it is for, wherever that is by now, or above it
// where there is no room beneath.
func (f *float) place() {
	if f.shown == nil {
		return
	}
	d := fyne.CurrentApp().Driver()
	at := d.AbsolutePositionForObject(f.under).Subtract(d.AbsolutePositionForObject(f.box))
	card, rim := f.box.Objects[0], look.Space(1.5)
	width := min(max(f.under.Size().Width, look.Space(90)), f.box.Size().Width) + 2*rim
	height := FitHeight(card, width)
	natural := card.MinSize().Width
	x, y := at.X-rim, at.Y+f.under.Size().Height+look.Space(1)
	if y+height > f.box.Size().Height {
		y = max(0, at.Y-height-look.Space(1))
	}
	Put(card, fyne.NewPos(max(0, min(x, f.box.Size().Width-width)), y), fyne.NewSize(max(width, natural), height))
	f.box.Refresh()
}
