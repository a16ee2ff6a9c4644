package kit_test

import (
	"math"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
	"twinloaf/app/maintest"
)

// A page that scrolls ends above a toast and has its whole height again without it; in a narrow window the
// words go on to a second line rather than out of sight.
func TestToastLiesOverNothing(t *testing.T) {
	page, side := kit.NewPage(kit.PageOptions{Body: kit.Body("page")}), block(100, 10)
	f := kit.NewFrame(maintest.New().Do, container.NewStack())
	f.SetContent(container.NewBorder(nil, nil, side, nil, f.Floor(page)))
	win := window(t, f, 1000, 400)
	for _, width := range []float32{1000, 400} {
		win.Resize(fyne.NewSize(width, 400))
		f.Toast("The bake with a name of some length is in the bin, with all its photos.", "Undo", func() {})
		var toast fyne.CanvasObject
		for _, o := range test.WidgetRenderer(f).Objects() {
			toast = o // the last is on top
		}
		at, size := toast.Position(), toast.Size()
		end := page.Position().Y + page.Size().Height
		if at.Y < end || at.Y+size.Height > 400 || end < 300 {
			t.Errorf("%v wide, the toast is at %v, %v, the page ends at %v", width, at, size, end)
		}
		if at.X < 100 || at.X+size.Width > width {
			t.Errorf("%v wide, the toast reaches from %v to %v", width, at.X, at.X+size.Width)
		}
		if middle := at.X + size.Width/2; math.Abs(float64(middle-(100+width)/2)) > 3 {
			t.Errorf("%v wide, its middle is at %v", width, middle)
		}
		f.HideToast()
		if h := page.Size().Height; h != 400 {
			t.Errorf("%v wide, without a toast the page is %v high", width, h)
		}
	}
}

// What is pressed at the foot of a page, and a picture that a hand may be dragging on, stay where
// they are with a toast and when it goes; so does whatever is no page that scrolls.
func TestToastMovesNothingUnderAHand(t *testing.T) {
	main := maintest.New().Do
	footed := kit.NewPage(kit.PageOptions{Body: kit.Body("page")})
	footed.SetFoot(kit.NewButton("Next", func() {}))
	for name, page := range map[string]fyne.CanvasObject{
		"a picture": kit.NewPage(kit.PageOptions{Fixed: true, Body: container.NewStack(kit.NewPhotoView(main))}),
		"a foot":    footed,
		"no page":   block(10, 10),
	} {
		f := kit.NewFrame(main, container.NewStack())
		f.SetContent(container.NewStack(f.Floor(container.NewStack(page))))
		window(t, f, 600, 400)
		was := page.Size()
		f.Toast("The lines are kept.", "Undo", func() {})
		if page.Size() != was {
			t.Errorf("%s: with a toast the page has %v, without %v", name, page.Size(), was)
		}
	}
}

// The field that is typed in is never under a toast: neither when the toast comes, nor when the
// keyboard goes there while it is shown.
func TestToastLeavesTypingInSight(t *testing.T) {
	main := maintest.New().Do
	for name, page := range map[string]func(fields fyne.CanvasObject) fyne.CanvasObject{
		"a page that scrolls": func(fields fyne.CanvasObject) fyne.CanvasObject {
			return kit.NewPage(kit.PageOptions{Body: kit.Stack(2, block(10, 500), fields)})
		},
		"a picture": func(fields fyne.CanvasObject) fyne.CanvasObject {
			return kit.NewPage(kit.PageOptions{Fixed: true, Body: container.NewBorder(nil, fields, nil, nil, kit.NewPhotoView(main))})
		},
	} {
		for _, before := range []bool{true, false} {
			caption, last := kit.NewTextField("", "a caption"), kit.NewTextField("", "the last")
			f := kit.NewFrame(main, container.NewStack())
			f.SetContent(container.NewStack(f.Floor(page(kit.Stack(1, caption, last)))))
			win := window(t, f, 600, 400)
			if before {
				last.Focus()
			}
			f.Toast("The photo is in the bin.", "Undo", func() {})
			if !before {
				last.Focus()
			}
			things := test.WidgetRenderer(f).Objects()
			toast := things[len(things)-1] // the last is on top
			field := win.Canvas().Focused().(fyne.CanvasObject)
			top := fyne.CurrentApp().Driver().AbsolutePositionForObject(field).Y
			if foot := top + field.Size().Height; foot > toast.Position().Y && top < toast.Position().Y+toast.Size().Height || foot > 400 {
				t.Errorf("%s, in the field before the toast: %v: the field lies from %v to %v, the toast from %v", name, before, top, foot, toast.Position().Y)
			}
		}
	}
}

