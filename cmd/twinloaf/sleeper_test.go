package main

import (
	"testing"
	"testing/synctest"
	"time"
)

// A window that nothing happens to sleeps; one that something has happened to stays up for
// as long as it should, and what is done from elsewhere wakes it.
func TestWindowSleeps(t *testing.T) {
	asleep := func(s *sleeper) (slept bool) {
		s.doze = func(d time.Duration) { slept = true; time.Sleep(d) }
		s.sleep()
		return slept
	}
	for _, c := range []struct {
		name  string
		what  func(*sleeper)
		stays time.Duration
	}{
		{"nothing", func(*sleeper) {}, 0},
		{"work was done", func(s *sleeper) { s.stayUp(afterWork) }, afterWork},
		{"a key was pressed", func(s *sleeper) {
			s.doze = func(time.Duration) { time.Sleep(nap / 3) }
			s.sleep()
		}, afterEvent},
		{"it was woken for work", func(s *sleeper) {
			woken := make(chan struct{})
			s.doze = func(time.Duration) { <-woken }
			s.rouse = func() { close(woken) }
			go func() {
				time.Sleep(nap / 3)
				s.stayUp(afterWork)
			}()
			s.sleep()
		}, afterWork},
		{"work and then a key", func(s *sleeper) {
			s.stayUp(afterEvent)
			s.stayUp(afterWork)
		}, afterEvent},
	} {
		t.Run(c.name, func(t *testing.T) {
			synctest.Test(t, func(t *testing.T) {
				s := &sleeper{rouse: func() { t.Error("it was woken without being asleep") }}
				c.what(s)
				time.Sleep(c.stays - time.Nanosecond)
				if c.stays > 0 && asleep(s) {
					t.Errorf("it sleeps before %v are over", c.stays)
				}
				time.Sleep(2 * time.Nanosecond)
				if !asleep(s) {
					t.Errorf("it does not sleep after %v", c.stays)
				}
			})
		})
	}
}
