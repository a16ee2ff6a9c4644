package kit

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/maintest"
)

func TestFocusBringsIntoSight(t *testing.T) {
	maintest.App(t)
	first, last := NewTextField("first", ""), NewTextField("last", "")
	page := NewPage(PageOptions{Body: Stack(0, first, Gap(500), last, Gap(100))})
	frame := NewFrame(maintest.New().Do, container.NewStack(page))
	frame.After = func(_ time.Duration, f func()) func() { f(); return func() {} }
	w := test.NewTempWindow(t, frame)
	w.Resize(fyne.NewSize(800, 400))

	w.Canvas().Focus(last.Entry())
	if page.Offset() == 0 {
		t.Fatal("the page did not scroll to the field below")
	}
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(last)
	if at.Y < 0 || at.Y+last.Size().Height > 400 {
		t.Errorf("the field is at %v of a window 400 high", at.Y)
	}
	was := page.Offset()
	w.Canvas().Focus(last.Entry())
	if page.Offset() != was {
		t.Error("the page scrolled though the field was in sight")
	}
	w.Canvas().Focus(first.Entry())
	if at := fyne.CurrentApp().Driver().AbsolutePositionForObject(first); at.Y < 0 {
		t.Errorf("the first field is at %v, above the window", at.Y)
	}
}

// What is shown for the thing under the pointer goes when the wheel moves the page.
func TestTipGoesWhenThePageScrolls(t *testing.T) {
	maintest.App(t)
	loss := NewReadout("Bake loss", false)
	loss.Set("11.6", "%", "", "(dough − loaf) ÷ dough")
	page := NewPage(PageOptions{Body: Stack(0, loss, Gap(1000))})
	frame := NewFrame(maintest.New().Do, page)
	w := test.NewTempWindow(t, frame)
	w.Resize(fyne.NewSize(800, 400))

	loss.MouseIn(nil)
	if !frame.tip.Visible() {
		t.Fatal("no tip is shown")
	}
	page.scroll.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, -60)})
	if page.Offset() == 0 {
		t.Fatal("the page did not scroll")
	}
	if frame.tip.Visible() {
		t.Error("the tip stays over a page that has moved on")
	}

	loss.MouseIn(nil)
	frame.Unpoint()
	if frame.tip.Visible() {
		t.Error("the tip stays over the next page")
	}
}