func TestToastUndoesAndGoes(t *testing.T) {
	f := kit.NewFrame(maintest.New().Do, kit.Body("page"))
	var later func()
	stopped := 0
	f.After = func(_ time.Duration, g func()) func() {
		later = g
		return func() { stopped++ }
	}
	win := window(t, f, 600, 400)
	undone := false
	f.Toast("The bake is in the bin.", "Undo", func() { undone = true })
	if f.ToastText() != "The bake is in the bin." {
		t.Fatalf("shows %q", f.ToastText())
	}
	test.FocusNext(win.Canvas())
	link, ok := win.Canvas().Focused().(*kit.Link)
	if !ok || link.Text() != "Undo" {
		t.Fatalf("Tab finds %T", win.Canvas().Focused())
	}
	link.TypedKey(key(fyne.KeyReturn))
	if !undone || f.ToastText() != "" || stopped != 1 {
		t.Errorf("undone %v, still shows %q, timer stopped %d times", undone, f.ToastText(), stopped)
	}
	f.Toast("Another.", "", nil)
	later()
	if f.ToastText() != "" {
		t.Error("it does not go when its time is over")
	}
}

func TestSheetTakesKeysAndGivesThemBack(t *testing.T) {
	win := window(t, kit.Body("page"), 600, 400)
	under := 0
	win.Canvas().SetOnTypedKey(func(*fyne.KeyEvent) { under++ })
	closed, pressed := 0, 0
	s := kit.ShowDialog(win, kit.DialogOptions{Title: "Keys", Content: kit.Body("text"),
		OnClosed: func() { closed++ }, Keys: []kit.Key{{Name: "A", Do: func() { pressed++ }}}})
	test.TypeOnCanvas(win.Canvas(), "a")
	win.Canvas().OnTypedKey()(key(fyne.KeyEscape))
	s.Close()
	if closed != 1 || pressed != 1 || under != 0 || win.Canvas().Overlays().Top() != nil {
		t.Errorf("closed %d times, pressed %d, keys under it %d", closed, pressed, under)
	}
	win.Canvas().OnTypedKey()(key(fyne.KeyA))
	if under != 1 {
		t.Error("the page did not get its keys back")
	}
}

func TestConfirm(t *testing.T) {
	win := window(t, kit.Body("page"), 600, 400)
	did := 0
	press := func(k fyne.KeyName) { win.Canvas().OnTypedKey()(key(k)) }
	kit.Confirm(win, "Restore?", "It comes back as it was.", "Restore", func() { did++ })
	press(fyne.KeyReturn)
	kit.Confirm(win, "Restore?", "It comes back as it was.", "Restore", func() { did++ })
	press(fyne.KeyEscape)
	if did != 1 || win.Canvas().Overlays().Top() != nil {
		t.Errorf("done %d times, want once", did)
	}
	s := kit.ConfirmLoss(win, "Empty the bin?", "What is in it is lost for good.", "Empty it", func() { did++ })
	press(fyne.KeyReturn)
	if did != 1 || !s.Open() {
		t.Error("Enter alone should not lose anything")
	}
	s.Close()
	kit.Message(win, "Not added", "The file is no picture.")
	press(fyne.KeyReturn)
	if win.Canvas().Overlays().Top() != nil {
		t.Error("Enter does not close a message")
	}
}

func TestSheetFitsItsWindow(t *testing.T) {
	win := window(t, kit.Body("page"), 400, 300)
	content := kit.Body("text")
	kit.ShowDialog(win, kit.DialogOptions{Title: "Large", Content: content, Width: 2000, Height: 2000})
	if w := content.Size().Width; w > 400 || w < 200 {
		t.Errorf("the content is %v wide in a window of 400", w)
	}
}

func TestProgressStopsOnce(t *testing.T) {
	win := window(t, kit.Body("page"), 600, 400)
	stops := 0
	p, s := kit.ShowProgress(win, "Adding photos", func() { stops++ })
	p.Set(12, 40, "IMG_2031.HEIC")
	p.Set(0, 0, "")
	win.Canvas().FocusNext()
	b, ok := win.Canvas().Focused().(*kit.Button)
	if !ok {
		t.Fatalf("Tab finds %T", win.Canvas().Focused())
	}
	test.Tap(b)
	test.Tap(b)
	if stops != 1 {
		t.Errorf("stopped %d times", stops)
	}
	s.Close()
}
