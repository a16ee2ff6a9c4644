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

// Link is a word or two in crust that goes somewhere. It is reached by Tab.
type Link struct {
	widget.BaseWidget
	OnTapped func()

	text    *Text
	marked  bool // hovered or focused: underlined
	focused bool
}

// NewLink makes a link in body size.
func NewLink(words string, tapped func()) *Link {
	return NewLinkSpan(Span{Text: words, Color: look.ColorCrust}, tapped)
}

// NewLinkSpan makes a link in a style of its own: a bold name in ink, say.
func NewLinkSpan(s Span, tapped func()) *Link {
	l := &Link{text: NewLine(s), OnTapped: tapped}
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

// Tapped follows the link.
func (l *Link) Tapped(*fyne.PointEvent) {
	focusOn(l)
	l.follow()
}

func (l *Link) follow() {
	if l.OnTapped != nil {
		l.OnTapped()
	}
}

// FocusGained is called by Fyne.
func (l *Link) FocusGained() { l.focused = true; l.Refresh(); reveal(l) }

// FocusLost is called by Fyne.
func (l *Link) FocusLost() { l.focused = false; l.Refresh() }

// TypedKey follows the link on Enter and Space.
func (l *Link) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		l.follow()
	default:
		passKey(l, ev)
	}
}

// TypedRune hands the character on to the page.
func (l *Link) TypedRune(r rune) { passRune(l, r) }

// MouseIn is called by Fyne.
func (l *Link) MouseIn(*desktop.MouseEvent) { l.marked = true; l.Refresh() }

// MouseMoved is called by Fyne.
func (l *Link) MouseMoved(*desktop.MouseEvent) {}

// MouseOut is called by Fyne.
func (l *Link) MouseOut() { l.marked = false; l.Refresh() }

// Cursor is a pointing hand.
func (l *Link) Cursor() desktop.Cursor { return desktop.PointerCursor }

// CreateRenderer is called by Fyne.
func (l *Link) CreateRenderer() fyne.WidgetRenderer {
	r := &linkRenderer{l: l, under: canvas.NewRectangle(color.Transparent)}
	r.Refresh()
	return r
}

type linkRenderer struct {
	l     *Link
	under *canvas.Rectangle
}

func (r *linkRenderer) Destroy()                     {}
func (r *linkRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.l.text, r.under} }
func (r *linkRenderer) MinSize() fyne.Size           { return r.l.text.MinSize() }

func (r *linkRenderer) Layout(size fyne.Size) {
	m := r.l.text.MinSize()
	r.l.text.Resize(m)
	r.l.text.Move(fyne.NewPos(0, (size.Height-m.Height)/2))
	thick := float32(1)
	if r.l.focused {
		thick = 2
	}
	r.under.Resize(fyne.NewSize(m.Width, thick))
	r.under.Move(fyne.NewPos(0, (size.Height+m.Height)/2-2))
}

func (r *linkRenderer) Refresh() {
	r.under.FillColor = color.Transparent
	if r.l.marked || r.l.focused {
		r.under.FillColor = theme.Color(r.l.text.spans[0].color())
	}
	r.l.text.Refresh()
	r.Layout(r.l.Size())
	r.under.Refresh()
}
