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

	box         *canvas.Rectangle
	ring        FocusRing
	words, keys *Text
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
	b := &Button{kind: kind, label: label, OnTapped: tapped, box: canvas.NewRectangle(color.Transparent), ring: NewFocusRing(look.Radius),
		words: NewLine(), keys: NewLine()}
	b.box.CornerRadius, b.box.StrokeWidth = look.Radius, 1
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

// SetBig makes the button one for floury hands, or as others are.
func (b *Button) SetBig(big bool) {
	if b.big != big {
		b.big = big
		b.Refresh()
	}
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
	d := &Drawing{Of: b, Things: []fyne.CanvasObject{b.ring.Object(), b.box, b.words, b.keys}, Least: b.least, Lay: b.lay, Paint: b.paint}
	return d.Painted()
}

func (b *Button) pad() float32 {
	if b.kind == quietKind {
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

func (b *Button) least() fyne.Size {
	w := b.words.MinSize().Width + 2*b.pad()
	if b.key != "" {
		w += look.Space(2) + b.keys.MinSize().Width
	}
	if b.big {
		return fyne.NewSize(max(w+look.Space(6), look.Space(30)), look.Space(16))
	}
	return fyne.NewSize(max(w, look.Space(10)), look.Space(10))
}

func (b *Button) lay(size fyne.Size) {
	b.box.Resize(size)
	b.ring.around(fyne.NewPos(0, 0), size)
	w, k := b.words.MinSize(), b.keys.MinSize()
	whole := w.Width
	if b.key != "" {
		whole += look.Space(2) + k.Width
	}
	x := (size.Width - whole) / 2
	Put(b.words, fyne.NewPos(x, (size.Height-w.Height)/2), w)
	Put(b.keys, fyne.NewPos(x+w.Width+look.Space(2), (size.Height-k.Height)/2), k)
}

func (b *Button) paint() {
	fill, edge, ink := b.colours()
	b.box.FillColor, b.box.StrokeColor = fill, edge
	b.ring.Show(b, b.focused)
	filled := b.kind == primaryKind || b.kind == emberKind || b.kind == inkKind
	words := Span{Text: b.label, Bold: filled, Color: ink}
	if b.big {
		words.Size = look.TextLarge
	}
	b.words.SetSpans(words)
	keyInk := look.ColorFaint
	if filled {
		keyInk = ink
	}
	b.keys.SetSpans(Span{Text: KeyText(b.key), Size: look.TextSmall, Color: keyInk})
}

func (b *Button) colours() (fill, edge color.Color, ink fyne.ThemeColorName) {
	if b.Disabled() {
		edge = theme.Color(look.ColorRule)
		return clearOf(edge), edge, look.ColorFaint
	}
	name := map[buttonKind]fyne.ThemeColorName{
		primaryKind: look.ColorCrust, emberKind: look.ColorEmber, inkKind: look.ColorInk,
	}[b.kind]
	switch {
	case b.kind == inkKind:
		return theme.Color(name), theme.Color(name), look.ColorPaper
	case name != "":
		c := theme.Color(name)
		if b.hovered {
			c = mix(c, theme.Color(look.ColorInk), 0.12)
		}
		return c, c, look.ColorOnCrust
	}
	edge = theme.Color(look.ColorEdge)
	fill = clearOf(edge)
	if b.hovered {
		fill = theme.Color(look.ColorWash)
	}
	if b.kind == quietKind {
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
