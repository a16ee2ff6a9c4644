package kit

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// buttonKind says how much a button asks for attention.
type buttonKind int

const (
	plainKind   buttonKind = iota // outlined: one of several things to do
	primaryKind                   // filled with crust: the main thing, once per page
	quietKind                     // words alone
	emberKind                     // filled with ember: what destroys
	inkKind                       // filled with ink: the main thing while a tasting is sealed
)

// Button does one thing when tapped, or when Enter or Space is pressed on it.
type Button struct {
	widget.DisableableWidget
	Pressable
	// OnTapped may be nil and may be changed.
	OnTapped func()

	label string
	key   string
	kind  buttonKind
	big   bool
	ready func() bool // asked before it acts: the dialog around it may not be ready
}

// NewButton makes an outlined button.
func NewButton(label string, tapped func()) *Button { return newButton(plainKind, label, tapped) }

// PrimaryButton makes the main button of a page.
func PrimaryButton(label string, tapped func()) *Button {
	return newButton(primaryKind, label, tapped)
}

// QuietButton makes a button of words alone.
func QuietButton(label string, tapped func()) *Button { return newButton(quietKind, label, tapped) }

// EmberButton makes a button for what destroys.
func EmberButton(label string, tapped func()) *Button { return newButton(emberKind, label, tapped) }

// InkButton makes a main button without colour.
func InkButton(label string, tapped func()) *Button { return newButton(inkKind, label, tapped) }

func newButton(kind buttonKind, label string, tapped func()) *Button {
	b := &Button{kind: kind, label: label, OnTapped: tapped}
	b.Pressable = Pressable{self: b, press: b.act}
	b.ExtendBaseWidget(b)
	return b
}

// WithKey writes a key inside the button, at the right of its words, and gives the
// button back. It binds nothing: the page's keys do.
func (b *Button) WithKey(key string) *Button {
	b.key = key
	b.Refresh()
	return b
}

// Big makes the button one for floury hands, and gives it back.
func (b *Button) Big() *Button {
	b.big = true
	b.Refresh()
	return b
}

// SetLabel changes the words.
func (b *Button) SetLabel(s string) {
	if b.label != s {
		b.label = s
		b.Refresh()
	}
}

// Main says whether it is the main button of where it stands.
func (b *Button) Main() bool { return b.kind == primaryKind || b.kind == inkKind }

// Label gives the words.
func (b *Button) Label() string { return b.label }

// Tapped does what the button is for; one that is disabled does not take the keyboard
// either.
func (b *Button) Tapped(ev *fyne.PointEvent) {
	if !b.Disabled() {
		b.Pressable.Tapped(ev)
	}
}

func (b *Button) act() {
	if !b.Disabled() && b.OnTapped != nil && (b.ready == nil || b.ready()) {
		b.OnTapped()
	}
}

// Cursor is a pointing hand over a button that works.
func (b *Button) Cursor() desktop.Cursor {
	if b.Disabled() {
		return desktop.DefaultCursor
	}
	return desktop.PointerCursor
}

func (b *Button) CreateRenderer() fyne.WidgetRenderer {
	r := &buttonRenderer{b: b, box: canvas.NewRectangle(color.Transparent), ring: NewFocusRing(look.Radius),
		words: NewLine(Span{}), key: NewLine(Span{})}
	r.box.CornerRadius = look.Radius
	r.Refresh()
	return r
}

type buttonRenderer struct {
	b          *Button
	ring       FocusRing
	box        *canvas.Rectangle
	words, key *Text
}

func (r *buttonRenderer) Destroy() {}
func (r *buttonRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.ring.Object(), r.box, r.words, r.key}
}

func (r *buttonRenderer) pad() float32 {
	if r.b.kind == quietKind {
		return quietPad
	}
	return look.Space(4.5)
}

// quietPad is the room around the words of a quiet button.
const quietPad = 8

