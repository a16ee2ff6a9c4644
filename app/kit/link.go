package kit

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// Link is a word or two in crust that goes somewhere. It is reached by Tab. One that is
// longer than there is room for, as a name can be, ends in "…".
type Link struct {
	widget.BaseWidget
	pressable
	OnTapped func()

	span Span  // all of it
	text *Text // as much of it as there is room for
}

// leastLink is the room that a link asks for at least, however long it is.
const leastLink = 140

// NewLink makes a link in body size.
func NewLink(words string, tapped func()) *Link {
	return NewLinkSpan(Span{Text: words, Color: look.ColorCrust}, tapped)
}

// NewLinkSpan makes a link in a style of its own: a bold name in ink, say.
func NewLinkSpan(s Span, tapped func()) *Link {
	l := &Link{span: s, text: NewLine(s), OnTapped: tapped}
	l.pressable = pressable{self: l, press: l.follow}
	l.ExtendBaseWidget(l)
	return l
}

// Say shows words, or takes no room without any.
func (l *Link) Say(words string) {
	l.SetText(words)
	SetVisible(l, words != "")
}

// SetText changes the words.
func (l *Link) SetText(s string) {
	l.span.Text = s
	l.Refresh()
}

// Text gives the words.
func (l *Link) Text() string { return l.span.Text }

// natural is how wide all of it is.
func (l *Link) natural() float32 {
	size, _ := l.span.measure(l.span.Text)
	return size.Width
}

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
func (r *linkRenderer) MinSize() fyne.Size {
	return fyne.NewSize(min(r.l.natural(), leastLink), r.l.text.MinSize().Height)
}

func (r *linkRenderer) Layout(size fyne.Size) {
	cut := r.l.span
	if size.Width > 0 && r.l.natural() > size.Width {
		cut.Text = Fit(cut, size.Width)
	}
	if len(r.l.text.spans) != 1 || r.l.text.spans[0] != cut {
		r.l.text.SetSpans(cut)
	}
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
		r.under.FillColor = theme.Color(r.l.span.color())
	}
	r.l.text.Refresh()
	r.Layout(r.l.Size())
	r.under.Refresh()
}
