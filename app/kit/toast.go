package kit

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// toastTime is how long a toast line stays when nothing is done about it.
const toastTime = 8 * time.Second

// Toast shows a line at the bottom of the window: what happened, and one thing to do
// about it, such as Undo. An empty action shows no button. It goes after eight
// seconds, or when the next one comes.
func (f *Frame) Toast(message, action string, do func()) {
	if f.stop != nil {
		f.stop()
	}
	f.toast.set(message, action, do)
	f.toast.Show()
	f.toast.place(f.Size())
	f.stop = f.After(toastTime, f.HideToast)
	f.Refresh()
}

// HideToast takes the line away.
func (f *Frame) HideToast() {
	if f.stop != nil {
		f.stop()
		f.stop = nil
	}
	f.toast.Hide()
}

// ToastText gives the message shown, or nothing.
func (f *Frame) ToastText() string {
	if !f.toast.Visible() {
		return ""
	}
	return f.toast.message.String()
}

type toast struct {
	widget.BaseWidget
	box     *canvas.Rectangle
	message *Text
	action  *Link
	row     *fyne.Container
	onClose func()
}

func newToast() *toast {
	t := &toast{box: canvas.NewRectangle(theme.Color(look.ColorInk)),
		message: NewLine(Span{Color: look.ColorPaper}),
		action:  NewLinkSpan(Span{Bold: true, Color: look.ColorPaper}, nil)}
	t.box.CornerRadius = look.Radius
	t.row = Row(6, t.message, t.action)
	t.ExtendBaseWidget(t)
	return t
}

func (t *toast) set(message, action string, do func()) {
	t.message.SetText(message)
	t.action.SetText(action)
	SetVisible(t.action, action != "")
	t.action.OnTapped = func() {
		t.onClose()
		if do != nil {
			do()
		}
	}
	t.Refresh()
}

// place puts the line at the bottom, in the middle.
func (t *toast) place(window fyne.Size) {
	m := t.MinSize()
	t.Resize(m)
	t.Move(fyne.NewPos(max(0, (window.Width-m.Width)/2), window.Height-m.Height-look.Space(6)))
}

func (t *toast) CreateRenderer() fyne.WidgetRenderer { return &toastRenderer{t} }

type toastRenderer struct{ t *toast }

func (r *toastRenderer) Destroy()                     {}
func (r *toastRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.t.box, r.t.row} }
func (r *toastRenderer) MinSize() fyne.Size {
	return r.t.row.MinSize().Add(fyne.NewSize(look.Space(10), look.Space(5)))
}
func (r *toastRenderer) Layout(size fyne.Size) {
	r.t.box.Resize(size)
	m := r.t.row.MinSize()
	r.t.row.Resize(m)
	r.t.row.Move(fyne.NewPos(look.Space(5), (size.Height-m.Height)/2))
}
func (r *toastRenderer) Refresh() {
	r.t.box.FillColor = theme.Color(look.ColorInk)
	r.t.box.Refresh()
	r.t.row.Refresh()
	r.t.message.Refresh()
	r.t.action.Refresh()
	r.Layout(r.t.Size())
}
