// Package remind tells the baker when something falls due: by a message of the
// system, and a bell. It asks its sources again and again rather than set an alarm, so
// that what fell due while the machine slept or the program was closed is told when
// they are back. Each thing is told once.
package remind

import (
	"cmp"
	"slices"
	"time"
)

// A Reminder is one thing that is due.
type Reminder struct {
	// Key names it: what has been told is known by it. A moment that was put
	// off has another key.
	Key   string
	At    time.Time // when it is or was due
	Title string
	Text  string
	// Instead gives what is told in the place of Text, or "". It may take a while, and is
	// asked once, when the reminder is told; nil for none.
	Instead func() string
}

// A Source knows of things that fall due.
type Source interface {
	// Due lists what is due at now and has not been dealt with.
	Due(now time.Time) ([]Reminder, error)
}

// A Memory keeps the keys of what was told, also while the program is closed.
type Memory interface {
	Told() []string
	SetTold(keys []string)
}

// A Watcher asks its sources what is due and tells what is new.
type Watcher struct {
	Sources []Source
	Memory  Memory
	// Tell shows a reminder; Ring rings the bell, once for all that is told at
	// a time.
	Tell func(Reminder)
	Ring func()
	// Failed hears of a source that could not be asked; the others are asked
	// all the same.
	Failed func(error)
}

// remembered is how many keys are kept: far more than fall due in a month.
const remembered = 400

// Look tells what has fallen due since the last look.
func (w *Watcher) Look(now time.Time) {
	told := w.Memory.Told()
	var fresh []Reminder
	for _, s := range w.Sources {
		due, err := s.Due(now)
		if err != nil {
			w.Failed(err)
			continue
		}
		for _, r := range due {
			if !slices.Contains(told, r.Key) {
				told = append(told, r.Key)
				fresh = append(fresh, r)
			}
		}
	}
	if len(fresh) == 0 {
		return
	}
	// They are remembered first: a bell that is never heard is better than one
	// that cannot be stopped.
	w.Memory.SetTold(told[max(0, len(told)-remembered):])
	slices.SortStableFunc(fresh, func(a, b Reminder) int { return a.At.Compare(b.At) })
	for _, r := range fresh {
		if r.Instead != nil {
			r.Text = cmp.Or(r.Instead(), r.Text)
		}
		w.Tell(r)
	}
	w.Ring()
}
