package kit

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// toastTime is how long a toast line stays when nothing is done about it.
const toastTime = 8 * time.Second

// Toast shows a line at the bottom of the window, and two where one has no room: what happened, and one thing to do
// about it, such as Undo. An empty action shows no button. It goes after eight
// seconds, or when the next one comes.
func (f *Frame) Toast(message, action string, do func()) {
	call(f.stop)
	f.toast.set(message, action, do)
	f.toast.Show()
	f.placeToast(f.Size())
	f.stop = f.After(toastTime, f.HideToast)
	f.Refresh()
	f.revealTyping()
}

// Floor is what a page of the window stands on: one that scrolls ends above the toast line while
// that is shown, so that nothing that is read lies under it. What stands at the foot of a page to
// be pressed, or is a picture under a hand that drags a line of it, keeps its place.
func (f *Frame) Floor(page fyne.CanvasObject) fyne.CanvasObject {
	f.floor = container.New(floor{f.toast}, page)
	return f.floor
}

type floor struct{ toast *toast }

func (l floor) MinSize(things []fyne.CanvasObject) fyne.Size { return things[0].MinSize() }

func (l floor) Layout(things []fyne.CanvasObject, size fyne.Size) {
	room := float32(0)
	if l.toast.Visible() && scrollsWhole(things[0]) {
		room = l.toast.Size().Height + 2*toastGap
	}
	things[0].Resize(size.SubtractWidthHeight(0, min(room, size.Height)))
}

func scrollsWhole(o fyne.CanvasObject) bool {
	pages := within[*Page](o)
	return len(pages) == 1 && !pages[0].foot.Visible() && len(within[*PhotoView](pages[0].body)) == 0
}

// revealTyping scrolls the page so that the field that is typed in stays in sight where the page
// now ends above it.
func (f *Frame) revealTyping() {
	e := f.typing()
	if e == nil {
		return
	}
	top := fyne.CurrentApp().Driver().AbsolutePositionForObject(e).Y
	switch {
	case top >= f.Size().Height || top+e.Size().Height <= f.toast.Position().Y:
	case e.MultiLine:
		e.revealCaret()
	default:
		reveal(e)
	}
}

// typing is the field that is typed in, or nil.
func (f *Frame) typing() *entry {
	c := canvasOf(f)
	if c == nil {
		return nil
	}
	e, _ := c.Focused().(*entry)
	return e
}

// placeToast puts the line at the bottom of the window, in the middle of the page, which makes
// room for it; where the page keeps its place, above the field that is typed in rather than over it.
func (f *Frame) placeToast(window fyne.Size) {
	width := window.Width
	if f.floor != nil {
		width = f.floor.Size().Width
	}
	f.toast.place(fyne.NewPos(window.Width-width/2, window.Height), width)
	if f.floor != nil {
		f.floor.Layout.Layout(f.floor.Objects, f.floor.Size())
		if scrollsWhole(f.floor.Objects[0]) {
			return
		}
	}
	e := f.typing()
	if e == nil || !f.toast.Visible() {
		return
	}
	field, size := fyne.CurrentApp().Driver().AbsolutePositionForObject(e), e.Size()
	if at, mine := f.toast.Position(), f.toast.Size(); field.Y < at.Y+mine.Height && at.Y < field.Y+size.Height && field.X < at.X+mine.Width && at.X < field.X+size.Width {
		f.toast.Move(fyne.NewPos(at.X, max(0, field.Y-toastGap-mine.Height)))
	}
}

// HideToast takes the line away.
func (f *Frame) HideToast() {
	End(&f.stop)
	f.toast.Hide()
	f.placeToast(f.Size())
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
		message: NewText(Span{Color: look.ColorPaper}),
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
		call(do)
	}
	t.Refresh()
}

// toastGap is the room above and below the line.
const toastGap = 6

// place puts the line over the middle of the bottom of a page of a width.
func (t *toast) place(bottom fyne.Position, width float32) {
	around := fyne.NewSize(look.Space(10), look.Space(2))
	width = min(width-2*look.Space(4), wishedWidth(t.row)+around.Width)
	size := fyne.NewSize(width, FitHeight(t.row, width-around.Width)+around.Height)
	Put(t, bottom.SubtractXY(size.Width/2, size.Height+toastGap), size)
}

func (t *toast) CreateRenderer() fyne.WidgetRenderer {
	d := &Drawing{Of: t, Things: []fyne.CanvasObject{t.box, t.row}}
	d.Least = func() fyne.Size { return fyne.NewSize(1, 1) } // as the tip
	d.Lay = func(size fyne.Size) {
		t.box.Resize(size)
		h := FitHeight(t.row, size.Width-look.Space(10))
		t.row.Move(fyne.NewPos(look.Space(5), (size.Height-h)/2))
	}
	d.Paint = func() {
		t.box.FillColor = theme.Color(look.ColorInk)
		t.row.Refresh()
		t.message.Refresh()
		t.action.Refresh()
	}
	return d
}
