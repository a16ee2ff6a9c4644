package kit

import (
	"cmp"
	"math"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// Span is a piece of text in one style. The zero style is body text in ink.
type Span struct {
	Text   string
	Size   float32             // zero: look.TextBody
	Color  fyne.ThemeColorName // empty: look.ColorInk
	Bold   bool
	Italic bool
	Serif  bool // the heading face; Bold and Italic have no effect on it
	Count  bool // with Serif: digits of one width, for what counts down
}

// Text shows spans one after another, broken into lines where the width runs out
// and at "\n". It cannot be pressed or focused. Change it with SetText or SetSpans. The
// toolkit's RichText knows sizes and colours by their names in the theme only, and has a margin.
type Text struct {
	widget.BaseWidget
	spans  []Span
	align  fyne.TextAlign
	oneRow bool
	even   bool    // its lines are about as long as one another
	wide   bool    // its lines are as long as there is room
	most   int     // rows shown at most; zero: textRows
	width  float32 // the width that lines were last broken to
	// natural is the width of the text on as few lines as it can have.
	natural float32
	drawn   *textRenderer // while the toolkit keeps it
}

// NewText makes a wrapping text of spans.
func NewText(spans ...Span) *Text {
	t := &Text{spans: spans}
	t.ExtendBaseWidget(t)
	return t
}

// NewLine makes a text of one line that never wraps; its least width is its own.
func NewLine(spans ...Span) *Text {
	t := &Text{spans: spans, oneRow: true}
	t.ExtendBaseWidget(t)
	return t
}

// Say shows a sentence, or takes no room without any.
func (t *Text) Say(sentence string) {
	t.SetText(sentence)
	SetVisible(t, sentence != "")
}

// Heading says the state of things, once per page.
func Heading(s string) *Text {
	t := NewText(Span{Text: s, Size: look.TextHeading, Serif: true})
	t.even = true
	return t
}

// Subheading names a thing within a page: a dough, a loaf.
func Subheading(s string) *Text {
	return NewText(Span{Text: s, Size: look.TextLarge, Serif: true})
}

// Section is the small bold title of a part of a page.
func Section(s string) *Text {
	return NewText(Span{Text: s, Bold: true, Color: look.ColorFaint})
}

// Eyebrow is the small faint line above a heading: what a page is of, one thing after another.
func Eyebrow(s string) *Text {
	return Faint(s).Wide()
}

// Body is ordinary text.
func Body(s string) *Text { return NewText(Span{Text: s}) }

// Lead is the paragraph that opens a page.
func Lead(spans ...Span) *Text {
	for i := range spans {
		spans[i].Size = cmp.Or(spans[i].Size, look.TextLead)
	}
	return NewText(spans...)
}

// Strong is body text that stands out.
func Strong(s string) *Text { return NewText(Span{Text: s, Bold: true}) }

// Faint is body text that stands back.
func Faint(s string) *Text { return NewText(Span{Text: s, Color: look.ColorFaint}) }

// Small is the smallest text: units, origins, captions.
func Small(s string) *Text {
	return NewText(Span{Text: s, Size: look.TextSmall, Color: look.ColorFaint})
}

// GreatFigure is the one figure of a page, in crust: the minutes to the next turn.
func GreatFigure(s string) *Text {
	return NewLine(Span{Text: s, Size: look.TextFigure, Serif: true, Color: look.ColorCrust})
}

// SetText replaces all spans by one, which keeps the style of the first.
func (t *Text) SetText(s string) {
	style := Span{}
	if len(t.spans) > 0 {
		style = t.spans[0]
	}
	style.Text = s
	if len(t.spans) == 1 && t.spans[0] == style {
		return
	}
	t.spans = []Span{style}
	t.Refresh()
}

// SetSpans replaces the text.
func (t *Text) SetSpans(spans ...Span) {
	t.spans = spans
	t.Refresh()
}

// SetAlign places the lines within the width.
func (t *Text) SetAlign(a fyne.TextAlign) {
	t.align = a
	t.Refresh()
}

// longest is how long a line grows: about eighty letters, since on a page as wide as a large
// window the eye would not find back to the next (WCAG 2.2, success criterion 1.4.8). A letter
// of our faces is some 0.42 of its size wide. What is small ends where the text over it does.
func (t *Text) longest() float32 {
	if t.wide {
		return math.MaxFloat32
	}
	size := float32(look.TextBody)
	for _, s := range t.spans {
		size = max(size, s.size())
	}
	return 34 * size
}

// Wide lets its lines grow as long as there is room: for what is looked up rather than read.
func (t *Text) Wide() *Text {
	t.wide = true
	return t
}

// SetRows limits how many rows are shown; the last ends in "…" where there is more.
func (t *Text) SetRows(most int) {
	t.most = most
	t.Refresh()
}

// String gives the words shown.
func (t *Text) String() string {
	var b strings.Builder
	for _, s := range t.spans {
		b.WriteString(s.Text)
	}
	return b.String()
}

// Resize breaks the lines anew for the width.
func (t *Text) Resize(s fyne.Size) {
	changed := s.Width != t.width
	t.width = s.Width
	t.BaseWidget.Resize(s)
	if changed && !t.oneRow {
		canvas.Refresh(t)
	}
}

func (t *Text) CreateRenderer() fyne.WidgetRenderer {
	t.drawn = &textRenderer{t: t}
	t.drawn.build()
	return t.drawn
}

// MinSize is asked for so often that to have the toolkit find the renderer, and note the time
// at which it did, takes a good part of what it takes to lay a page out.
func (t *Text) MinSize() fyne.Size {
	if t.drawn == nil {
		return t.BaseWidget.MinSize()
	}
	return t.drawn.min
}

func styleText(c *canvas.Text, s Span, text string) {
	c.Text = text
	c.TextSize = s.size()
	c.Color = theme.Color(s.color())
	c.TextStyle = fyne.TextStyle{Bold: s.Bold && !s.Serif, Italic: s.Italic && !s.Serif}
	c.FontSource = s.face()
}

// face is the font of the span, nil for the theme's.
func (s Span) face() fyne.Resource {
	switch {
	case s.Serif && s.Count:
		return look.SerifCount()
	case s.Serif:
		return look.Serif()
	}
	return nil
}

func (s Span) size() float32 {
	return cmp.Or(s.Size, look.TextBody)
}

func (s Span) color() fyne.ThemeColorName {
	return cmp.Or(s.Color, look.ColorInk)
}

// leading is the height of a line as a multiple of the size of its text. Large
// text needs less.
func (s Span) leading() float32 {
	if s.size() >= look.TextTitle {
		return 1.2
	}
	return 1.45
}

// Extent is how large the span is on a line of its own. Of a text made only to be measured the
// toolkit would keep what draws it for a minute.
func (s Span) Extent() fyne.Size {
	_, size := breakText(&wording{spans: oneRow([]Span{s})}, -1, 1)
	return size
}

func (s Span) measure(text string) (fyne.Size, float32) {
	c := fyne.TextStyle{Bold: s.Bold && !s.Serif, Italic: s.Italic && !s.Serif}
	return fyne.CurrentApp().Driver().RenderedTextSize(text, s.size(), c, s.face())
}
