package series

import (
	"context"
	"fmt"
	"image"
	"slices"
	"sync"
	"time"

	"golang.org/x/sync/errgroup"

	"twinloaf/journal"
	"twinloaf/journal/jar"
)

// state is what is known of a series at a moment, for the page to show.
type state struct {
	frames []*journal.Photo // in order of time
	curves []journal.SeriesCurve
	films  []image.Image // by jar
}

// session works through a series. It is made for one state of its lines and its clock; a
// height that is drawn does not end it.
type session struct {
	j   *journal.Journal
	rec *journal.Series
	// tell is given what is known, from the goroutine of the session.
	tell func(state)

	told time.Time

	mu     sync.Mutex
	row    *jar.Row
	marks  []jar.Marks // as they were or were found
	frames map[journal.ID]*journal.Photo
	ended  bool
}

func newSession(j *journal.Journal, rec *journal.Series) *session {
	s := &session{j: j, rec: rec, frames: map[journal.ID]*journal.Photo{}}
	for _, one := range rec.Jars {
		s.marks = append(s.marks, one.Marks())
	}
	return s
}

// suits says that what a session knows is of the lines and the clock that a record has.
func (s *session) suits(rec *journal.Series) bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.rec.Ahead == rec.Ahead && slices.EqualFunc(s.marks, rec.Jars, func(m jar.Marks, j journal.SeriesJar) bool { return m == j.Marks() })
}

// reading says that pictures still come.
func (s *session) reading() bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	return !s.ended
}

// growEvery is how often the curve is shown anew while pictures come in.
const growEvery = 700 * time.Millisecond

// run looks at the pictures that are kept, reads those that wait, and keeps the curve that
// comes of all. Files that could not be read are told in refused.
func (s *session) run(ctx context.Context, label string) (refused []error, err error) {
	defer func() {
		s.mu.Lock()
		s.ended = true
		s.mu.Unlock()
	}()
	kept, err := journal.Frames(s.j, s.rec)
	if err != nil {
		return nil, err
	}
	if len(kept) > 0 {
		if err := s.lookAtKept(ctx, kept); err != nil {
			return nil, err
		}
	}
	if s.rec.Reading() {
		var broken error
		refused, err = s.j.TakeSeries(ctx, s.rec.ID, func(p *journal.Photo, img *image.RGBA) {
			if e := s.look(p, img); e != nil && broken == nil {
				broken = e
			}
			if time.Since(s.told) > growEvery && broken == nil {
				broken = s.grow(ctx)
			}
		})
		if err == nil {
			err = broken
		}
		if err != nil {
			return refused, err
		}
	}
	if s.row == nil {
		return refused, nil // the jar is not marked yet, or there is no picture
	}
	now, err := s.curves(ctx, s.rec)
	if err != nil {
		return refused, err
	}
	if _, err := s.j.KeepSeriesCurves(s.rec, now.frames, now.curves); err != nil {
		return refused, err
	}
	s.tell(now)
	more, err := s.finish(ctx, label, now)
	return append(refused, more...), err
}

// finish ends the reading once the baker has looked at the lines, by which it is known
// where it stood highest.
func (s *session) finish(ctx context.Context, label string, now state) (refused []error, err error) {
	rec, err := journal.Get[journal.Series](s.j, s.rec.ID)
	if err != nil || unlooked(rec) {
		return nil, err
	}
	return s.j.FinishSeries(ctx, s.rec.ID, label, first(now))
}

// unlooked says that the lines of a jar were found and not looked at yet.
func unlooked(rec *journal.Series) bool {
	return slices.ContainsFunc(rec.Jars, func(j journal.SeriesJar) bool { return j.Found })
}

// first are the frames of which the originals are kept: the first, the last, and those where
// it stood highest.
func first(now state) []*journal.Photo {
	if len(now.frames) == 0 {
		return nil
	}
	places := map[int]bool{0: true, len(now.frames) - 1: true}
	for _, c := range now.curves {
		top := -1
		for i, p := range c.Points {
			if p.Lost == jar.Kept && (top < 0 || p.Rise > c.Points[top].Rise) {
				top = i
			}
		}
		if top >= 0 {
			places[top] = true
		}
	}
	var out []*journal.Photo
	for i, p := range now.frames {
		if places[i] {
			out = append(out, p)
		}
	}
	return out
}

