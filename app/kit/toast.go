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
	Put(t, fyne.NewPos(max(0, (window.Width-m.Width)/2), window.Height-m.Height-look.Space(6)), m)
}

func (t *toast) CreateRenderer() fyne.WidgetRenderer {
	d := &Drawing{Things: []fyne.CanvasObject{t.box, t.row}}
	d.Least = func() fyne.Size { return t.row.MinSize().Add(fyne.NewSize(look.Space(10), look.Space(5))) }
	d.Lay = func(size fyne.Size) {
		t.box.Resize(size)
		m := t.row.MinSize()
		Put(t.row, fyne.NewPos(look.Space(5), (size.Height-m.Height)/2), m)
	}
	d.Paint = func() {
		t.box.FillColor = theme.Color(look.ColorInk)
		t.box.Refresh()
		t.row.Refresh()
		t.message.Refresh()
		t.action.Refresh()
		d.Lay(t.Size())
	}
	return d
}
