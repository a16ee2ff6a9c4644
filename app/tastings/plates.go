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
	plateNow                       // a thick rim of ink: it is tasted
	plateDone                      // a firm rim
	plateOffered                   // a thin rim: it can be chosen
	plateChosen                    // filled with ink: the answer
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
	ring := canvas.NewCircle(color.Transparent)
	circle := canvas.NewCircle(color.Transparent)
	var strokes []*canvas.Line
	text := kit.NewLine()
	for range dashes {
		strokes = append(strokes, canvas.NewLine(color.Transparent))
	}
	text.SetAlign(fyne.TextAlignCenter)
	out := []fyne.CanvasObject{ring, circle}
	for _, d := range strokes {
		out = append(out, d)
	}
	r := &kit.Drawing{Of: p, Things: append(out, text)}
	r.Least = func() fyne.Size { return fyne.NewSquareSize(p.diameter) }
	r.Lay = func(size fyne.Size) {
		d := p.diameter
		kit.Put(circle, fyne.NewPos(0, 0), fyne.NewSquareSize(d))
		kit.Put(ring, fyne.NewPos(-5, -5), fyne.NewSquareSize(d+10))
		mid, rad := float64(d)/2, float64(d)/2-1.5
		for i, l := range strokes {
			from := 2 * math.Pi * float64(i) / dashes
			to := from + math.Pi/dashes
			l.Position1 = fyne.NewPos(float32(mid+rad*math.Cos(from)), float32(mid+rad*math.Sin(from)))
			l.Position2 = fyne.NewPos(float32(mid+rad*math.Cos(to)), float32(mid+rad*math.Sin(to)))
		}
		m := text.MinSize()
		kit.Put(text, fyne.NewPos(0, (d-m.Height)/2), fyne.NewSize(d, m.Height))
	}
	r.Paint = func() {
		ink, faint, edge, paper := theme.Color(look.ColorInk), theme.Color(look.ColorFaint), theme.Color(look.ColorEdge), theme.Color(look.ColorPaper)
		fill, rim, width, words := paper, edge, float32(1.5), look.ColorInk
		switch p.state {
		case plateToCome:
			rim, words = paper, look.ColorFaint
			if p.small() {
				rim, width = theme.Color(look.ColorRule), 1
			}
		case plateNow:
			rim, width = ink, 5
		case plateDone:
			rim, width, words = faint, 2, look.ColorFaint
		case plateChosen:
			fill, rim, words = ink, ink, look.ColorPaper
		}
		if p.hovered && p.state == plateOffered {
			rim = ink
		}
		circle.FillColor, circle.StrokeColor, circle.StrokeWidth = fill, rim, width
		ring.FillColor, ring.StrokeColor, ring.StrokeWidth = paper, paper, 0
		if p.focused {
			ring.StrokeColor, ring.StrokeWidth = ink, 2
		}
		for _, l := range strokes {
			l.StrokeColor, l.StrokeWidth = edge, 3
			l.Hidden = p.state != plateToCome || p.small()
		}
		size := p.diameter * 0.23
		text.SetSpans(kit.Span{Text: p.label, Size: size, Bold: p.state != plateToCome, Color: words})
	}
	return r.Painted()
}

const dashes = 20

// choicePlate is a plate that can be chosen, by a tap or by Enter and Space.
type choicePlate struct{ plate }

func newChoicePlate(label string, chosen bool, diameter float32, tapped func()) *choicePlate {
	c := &choicePlate{plate{label: label, state: plateOffered, diameter: diameter, tapped: tapped}}
	if chosen {
		c.state = plateChosen
	}
	c.ExtendBaseWidget(c)
	return c
}

func (c *choicePlate) CreateRenderer() fyne.WidgetRenderer { return c.plate.CreateRenderer() }

func (c *choicePlate) choose(yes bool) {
	c.state = plateOffered
	if yes {
		c.state = plateChosen
	}
	c.Refresh()
}

func (c *choicePlate) Tapped(*fyne.PointEvent) { c.tapped() }

func (c *choicePlate) MouseIn(*desktop.MouseEvent) { c.hovered = true; c.Refresh() }

func (c *choicePlate) MouseMoved(*desktop.MouseEvent) {}

func (c *choicePlate) MouseOut() { c.hovered = false; c.Refresh() }

func (c *choicePlate) Cursor() desktop.Cursor { return desktop.PointerCursor }

func (c *choicePlate) FocusGained() { c.focused = true; c.Refresh() }

func (c *choicePlate) FocusLost() { c.focused = false; c.Refresh() }

// TypedRune chooses on space; other characters go to the page.
func (c *choicePlate) TypedRune(r rune) {
	if r == ' ' {
		c.tapped()
		return
	}
	kit.PassRune(c, r)
}

// TypedKey chooses on Enter; other keys go to the page.
func (c *choicePlate) TypedKey(ev *fyne.KeyEvent) {
	if ev.Name != fyne.KeySpace { // its rune follows
		kit.PassKey(c, ev)
	}
}