// lookAtKept looks at pictures from the journal, two at a time.
func (s *session) lookAtKept(ctx context.Context, kept []*journal.Photo) error {
	img, err := s.j.FullSize(ctx, kept[0].Hash, 0)
	if err != nil {
		return err
	}
	if err := s.look(kept[0], img); err != nil || s.row == nil {
		return err
	}
	work, within := errgroup.WithContext(ctx)
	work.SetLimit(2)
	for _, p := range kept[1:] {
		work.Go(func() error {
			img, err := s.j.FullSize(within, p.Hash, 0)
			if err != nil {
				return err
			}
			return s.look(p, img)
		})
		if time.Since(s.told) > growEvery {
			if err := s.grow(ctx); err != nil {
				return err
			}
		}
	}
	return work.Wait()
}

// look reads one picture; the first says where the jars are.
func (s *session) look(p *journal.Photo, img *image.RGBA) error {
	s.mu.Lock()
	row := s.row
	s.frames[p.ID] = p
	s.mu.Unlock()
	at := s.rec.TakenAt(p)
	if row != nil {
		return row.Look(string(p.ID), at, img)
	}
	var marks []jar.Marks
	for i := range s.rec.Jars {
		if !s.rec.Jars[i].Marked() {
			m, ok := jar.Find(img)
			if !ok || i > 0 {
				m = usual(i)
			}
			s.rec.Jars[i].SetMarks(m)
			s.mu.Lock()
			s.marks[i] = m
			s.mu.Unlock()
			err := s.j.DoWithoutUndo("finding the jar", func(tx *journal.Tx) error {
				return journal.Change(tx, s.rec.ID, func(rec *journal.Series) {
					rec.Jars[i].SetMarks(m)
					rec.Jars[i].Found = true
				})
			})
			if err != nil {
				return err
			}
		}
		marks = append(marks, s.rec.Jars[i].Marks())
	}
	row, err := jar.NewRow(string(p.ID), at, img, marks)
	if err != nil {
		return fmt.Errorf("looking at the first picture: %w", err)
	}
	s.mu.Lock()
	s.row = row
	s.mu.Unlock()
	return nil
}

// usual are lines to begin with where none were found.
func usual(i int) jar.Marks {
	m := jar.Marks{Left: 0.3, Right: 0.7, Bottom: 0.88, Level: 0.65, Top: 0.12}
	if i > 0 {
		m.Left, m.Right = 0.6, 0.9
	}
	return m
}

// grow tells what is known so far.
func (s *session) grow(ctx context.Context) error {
	s.told = time.Now()
	now, err := s.curves(ctx, s.rec)
	if err != nil {
		return err
	}
	s.tell(now)
	return nil
}

// filmWidth is how wide a picture stands in the film, in pixels.
const filmWidth = 6

// curves works the curves out of the pictures that were looked at, with the heights that
// the record has drawn.
func (s *session) curves(ctx context.Context, rec *journal.Series) (state, error) {
	s.mu.Lock()
	row := s.row
	s.mu.Unlock()
	var now state
	if row == nil {
		return now, nil
	}
	for k, one := range rec.Jars {
		fixed := map[string]float64{}
		for _, d := range one.Drawn {
			fixed[string(d.Photo)] = d.Rise
		}
		c, names, err := row.Curve(ctx, k, fixed)
		if err != nil {
			return now, err
		}
		frames := make([]*journal.Photo, len(names))
		s.mu.Lock()
		for i, name := range names {
			frames[i] = s.frames[journal.ID(name)]
		}
		s.mu.Unlock()
		if k > 0 && len(frames) > len(now.frames) { // more came meanwhile
			frames, c.Points, c.Moves = frames[:len(now.frames)], c.Points[:len(now.frames)], c.Moves[:len(now.frames)]
		}
		now.frames = frames
		now.curves = append(now.curves, journal.CurveOf(c, frames))
		now.films = append(now.films, row.Film(k, filmWidth))
	}
	return now, nil
}
