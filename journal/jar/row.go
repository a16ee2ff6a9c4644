package jar

import (
	"context"
	"fmt"
	"image"
	"slices"
	"sync"
	"time"
)

// A Row is a series that is being read: its pictures come in any order but for the first,
// and its curves are to be had at any time from those that have come. Its methods may be
// called from several goroutines at once.
type Row struct {
	size     image.Point
	trackers []*Tracker

	mu   sync.Mutex
	seen []sighting // by time
}

// A sighting is one picture that was read.
type sighting struct {
	name   string
	at     time.Time
	strips []Strip // by jar
}

// NewRow begins a series with its first picture and the marks of each jar in it.
func NewRow(name string, at time.Time, first *image.RGBA, marks []Marks) (*Row, error) {
	r := &Row{size: first.Rect.Size()}
	s := sighting{name: name, at: at}
	for _, m := range marks {
		t, err := NewTracker(first, m)
		if err != nil {
			return nil, err
		}
		r.trackers, s.strips = append(r.trackers, t), append(s.strips, t.zero)
	}
	r.seen = []sighting{s}
	return r, nil
}

// Look reads a picture, which must be of the first one's size. One of a moment that was
// read already is passed over.
func (r *Row) Look(name string, at time.Time, img *image.RGBA) error {
	if img.Rect.Size() != r.size {
		return fmt.Errorf("%w: %q is %v, the first %v", ErrSeries, name, img.Rect.Size(), r.size)
	}
	now := sightOf(img)
	s := sighting{name: name, at: at}
	for _, t := range r.trackers {
		s.strips = append(s.strips, t.look(img, now))
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	i, twice := slices.BinarySearchFunc(r.seen, at, func(s sighting, at time.Time) int { return s.at.Compare(at) })
	if !twice {
		r.seen = slices.Insert(r.seen, i, s)
	}
	return nil
}

// Len is how many pictures were read.
func (r *Row) Len() int {
	r.mu.Lock()
	defer r.mu.Unlock()
	return len(r.seen)
}

// Curve gives the curve of a jar from the pictures that were read, and their names. fixed
// are heights that were drawn by hand, as rises, by name. It is cancelled by its context.
func (r *Row) Curve(ctx context.Context, jar int, fixed map[string]float64) (c Curve, names []string, err error) {
	r.mu.Lock()
	seen := slices.Clone(r.seen)
	r.mu.Unlock()
	at, strips, held := make([]time.Time, len(seen)), make([]Strip, len(seen)), map[int]float64{}
	names = make([]string, len(seen))
	for i, s := range seen {
		at[i], strips[i], names[i] = s.at, s.strips[jar], s.name
		if rise, ok := fixed[s.name]; ok {
			held[i] = rise
		}
	}
	c, err = r.trackers[jar].Trace(ctx, at, strips, held)
	return c, names, err
}

// Film lays the strips of a jar side by side, each so many pixels wide: the rise is seen
// as it is.
func (r *Row) Film(jar, width int) *image.RGBA {
	r.mu.Lock()
	strips := make([]Strip, len(r.seen))
	for i, s := range r.seen {
		strips[i] = s.strips[jar]
	}
	r.mu.Unlock()
	return film(strips, width)
}
