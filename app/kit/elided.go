package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// Elided is one line of text in one style that ends in "…" where the width runs
// out, instead of asking for more of it. It is of the sizes that a Text has, which the toolkit's
// truncating labels have not.
type Elided struct {
	widget.BaseWidget
	span Span
	line *Text
}

// NewElided makes a line.
func NewElided(s Span) *Elided {
	e := &Elided{span: s, line: NewLine(s)}
	e.ExtendBaseWidget(e)
	return e
}

// SetSpan shows another text. It is cheap when nothing changed.
func (e *Elided) SetSpan(s Span) {
	if e.span != s {
		e.span = s
		e.Refresh()
	}
}

// SetText shows other words in the same style.
func (e *Elided) SetText(words string) {
	s := e.span
	s.Text = words
	e.SetSpan(s)
}

// String gives the whole text, however much of it is seen.
func (e *Elided) String() string { return e.span.Text }

func (e *Elided) CreateRenderer() fyne.WidgetRenderer {
	width := float32(-1)
	var whole Span
	d := &Drawing{Of: e, Things: []fyne.CanvasObject{e.line}}
	d.Least = func() fyne.Size { return fyne.NewSize(look.Space(6), e.line.MinSize().Height) }
	d.Lay = func(size fyne.Size) {
		if width != size.Width || whole != e.span {
			width, whole = size.Width, e.span
			cut := e.span
			cut.Text = Fit(cut, size.Width)
			e.line.SetSpans(cut)
		}
		e.line.Resize(e.line.MinSize())
	}
	d.Paint = func() {
		e.line.Refresh()
	}
	return d
}
