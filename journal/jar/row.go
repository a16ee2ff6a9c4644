package jar

import (
	"context"
	"fmt"
	"image"
	"sync"
	"time"
)

// A Row is a series that is being read: its pictures come in any order, and its curves
// are to be had at any time from those that have come. Its methods may be called from
// several goroutines at once.
type Row struct {
	at       []time.Time
	size     image.Point
	trackers []*Tracker

	mu     sync.Mutex
	strips [][]Strip // by jar and picture
	read   []bool
}

// NewRow begins a series of pictures taken at the times at, which grow, with the first
// of them and the marks of each jar in it.
func NewRow(first *image.RGBA, at []time.Time, marks []Marks) (*Row, error) {
	if len(at) == 0 {
		return nil, fmt.Errorf("%w: there is no picture", ErrSeries)
	}
	r := &Row{at: at, size: first.Rect.Size(), read: make([]bool, len(at))}
	for _, m := range marks {
		t, err := NewTracker(first, m)
		if err != nil {
			return nil, err
		}
		strips := make([]Strip, len(at))
		strips[0] = t.zero
		r.trackers, r.strips = append(r.trackers, t), append(r.strips, strips)
	}
	r.read[0] = true
	return r, nil
}

// Look reads a picture, which must be of the first one's size.
func (r *Row) Look(i int, img *image.RGBA) error {
	if img.Rect.Size() != r.size {
		return fmt.Errorf("%w: picture %d is %v, the first %v", ErrSeries, i+1, img.Rect.Size(), r.size)
	}
	windows := windowsOf(img)
	for k, t := range r.trackers {
		s := t.look(img, windows)
		r.mu.Lock()
		r.strips[k][i] = s
		r.mu.Unlock()
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	r.read[i] = true
	return nil
}

// Curve gives the curve of a jar from the pictures that were read, and which they are.
// fixed are heights that were drawn by hand, as rises, by picture. It is cancelled by
// its context.
func (r *Row) Curve(ctx context.Context, jar int, fixed map[int]float64) (c Curve, which []int, err error) {
	var at []time.Time
	var strips []Strip
	held := map[int]float64{}
	r.mu.Lock()
	for i, read := range r.read {
		if !read {
			continue
		}
		if rise, ok := fixed[i]; ok {
			held[len(which)] = rise
		}
		which, at, strips = append(which, i), append(at, r.at[i]), append(strips, r.strips[jar][i])
	}
	r.mu.Unlock()
	c, err = r.trackers[jar].Trace(ctx, at, strips, held)
	return c, which, err
}

// Film lays the strips of a jar side by side, each so many pixels wide: the rise is seen
// as it is. A picture that was not read leaves its place empty.
func (r *Row) Film(jar, width int) *image.RGBA {
	r.mu.Lock()
	strips := append([]Strip(nil), r.strips[jar]...)
	r.mu.Unlock()
	return Film(strips, width)
}
