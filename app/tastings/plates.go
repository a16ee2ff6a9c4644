package tastings

import (
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/kit"
	"twinloaf/app/look"
)

// plateState is how a plate is drawn.
type plateState int

const (
	plateToCome  plateState = iota // a broken rim
	plateNow                       // filled with ink
	plateDone                      // a firm rim
	plateOffered                   // a thin rim: it can be chosen
)

// plate is a sample as a circle of ink with its label. With tapped it can be
// chosen.
type plate struct {
	widget.BaseWidget
	label    string
	state    plateState
	diameter float32
	tapped   func()
	focused  bool
	hovered  bool
}

func newPlate(label string, state plateState, diameter float32) *plate {
	p := &plate{label: label, state: state, diameter: diameter}
	p.ExtendBaseWidget(p)
	return p
}

// small reports whether the plate is a mere dot, too small for a broken rim.
func (p *plate) small() bool { return p.diameter < 24 }

func (p *plate) CreateRenderer() fyne.WidgetRenderer {
	r := &plateRenderer{p: p, ring: canvas.NewCircle(color.Transparent), circle: canvas.NewCircle(color.Transparent), text: kit.NewLine()}
	for range dashes {
		r.dashes = append(r.dashes, canvas.NewLine(color.Transparent))
	}
	r.text.SetAlign(fyne.TextAlignCenter)
	r.Refresh()
	return r
}

const dashes = 20

type plateRenderer struct {
	p            *plate
	ring, circle *canvas.Circle
	dashes       []*canvas.Line
	text         *kit.Text
}

func (r *plateRenderer) Destroy()           {}
func (r *plateRenderer) MinSize() fyne.Size { return fyne.NewSquareSize(r.p.diameter) }
func (r *plateRenderer) Objects() []fyne.CanvasObject {
	out := []fyne.CanvasObject{r.ring, r.circle}
	for _, d := range r.dashes {
		out = append(out, d)
	}
	return append(out, r.text)
}

func (r *plateRenderer) Layout(size fyne.Size) {
	d := r.p.diameter
	kit.Put(r.circle, fyne.NewPos(0, 0), fyne.NewSquareSize(d))
	kit.Put(r.ring, fyne.NewPos(-5, -5), fyne.NewSquareSize(d+10))
	mid, rad := float64(d)/2, float64(d)/2-1.5
	for i, l := range r.dashes {
		from := 2 * math.Pi * float64(i) / dashes
		to := from + math.Pi/dashes
		l.Position1 = fyne.NewPos(float32(mid+rad*math.Cos(from)), float32(mid+rad*math.Sin(from)))
		l.Position2 = fyne.NewPos(float32(mid+rad*math.Cos(to)), float32(mid+rad*math.Sin(to)))
	}
	m := r.text.MinSize()
	kit.Put(r.text, fyne.NewPos(0, (d-m.Height)/2), fyne.NewSize(d, m.Height))
}

func (r *plateRenderer) Refresh() {
	p := r.p
	ink, faint, edge, paper := theme.Color(look.ColorInk), theme.Color(look.ColorFaint), theme.Color(look.ColorEdge), theme.Color(look.ColorPaper)
	fill, rim, width, words := paper, edge, float32(1.5), look.ColorInk
	switch p.state {
	case plateToCome:
		rim, words = paper, look.ColorFaint
		if p.small() {
			rim, width = theme.Color(look.ColorRule), 1
		}
	case plateNow:
		fill, rim, words = ink, ink, look.ColorPaper
	case plateDone:
		rim, width = faint, 3
	}
	if p.hovered && p.state == plateOffered {
		rim = ink
	}
	r.circle.FillColor, r.circle.StrokeColor, r.circle.StrokeWidth = fill, rim, width
	r.ring.FillColor, r.ring.StrokeColor, r.ring.StrokeWidth = paper, paper, 0
	if p.focused {
		r.ring.StrokeColor, r.ring.StrokeWidth = ink, 2
	}
	for _, l := range r.dashes {
		l.StrokeColor, l.StrokeWidth = edge, 3
		l.Hidden = p.state != plateToCome || p.small()
	}
	size := p.diameter * 0.23
	r.text.SetSpans(kit.Span{Text: p.label, Size: size, Bold: p.state != plateToCome, Color: words})
	for _, o := range r.Objects() {
		o.Refresh()
	}
	r.Layout(p.Size())
}

// choicePlate is a plate that can be chosen, by a tap or by Enter and Space.
type choicePlate struct{ plate }

func newChoicePlate(label string, chosen bool, diameter float32, tapped func()) *choicePlate {
	c := &choicePlate{plate{label: label, state: plateOffered, diameter: diameter, tapped: tapped}}
	if chosen {
		c.state = plateNow
	}
	c.ExtendBaseWidget(c)
	return c
}

func (c *choicePlate) CreateRenderer() fyne.WidgetRenderer { return c.plate.CreateRenderer() }

func (c *choicePlate) choose(yes bool) {
	c.state = plateOffered
	if yes {
		c.state = plateNow
	}
	c.Refresh()
}

// Tapped chooses.
func (c *choicePlate) Tapped(*fyne.PointEvent) { c.tapped() }

func (c *choicePlate) MouseIn(*desktop.MouseEvent) { c.hovered = true; c.Refresh() }

func (c *choicePlate) MouseMoved(*desktop.MouseEvent) {}

func (c *choicePlate) MouseOut() { c.hovered = false; c.Refresh() }

// Cursor is a pointing hand.
func (c *choicePlate) Cursor() desktop.Cursor { return desktop.PointerCursor }

func (c *choicePlate) FocusGained() { c.focused = true; c.Refresh() }

func (c *choicePlate) FocusLost() { c.focused = false; c.Refresh() }

// TypedRune chooses on space; other characters go to the page.
func (c *choicePlate) TypedRune(r rune) {
	if r == ' ' {
		c.tapped()
		return
	}
	if cv := fyne.CurrentApp().Driver().CanvasForObject(c); cv != nil && cv.OnTypedRune() != nil {
		cv.OnTypedRune()(r)
	}
}

// TypedKey chooses on Enter; other keys go to the page.
func (c *choicePlate) TypedKey(ev *fyne.KeyEvent) {
	if ev.Name == fyne.KeySpace {
		return // its rune follows
	}
	if cv := fyne.CurrentApp().Driver().CanvasForObject(c); cv != nil && cv.OnTypedKey() != nil {
		cv.OnTypedKey()(ev)
	}
}
