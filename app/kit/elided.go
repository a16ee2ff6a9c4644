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

func (e *Elided) CreateRenderer() fyne.WidgetRenderer { return &elidedRenderer{e: e, width: -1} }

type elidedRenderer struct {
	e     *Elided
	width float32 // that the line was cut for
	whole Span    // that was cut
}

func (r *elidedRenderer) Destroy()                     {}
func (r *elidedRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.e.line} }
func (r *elidedRenderer) MinSize() fyne.Size {
	return fyne.NewSize(look.Space(6), r.e.line.MinSize().Height)
}

func (r *elidedRenderer) Layout(size fyne.Size) {
	if r.width != size.Width || r.whole != r.e.span {
		r.width, r.whole = size.Width, r.e.span
		cut := r.e.span
		cut.Text = Fit(cut, size.Width)
		r.e.line.SetSpans(cut)
	}
	r.e.line.Resize(r.e.line.MinSize())
}

func (r *elidedRenderer) Refresh() {
	r.Layout(r.e.Size())
	r.e.line.Refresh()
}
