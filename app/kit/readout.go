package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// Readout is a derived figure: it cannot be edited, and says on hover how it was
// derived. Label stands small above, unit and origin small beside.
type Readout struct {
	widget.BaseWidget
	label, figure *Text
	derived       string
	size          float32
	column        *fyne.Container
}

// NewReadout makes a readout; large sets the figure in look.TextTitle.
func NewReadout(label string, large bool) *Readout {
	r := &Readout{label: Small(label), figure: NewLine(), size: look.TextBody}
	if large {
		r.size = look.TextTitle
	}
	SetVisible(r.label, label != "")
	r.column = Stack(0, r.label, r.figure)
	r.ExtendBaseWidget(r)
	return r
}

func (r *Readout) labelHeight() float32 { return heightOfLabel(r.label) }

// Set shows a figure with its unit and origin, and how it was derived.
func (r *Readout) Set(figure, unit, origin, derived string) {
	beside := "\u00a0" + unit
	if origin != "" {
		beside += "  " + origin
	}
	r.derived = derived
	r.figure.SetSpans(Span{Text: figure, Size: r.size, Bold: r.size > look.TextBody},
		Span{Text: beside, Size: look.TextSmall, Color: look.ColorFaint})
	r.Refresh()
}

// Level sets the figure as high as that of a field, for a readout that stands in a
// row of fields, and gives the readout back.
func (r *Readout) Level() *Readout {
	h := look.Space(1)
	r.column.Objects = []fyne.CanvasObject{r.label, container.New(layout.NewCustomPaddedLayout(h, h, 0, 0), r.figure)}
	return r
}

// Sentence is for a readout of a whole sentence, which wraps, and gives the readout back.
func (r *Readout) Sentence() *Readout {
	r.figure = NewText()
	r.column.Objects = []fyne.CanvasObject{r.label, r.figure}
	return r
}

// SetLabel changes the words above the figure.
func (r *Readout) SetLabel(label string) {
	r.label.SetText(label)
	SetVisible(r.label, label != "")
}

// String gives the words shown.
func (r *Readout) String() string { return r.figure.String() }

// Tip is what pointing at the figure tells: how it was derived.
func (r *Readout) Tip() string { return r.derived }

func (r *Readout) MouseIn(*desktop.MouseEvent) {
	if r.derived != "" {
		showTip(r, r.derived)
	}
}

func (r *Readout) MouseMoved(*desktop.MouseEvent) {}

func (r *Readout) MouseOut() { hideTip(r) }

func (r *Readout) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(r.column) }
