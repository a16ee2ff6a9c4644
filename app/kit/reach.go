package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// TargetSide is the least height of what can be pressed, for a floury hand.
var TargetSide = look.Space(8)

// reach lies unseen over a word that is pressed and reaches beyond it, up and down, so
// that a word in a line of text is as easy to hit as a button. Fyne looks for what the
// pointer is on among the parts of a widget, wherever they lie.
type reach struct {
	widget.BaseWidget
	of pressed
}

// pressed is what a reach hands the pointer on to.
type pressed interface {
	fyne.Tappable
	desktop.Hoverable
	desktop.Cursorable
}

func newReach(of pressed) *reach {
	r := &reach{of: of}
	r.ExtendBaseWidget(r)
	return r
}

// place lays it over a widget of the given size.
func (r *reach) place(size fyne.Size) {
	h := max(size.Height, TargetSide)
	Put(r, fyne.NewPos(0, (size.Height-h)/2), fyne.NewSize(size.Width, h))
}

func (r *reach) Tapped(ev *fyne.PointEvent) { r.of.Tapped(ev) }

func (r *reach) MouseIn(ev *desktop.MouseEvent) { r.of.MouseIn(ev) }

func (r *reach) MouseMoved(ev *desktop.MouseEvent) { r.of.MouseMoved(ev) }

func (r *reach) MouseOut() { r.of.MouseOut() }

func (r *reach) Cursor() desktop.Cursor { return r.of.Cursor() }

func (r *reach) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.NewWithoutLayout())
}
