package kit

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// Link is a word or two in crust that goes somewhere. It is reached by Tab.
type Link struct {
	widget.BaseWidget
	pressable
	OnTapped func()

	text *Text
}

// NewLink makes a link in body size.
func NewLink(words string, tapped func()) *Link {
	return NewLinkSpan(Span{Text: words, Color: look.ColorCrust}, tapped)
}

// NewLinkSpan makes a link in a style of its own: a bold name in ink, say.
func NewLinkSpan(s Span, tapped func()) *Link {
	l := &Link{text: NewLine(s), OnTapped: tapped}
	l.pressable = pressable{self: l, press: l.follow}
	l.ExtendBaseWidget(l)
	return l
}

// SetText changes the words.
func (l *Link) SetText(s string) {
	l.text.SetText(s)
	l.Refresh()
}

// Text gives the words.
func (l *Link) Text() string { return l.text.String() }

func (l *Link) follow() {
	if l.OnTapped != nil {
		l.OnTapped()
	}
}

func (l *Link) CreateRenderer() fyne.WidgetRenderer {
	r := &linkRenderer{l: l, under: canvas.NewRectangle(color.Transparent), ring: NewFocusRing(0), reach: newReach(l)}
	r.Refresh()
	return r
}

type linkRenderer struct {
	l     *Link
	under *canvas.Rectangle
	ring  FocusRing
	reach *reach
}

func (r *linkRenderer) Destroy() {}
func (r *linkRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.ring.Object(), r.l.text, r.under, r.reach}
}
func (r *linkRenderer) MinSize() fyne.Size { return r.l.text.MinSize() }

func (r *linkRenderer) Layout(size fyne.Size) {
	m := r.l.text.MinSize()
	r.l.text.Resize(m)
	r.l.text.Move(fyne.NewPos(0, (size.Height-m.Height)/2))
	r.ring.Around(r.l.text.Position(), m)
	r.reach.place(size)
	r.under.Resize(fyne.NewSize(m.Width, 1))
	r.under.Move(fyne.NewPos(0, (size.Height+m.Height)/2-2))
}

func (r *linkRenderer) Refresh() {
	r.under.FillColor = color.Transparent
	r.ring.Show(r.l, r.l.focused)
	if r.l.hovered {
		r.under.FillColor = theme.Color(r.l.text.spans[0].color())
	}
	r.l.text.Refresh()
	r.Layout(r.l.Size())
	r.under.Refresh()
}
