package kit

import (
	"sync/atomic"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// Frame is the outermost content of a window. Above what it holds it shows the
// toast line and the tips of derived figures, which a widget inside finds by its
// canvas: window.SetContent(kit.NewFrame(main, content)). It lays the paper too: Fyne's
// own window background comes out a shade lighter than the colour it is given, so
// that a chart on paper would show its edges.
type Frame struct {
	widget.BaseWidget
	// After runs f on the main goroutine when d has passed, and gives a way to stop
	// it: once stop was called there, f is not. It is time's own, unless a test sets another.
	After func(d time.Duration, f func()) (stop func())
	// Animate tells tick at each frame, for as long as d, how far it is, up to 1. It is
	// the toolkit's own, unless a test sets another.
	Animate func(d time.Duration, tick func(done float32)) (stop func())

	paper   *canvas.Rectangle
	content fyne.CanvasObject
	tip     *tip
	toast   *toast
	floor   *fyne.Container // under the page, or nil
	float   *float
	stop    func()
	byKey   bool // a key asks for what is done now
	// arriving says that a page that was just come to gets the keyboard.
	arriving bool
	inkOnly  bool   // whether a sealed tasting is shown
	still    bool   // whether nothing moves
	moving   int    // how many things are on their way
	unpoint  func() // takes away what is shown for what the pointer is on, or nil
}

// NewFrame makes a frame around content.
func NewFrame(main Main, content fyne.CanvasObject) *Frame {
	f := &Frame{Animate: animate, paper: canvas.NewRectangle(theme.Color(look.ColorPaper)), content: content, tip: newTip(), toast: newToast(), float: newFloat()}
	f.After = func(d time.Duration, g func()) func() {
		var stopped atomic.Bool // g may be waiting for the main goroutine by then
		t := time.AfterFunc(d, func() {
			main(func() {
				if !stopped.Load() {
					g()
				}
			})
		})
		return func() { stopped.Store(true); t.Stop() }
	}
	f.tip.Hide()
	f.toast.Hide()
	f.toast.onClose = f.HideToast
	f.ExtendBaseWidget(f)
	return f
}

// frameOf finds the frame of the window that an object is in, or nil.
func frameOf(o fyne.CanvasObject) *Frame {
	c := canvasOf(o)
	if c == nil {
		return nil
	}
	f, _ := c.Content().(*Frame)
	return f
}

// SetInkOnly says whether what is shown may carry no colour.
func (f *Frame) SetInkOnly(yes bool) { f.inkOnly = yes }

// SetContent replaces what the frame holds.
func (f *Frame) SetContent(o fyne.CanvasObject) {
	f.content = o
	f.float.hide(f.float.shown)
	f.Refresh()
}

func (f *Frame) CreateRenderer() fyne.WidgetRenderer {
	d := &Drawing{Of: f, Things: []fyne.CanvasObject{f.paper, f.content, f.float.box, f.tip, f.toast}}
	d.Least = func() fyne.Size { return f.content.MinSize() }
	d.Lay = func(size fyne.Size) {
		f.paper.Resize(size)
		f.content.Resize(size)
		f.float.box.Resize(size)
		f.float.place()
		f.placeToast(size)
	}
	d.Paint = func() {
		d.Things[1] = f.content // which SetContent replaces
		f.paper.FillColor = theme.Color(look.ColorPaper)
		f.content.Refresh()
		f.tip.Refresh()
		f.toast.Refresh()
		canvas.Refresh(f)
	}
	return d
}

// tip is a sentence on raised paper that takes no clicks.
type tip struct {
	widget.BaseWidget
	box  *canvas.Rectangle
	text *Text
}

func newTip() *tip {
	t := &tip{box: canvas.NewRectangle(theme.Color(look.ColorRaised)),
		text: NewText(Span{Size: look.TextSmall, Color: look.ColorInk})}
	t.box.CornerRadius = look.Radius
	t.box.StrokeWidth = 1
	t.ExtendBaseWidget(t)
	return t
}

// at shows the tip under a place, within a window of the given size.
func (t *tip) at(sentence string, pos fyne.Position, window fyne.Size) {
	t.text.SetText(sentence)
	wide, _ := breakText(&wording{spans: t.text.spans}, -1, textRows)
	width := look.Space(70)
	if len(wide) == 1 {
		width = min(width, wide[0].w+1)
	}
	h := FitHeight(t.text, width)
	size := fyne.NewSize(width+look.Space(5), h+look.Space(3))
	pos.X = max(0, min(pos.X, window.Width-size.Width))
	if pos.Y+size.Height > window.Height {
		pos.Y = max(0, pos.Y-size.Height-look.Space(12))
	}
	Put(t, pos, size)
	t.Show()
	t.Refresh()
}

func (t *tip) CreateRenderer() fyne.WidgetRenderer {
	d := &Drawing{Of: t, Things: []fyne.CanvasObject{t.box, t.text}}
	d.Least = func() fyne.Size { return fyne.NewSize(1, 1) }
	d.Lay = func(size fyne.Size) {
		t.box.Resize(size)
		t.text.Move(fyne.NewPos(look.Space(2.5), look.Space(1.5)))
		FitHeight(t.text, size.Width-look.Space(5))
	}
	d.Paint = func() {
		t.box.FillColor = theme.Color(look.ColorRaised)
		t.box.StrokeColor = theme.Color(look.ColorEdge)
		t.text.Refresh()
	}
	return d
}

// showTip shows a sentence under an object; without a frame it does nothing.
func showTip(o fyne.CanvasObject, sentence string) {
	f := frameOf(o)
	if f == nil {
		return
	}
	pos := fyne.CurrentApp().Driver().AbsolutePositionForObject(o)
	f.tip.at(sentence, pos.Add(fyne.NewPos(0, o.Size().Height+look.Space(1))), f.Size())
	pointed(o, f.tip.Hide)
}

func hideTip(o fyne.CanvasObject) {
	if f := frameOf(o); f != nil {
		f.tip.Hide()
	}
}

// pointed keeps how to take away what an object shows because the pointer is on it.
// Fyne says that the pointer has left only once the mouse is moved, so that without
// this a tip would stand over a page that the wheel has moved on.
func pointed(o fyne.CanvasObject, undo func()) {
	if f := frameOf(o); f != nil {
		f.unpoint = undo
	}
}

// Unpoint takes away what is shown for what the pointer was on. Call it when another page
// comes under the pointer.
func (f *Frame) Unpoint() {
	End(&f.unpoint)
}

// scrolled is called when what an object holds has moved: from under the pointer, and
// from over what floats beneath it.
func scrolled(o fyne.CanvasObject) {
	f := frameOf(o)
	if f == nil {
		return
	}
	f.Unpoint()
	if over := floatOver(o); over != nil {
		over.place()
	}
}
