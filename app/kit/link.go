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
	Pressable
	OnTapped func()

	span Span    // all of it
	wide float32 // how wide that is; 0 until it is asked for
	text *Text   // as much of it as there is room for
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
	l.Pressable = Pressable{self: l, press: l.follow}
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
	l.span.Text, l.wide = s, 0
	l.Refresh()
}

// Text gives the words.
func (l *Link) Text() string { return l.span.Text }

// natural is how wide all of it is.
func (l *Link) natural() float32 {
	if l.wide == 0 {
		size, _ := l.span.measure(l.span.Text)
		l.wide = size.Width
	}
	return l.wide
}

func (l *Link) follow() { call(l.OnTapped) }

func (l *Link) CreateRenderer() fyne.WidgetRenderer {
	under := canvas.NewRectangle(color.Transparent)
	ring := NewFocusRing(0)
	reach := newReach(l)
	d := &Drawing{Of: l, Things: []fyne.CanvasObject{ring.Object(), l.text, under, reach}}
	d.Least = func() fyne.Size { return fyne.NewSize(min(l.natural(), leastLink), l.text.MinSize().Height) }
	d.Lay = func(size fyne.Size) {
		cut := l.span
		if size.Width > 0 && l.natural() > size.Width {
			cut.Text = Fit(cut, size.Width)
		}
		if len(l.text.spans) != 1 || l.text.spans[0] != cut {
			l.text.SetSpans(cut)
		}
		m := l.text.MinSize()
		Put(l.text, fyne.NewPos(0, (size.Height-m.Height)/2), m)
		ring.around(l.text.Position(), m)
		reach.place(size)
		Put(under, fyne.NewPos(0, (size.Height+m.Height)/2-2), fyne.NewSize(m.Width, 1))
	}
	d.Paint = func() {
		under.FillColor = color.Transparent
		ring.Show(l, l.focused)
		if l.hovered {
			under.FillColor = theme.Color(l.span.color())
		}
		l.text.Refresh()
	}
	return d.Painted()
}
