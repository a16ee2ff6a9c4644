package main

import (
	"sync"
	"time"

	"fyne.io/fyne/v2"
)

const (
	// nap is how long the window sleeps at a time. What the toolkit itself does by a clock is
	// late by that at most.
	nap = time.Second / 2
	// afterEvent is how long it stays up after a key, the pointer or anything else from outside,
	// so that what follows of it (a page that is read, a row that opens) comes without delay.
	afterEvent = time.Second
	// afterWork is how long it stays up once something was done on the main goroutine: long
	// enough to be drawn.
	afterWork = time.Second / 25
)

// A sleeper lets the window sleep while nothing happens. The toolkit looks for events sixty
// times a second, whether there are any or not, which is most of what an open window costs;
// a sleeping one is woken by the window system when there is one, and by do.
type sleeper struct {
	// doze waits for an event for as long as it is told to, and has it dealt with; rouse, from
	// another goroutine, ends that.
	doze  func(time.Duration)
	rouse func()

	mu     sync.Mutex
	asleep bool
	up     time.Time // until when it stays up
}

// newSleeper makes what sleeps in the toolkit's loop, before that begins.
func newSleeper() *sleeper {
	s := &sleeper{doze: doze, rouse: rouse}
	// The tick of an animation runs in the loop, and never once that has ended, when there
	// is nothing left to sleep in. This one draws nothing.
	a := fyne.NewAnimation(time.Hour, func(float32) {
		if !typing() {
			s.sleep()
		}
	})
	a.RepeatCount = fyne.AnimationRepeatForever
	a.Start()
	return s
}

// typing reports whether a text field has the keyboard: its cursor blinks by the loop.
func typing() bool {
	for _, w := range fyne.CurrentApp().Driver().AllWindows() {
		if _, ok := w.Canvas().Focused().(fyne.Tabbable); ok { // only text fields know of tabs
			return true
		}
	}
	return false
}

// do has fn done on the main goroutine; see [twinloaf/app/kit.Main].
func (s *sleeper) do(fn func()) {
	fyne.Do(func() {
		fn()
		s.stayUp(afterWork)
	})
	s.stayUp(afterWork)
}

// stayUp has the window sleep no earlier than d from now, and wakes it.
func (s *sleeper) stayUp(d time.Duration) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if t := time.Now().Add(d); t.After(s.up) {
		s.up = t
	}
	if s.asleep {
		s.asleep = false
		s.rouse() // not at other times: the window system may be gone
	}
}

// sleep sleeps once, unless the window is to stay up.
func (s *sleeper) sleep() {
	began := time.Now()
	s.mu.Lock()
	s.asleep = began.After(s.up)
	asleep := s.asleep
	s.mu.Unlock()
	if !asleep {
		return
	}
	s.doze(nap)
	s.mu.Lock()
	roused := !s.asleep
	s.asleep = false
	s.mu.Unlock()
	if !roused && time.Since(began) < nap*9/10 {
		s.stayUp(afterEvent)
	}
}
