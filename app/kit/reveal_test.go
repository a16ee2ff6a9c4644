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

// A page that was come to by a key shows its beginning: what begins below the window does
// not get the keyboard, and the first Tab goes there.
func TestAPageThatIsComeToShowsItsBeginning(t *testing.T) {
	for above, has := range map[float32]bool{100: true, 600: false} {
		maintest.App(t)
		begins := PrimaryButton("Done", func() {})
		page := NewPage(PageOptions{Heading: "Fold", Body: Stack(0, Gap(above/4), begins, Gap(200))})
		b, gate := NewBeginning(page.Start)
		frame := NewFrame(maintest.New().Do, container.NewStack(container.NewWithoutLayout(b), gate, page))
		frame.After = func(_ time.Duration, f func()) func() { f(); return func() {} }
		w := test.NewTempWindow(t, frame)
		w.Resize(fyne.NewSize(800, 400))
		frame.Arrive(b, w.Canvas())
		if page.Offset() != 0 || (w.Canvas().Focused() == begins) != has {
			t.Errorf("%v down, the page is at %v with the keyboard on %v", above, page.Offset(), w.Canvas().Focused())
		}
		if w.Canvas().FocusNext(); has {
			continue
		}
		if w.Canvas().Focused() != begins || page.Offset() == 0 {
			t.Errorf("the first Tab goes to %v, at %v", w.Canvas().Focused(), page.Offset())
		}
	}
}

// What opens cuts no ring: it lies as far outside of a row.
func TestARingIsWholeWhileRowsOpen(t *testing.T) {
	maintest.App(t)
	o := NewOpening(Gap(50))
	o.done = 0.5
	w := test.NewTempWindow(t, o)
	w.Resize(fyne.NewSize(200, 300))
	o.Resize(fyne.NewSize(100, 60))
	r := test.TempWidgetRenderer(t, o)
	r.Layout(o.Size())
	at, size := o.clip.Position(), o.clip.Size()
	if at.X > -ringReach || at.Y > -ringReach || at.X+size.Width < 100+ringReach || at.Y+size.Height < 60+ringReach {
		t.Errorf("of 100 by 60 is seen %v from %v", size, at)
	}
	if p := o.content.Position().Add(at); p != fyne.NewPos(0, 0) {
		t.Errorf("the rows are moved by %v", p)
	}
}
