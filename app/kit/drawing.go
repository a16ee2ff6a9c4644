package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"
)

// A Drawing renders a widget by things that stay the same for as long as it is shown.
type Drawing struct {
	Of     fyne.Widget
	Things []fyne.CanvasObject // in the order in which they are drawn
	Least  func() fyne.Size    // the least size of the widget
	Lay    func(fyne.Size)     // gives the things their places
	Paint  func()              // gives them the words and colours of now; nil where the things know their own
}

// Painted gives a drawing back once it is painted.
func (d *Drawing) Painted() *Drawing {
	d.Refresh()
	return d
}

func (d *Drawing) Destroy()                     {}
func (d *Drawing) Objects() []fyne.CanvasObject { return d.Things }
func (d *Drawing) MinSize() fyne.Size           { return d.Least() }
func (d *Drawing) Layout(size fyne.Size)        { d.Lay(size) }

// Refresh paints the things, of which widgets and containers draw themselves, and lays them out anew.
func (d *Drawing) Refresh() {
	if d.Paint != nil {
		d.Paint()
	}
	d.Lay(d.Of.Size())
	for _, o := range d.Things {
		switch o.(type) {
		case fyne.Widget, *fyne.Container:
			if d.Paint != nil {
				continue
			}
		}
		o.Refresh()
	}
}

// A Sketch renders a widget by things that are made anew for each size and state of it.
// Draw must refresh nothing: laying out would then ask for another frame, without end.
type Sketch struct {
	Of    fyne.Widget
	Least func() fyne.Size
	Draw  func(fyne.Size) []fyne.CanvasObject

	things []fyne.CanvasObject
}

func (s *Sketch) Destroy()                     {}
func (s *Sketch) Objects() []fyne.CanvasObject { return s.things }
func (s *Sketch) MinSize() fyne.Size           { return s.Least() }
func (s *Sketch) Layout(size fyne.Size)        { s.things = s.Draw(size) }

func (s *Sketch) Refresh() {
	s.Layout(s.Of.Size())
	for _, o := range s.things {
		if pixels, ok := o.(*canvas.Raster); ok {
			pixels.Refresh()
		}
	}
	canvas.Refresh(s.Of)
}

// shown is a widget that has nothing to it but what a drawing shows.
type shown struct {
	widget.BaseWidget
	drawing *Drawing
}

func show(d *Drawing) *shown {
	s := &shown{drawing: d}
	s.ExtendBaseWidget(s)
	d.Of = s
	return s
}

func (s *shown) CreateRenderer() fyne.WidgetRenderer { return s.drawing.Painted() }
