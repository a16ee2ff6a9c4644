package kit_test

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
	"twinloaf/app/maintest"
)

// opened is a window with one row in it, to which more can come, and the way to tell what
// moves how far it is.
func opened(t *testing.T) (f *kit.Frame, o *kit.Opening, grow func(), tick func(float32)) {
	t.Helper()
	rows := container.NewVBox(row())
	o = kit.NewOpening(rows)
	f = kit.NewFrame(maintest.New().Do, container.NewVBox(o))
	var told func(float32)
	f.Animate = func(_ time.Duration, tick func(float32)) func() {
		told = tick
		return func() { told = nil }
	}
	w := test.NewTempWindow(t, f)
	w.Resize(fyne.NewSize(300, 400))
	grow = func() {
		o.Grow(func() {
			rows.Add(row())
			rows.Add(row())
		})
	}
	return f, o, grow, func(done float32) {
		if told == nil {
			t.Fatal("nothing moves")
		}
		told(done)
	}
}

func row() fyne.CanvasObject {
	r := canvas.NewRectangle(nil)
	r.SetMinSize(fyne.NewSize(100, 30))
	return r
}

func TestRowsOpen(t *testing.T) {
	f, o, grow, tick := opened(t)
	from := o.MinSize().Height
	grow()
	if !f.Moving() || o.MinSize().Height != from {
		t.Errorf("at first it is %v high, moving %v", o.MinSize().Height, f.Moving())
	}
	tick(0.5)
	half := o.MinSize().Height
	tick(1)
	if whole := o.MinSize().Height; whole < from+60 || half != (from+whole)/2 {
		t.Errorf("half-way it is %v high, of %v to %v", half, from, whole)
	}
	if f.Moving() {
		t.Error("something moves at rest")
	}
}

func TestWhatOpensAgainGoesOnFromWhereItIs(t *testing.T) {
	f, o, grow, tick := opened(t)
	grow()
	tick(0.5)
	o.Resize(o.MinSize())
	half := o.MinSize().Height
	grow()
	if o.MinSize().Height != half {
		t.Errorf("it goes on from %v, was at %v", o.MinSize().Height, half)
	}
	tick(1)
	if f.Moving() {
		t.Error("something moves at rest")
	}
}

func TestNothingMovesWhereItIsSetSo(t *testing.T) {
	f, o, grow, _ := opened(t)
	f.SetStill(true)
	from := o.MinSize().Height
	grow()
	if f.Moving() || o.MinSize().Height < from+60 {
		t.Errorf("it is %v high, moving %v", o.MinSize().Height, f.Moving())
	}
}
