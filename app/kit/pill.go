package kit

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// Pill is a rounded word. With OnRemove it is a filter in words that a tap (or
// Delete, or Enter) takes away; with OnTapped it chooses, and Chosen fills it.
type Pill struct {
	widget.BaseWidget
	OnRemove func()
	OnTapped func()

	words            string
	chosen           bool
	hovered, focused bool
}

// NewPill makes a filter that can be removed.
func NewPill(words string, remove func()) *Pill {
	p := &Pill{words: words, OnRemove: remove}
	p.ExtendBaseWidget(p)
	return p
}

// NewChoicePill makes a word that can be chosen.
func NewChoicePill(words string, chosen bool, tapped func()) *Pill {
	p := &Pill{words: words, chosen: chosen, OnTapped: tapped}
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

// Tapped removes or chooses.
func (p *Pill) Tapped(*fyne.PointEvent) {
	focusOn(p)
	p.act()
}

func (p *Pill) act() {
	switch {
	case p.OnRemove != nil:
		p.OnRemove()
	case p.OnTapped != nil:
		p.OnTapped()
	}
}

// FocusGained is called by Fyne.
func (p *Pill) FocusGained() { p.focused = true; p.Refresh(); reveal(p) }

// FocusLost is called by Fyne.
func (p *Pill) FocusLost() { p.focused = false; p.Refresh() }

// TypedKey removes or chooses on Enter and Space; Delete removes.
func (p *Pill) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		p.act()
	case fyne.KeyDelete, fyne.KeyBackspace:
		if p.OnRemove != nil {
			p.OnRemove()
		}
	default:
		passKey(p, ev)
	}
}

// TypedRune hands the character on to the page.
func (p *Pill) TypedRune(r rune) { passRune(p, r) }

// MouseIn is called by Fyne.
func (p *Pill) MouseIn(*desktop.MouseEvent) { p.hovered = true; p.Refresh() }

// MouseMoved is called by Fyne.
func (p *Pill) MouseMoved(*desktop.MouseEvent) {}

// MouseOut is called by Fyne.
func (p *Pill) MouseOut() { p.hovered = false; p.Refresh() }

// Cursor is a pointing hand.
func (p *Pill) Cursor() desktop.Cursor { return desktop.PointerCursor }

// CreateRenderer is called by Fyne.
func (p *Pill) CreateRenderer() fyne.WidgetRenderer {
	r := &pillRenderer{p: p, box: canvas.NewRectangle(color.Transparent), text: NewLine(Span{})}
	r.Refresh()
	return r
}

type pillRenderer struct {
	p    *Pill
	box  *canvas.Rectangle
	text *Text
}

func (r *pillRenderer) Destroy()                     {}
func (r *pillRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.box, r.text} }

func (r *pillRenderer) MinSize() fyne.Size {
	return fyne.NewSize(r.text.MinSize().Width+look.Space(6), look.Space(7))
}

func (r *pillRenderer) Layout(size fyne.Size) {
	r.box.Resize(size)
	r.box.CornerRadius = size.Height / 2
	m := r.text.MinSize()
	r.text.Resize(m)
	r.text.Move(fyne.NewPos((size.Width-m.Width)/2, (size.Height-m.Height)/2))
}

func (r *pillRenderer) Refresh() {
	p := r.p
	ink := look.ColorInk
	edge := theme.Color(look.ColorEdge)
	fill := clearOf(edge)
	if p.hovered {
		fill = theme.Color(look.ColorWash)
	}
	if p.chosen {
		fill, ink = theme.Color(look.ColorInk), look.ColorPaper
	}
	r.box.StrokeWidth = 1
	if p.focused {
		edge = theme.Color(look.ColorCrust)
		r.box.StrokeWidth = 2
	}
	r.box.FillColor, r.box.StrokeColor = fill, edge
	spans := []Span{{Text: p.words, Color: ink}}
	if p.OnRemove != nil {
		spans = append(spans, Span{Text: " ×", Color: look.ColorFaint})
	}
	r.text.SetSpans(spans...)
	r.box.Refresh()
	r.Layout(p.Size())
}
