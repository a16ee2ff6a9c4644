package kit

import (
	"time"

	"fyne.io/fyne/v2"
)

// glideTime is how long something takes to its new place: long enough for the eye to
// follow, too short to be waited for.
const glideTime = 160 * time.Millisecond

// SetStill says whether nothing is to move: what changes its place is there at once.
func (f *Frame) SetStill(yes bool) { f.still = yes }

// Moving says whether something is on its way.
func (f *Frame) Moving() bool { return f.moving > 0 }

// Glide moves something in the window that o is in. It tells tick how much of the way is
// done, up to 1; at once, where nothing is to move or o is in no window. Stop leaves it
// where it is.
func Glide(o fyne.CanvasObject, tick func(done float32)) (stop func()) {
	f := frameOf(o)
	if f == nil || f.still {
		tick(1)
		return func() {}
	}
	f.moving++
	ended := false
	end := func() {
		if !ended {
			ended = true
			f.moving--
		}
	}
	halt := f.Animate(glideTime, func(done float32) {
		if ended {
			return
		}
		if done >= 1 {
			end()
		}
		tick(done)
	})
	return func() {
		end()
		halt()
	}
}

// animate tells tick at each frame, for as long as d, how far it is.
func animate(d time.Duration, tick func(done float32)) (stop func()) {
	a := fyne.NewAnimation(d, tick)
	a.Curve = fyne.AnimationEaseOut
	a.Start()
	return a.Stop
}