// QuietRow sets quiet buttons side by side so that the words of the first of a line begin where
// the page's do.
func QuietRow(gap float32, buttons ...fyne.CanvasObject) *fyne.Container {
	return container.New(&flowLayout{gap: look.Space(gap), begin: true}, buttons...)
}

func (r *buttonRenderer) MinSize() fyne.Size {
	w := r.words.MinSize().Width + 2*r.pad()
	if r.b.key != "" {
		w += look.Space(2) + r.key.MinSize().Width
	}
	if r.b.big {
		return fyne.NewSize(max(w+look.Space(6), look.Space(30)), look.Space(16))
	}
	return fyne.NewSize(max(w, look.Space(10)), look.Space(10))
}

func (r *buttonRenderer) Layout(size fyne.Size) {
	r.box.Resize(size)
	r.ring.around(fyne.NewPos(0, 0), size)
	w, k := r.words.MinSize(), r.key.MinSize()
	whole := w.Width
	if r.b.key != "" {
		whole += look.Space(2) + k.Width
	}
	x := (size.Width - whole) / 2
	Put(r.words, fyne.NewPos(x, (size.Height-w.Height)/2), w)
	Put(r.key, fyne.NewPos(x+w.Width+look.Space(2), (size.Height-k.Height)/2), k)
}

func (r *buttonRenderer) Refresh() {
	fill, edge, ink := r.colours()
	r.box.FillColor = fill
	r.box.StrokeColor = edge
	r.box.StrokeWidth = 1
	r.ring.Show(r.b, r.b.focused)
	filled := r.b.kind == primaryKind || r.b.kind == emberKind || r.b.kind == inkKind
	words := Span{Text: r.b.label, Bold: filled, Color: ink}
	if r.b.big {
		words.Size = look.TextLarge
	}
	r.words.SetSpans(words)
	keyInk := look.ColorFaint
	if filled {
		keyInk = ink
	}
	r.key.SetSpans(Span{Text: KeyText(r.b.key), Size: look.TextSmall, Color: keyInk})
	r.box.Refresh()
	r.Layout(r.b.Size())
}

func (r *buttonRenderer) colours() (fill, edge color.Color, ink fyne.ThemeColorName) {
	if r.b.Disabled() {
		edge = theme.Color(look.ColorRule)
		return clearOf(edge), edge, look.ColorFaint
	}
	name := map[buttonKind]fyne.ThemeColorName{
		primaryKind: look.ColorCrust, emberKind: look.ColorEmber, inkKind: look.ColorInk,
	}[r.b.kind]
	switch {
	case r.b.kind == inkKind:
		return theme.Color(name), theme.Color(name), look.ColorPaper
	case name != "":
		c := theme.Color(name)
		if r.b.hovered {
			c = mix(c, theme.Color(look.ColorInk), 0.12)
		}
		return c, c, look.ColorOnCrust
	}
	edge = theme.Color(look.ColorEdge)
	fill = clearOf(edge)
	if r.b.hovered {
		fill = theme.Color(look.ColorWash)
	}
	if r.b.kind == quietKind {
		return fill, fill, look.ColorCrust
	}
	return fill, edge, look.ColorInk
}

// clearOf is a colour that cannot be seen, to fill an outline of colour c with: the
// painter blends the rim of an outline with its filling, and plain transparent black
// would darken it.
func clearOf(c color.Color) color.Color {
	n := color.NRGBAModel.Convert(c).(color.NRGBA)
	n.A = 1
	return n
}

// mix goes from a to b by part t (0 to 1).
func mix(a, b color.Color, t float64) color.Color {
	x, y := color.NRGBAModel.Convert(a).(color.NRGBA), color.NRGBAModel.Convert(b).(color.NRGBA)
	f := func(p, q uint8) uint8 { return uint8(float64(p) + (float64(q)-float64(p))*t) }
	return color.NRGBA{R: f(x.R, y.R), G: f(x.G, y.G), B: f(x.B, y.B), A: f(x.A, y.A)}
}
