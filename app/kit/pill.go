package kit

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// Pill is a rounded word. With OnRemove it is a filter in words that a tap (or
// Delete, or Enter) takes away; with OnTapped it chooses, and Chosen fills it.
type Pill struct {
	widget.BaseWidget
	Pressable
	OnRemove func()
	OnTapped func()

	words  string
	chosen bool
}

// NewPill makes a filter that can be removed.
func NewPill(words string, remove func()) *Pill {
	return newPill(&Pill{words: words, OnRemove: remove})
}

// NewChoicePill makes a word that can be chosen.
func NewChoicePill(words string, chosen bool, tapped func()) *Pill {
	return newPill(&Pill{words: words, chosen: chosen, OnTapped: tapped})
}

func newPill(p *Pill) *Pill {
	p.Pressable = Pressable{self: p, press: p.act}
	p.ExtendBaseWidget(p)
	return p
}

// SetChosen fills the pill or empties it.
func (p *Pill) SetChosen(yes bool) {
	if p.chosen != yes {
		p.chosen = yes
		p.Refresh()
	}
}

// SetWords changes what the pill says.
func (p *Pill) SetWords(words string) {
	if p.words != words {
		p.words = words
		p.Refresh()
	}
}

// Words gives what the pill says.
func (p *Pill) Words() string { return p.words }

func (p *Pill) act() {
	switch {
	case p.OnRemove != nil:
		p.OnRemove()
	case p.OnTapped != nil:
		p.OnTapped()
	}
}

// TypedKey removes or chooses on Enter and Space; Delete removes.
func (p *Pill) TypedKey(ev *fyne.KeyEvent) {
	if p.OnRemove != nil && (ev.Name == fyne.KeyDelete || ev.Name == fyne.KeyBackspace) {
		p.OnRemove()
		return
	}
	p.Pressable.TypedKey(ev)
}

func (p *Pill) CreateRenderer() fyne.WidgetRenderer {
	ring := NewFocusRing(look.Space(4))
	box := canvas.NewRectangle(color.Transparent)
	text := NewLine(Span{})
	d := &Drawing{Of: p, Things: []fyne.CanvasObject{ring.Object(), box, text}}
	d.Least = func() fyne.Size { return fyne.NewSize(text.MinSize().Width+look.Space(6), look.Space(8)) }
	d.Lay = func(size fyne.Size) {
		box.Resize(size)
		box.CornerRadius = size.Height / 2
		ring.around(fyne.NewPos(0, 0), size)
		m := text.MinSize()
		Put(text, fyne.NewPos((size.Width-m.Width)/2, (size.Height-m.Height)/2), m)
	}
	d.Paint = func() {
		ink := look.ColorInk
		edge := theme.Color(look.ColorEdge)
		fill := clearOf(edge)
		if p.hovered {
			fill = theme.Color(look.ColorWash)
		}
		if p.chosen {
			fill, ink = theme.Color(look.ColorInk), look.ColorPaper
		}
		box.StrokeWidth = 1
		ring.Show(p, p.focused)
		box.FillColor, box.StrokeColor = fill, edge
		spans := []Span{{Text: p.words, Color: ink}}
		if p.OnRemove != nil {
			spans = append(spans, Span{Text: " ×", Color: look.ColorFaint})
		}
		text.SetSpans(spans...)
	}
	return d.Painted()
}
