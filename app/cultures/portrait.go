package cultures

import (
	"context"
	"errors"
	"time"

	"twinloaf/journal"
	"twinloaf/journal/ferment"
	"twinloaf/journal/histories"
	"twinloaf/journal/measure"
)

// A portrait is a culture as its page shows it, worked out away from the main
// goroutine.
type portrait struct {
	life     *histories.CultureHistory
	now      time.Time
	guide    ferment.Guide
	ready    ferment.Readiness
	back     []ferment.BackTest
	due      ferment.Due
	hasDue   bool
	forecast ferment.Forecast
	// unknown is why there is no forecast; nil if there is one.
	unknown error
	photos  []jarPhoto
	entries []entry // everything recorded, the latest first
	parent  *journal.Culture
	// children are the cultures split from this one.
	children []*journal.Culture
	// other is a second culture laid over this one, or nil.
	other *histories.CultureHistory
}

// A jarPhoto is a photo of the culture, of one of its readings or feedings.
type jarPhoto struct {
	photo *journal.Photo
	at    time.Time
}

// paint works out the portrait of a culture. A ctx that ends stops it between its
// steps: the journal changed meanwhile, and another portrait is on its way.
func paint(ctx context.Context, r journal.Reader, id, other journal.ID, now time.Time, u measure.Units) (*portrait, error) {
	l, err := histories.Of(r, id)
	if err != nil {
		return nil, err
	}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	p := sketch(l, now)
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	p.back = l.BackTest()
	p.entries = entriesOf(l, now, u)
	if p.photos, err = photosOf(r, l); err != nil {
		return nil, err
	}
	if l.Culture.Parent != "" {
		// A parent that was taken away for good is no reason to show nothing.
		p.parent, _ = journal.Get[journal.Culture](r, l.Culture.Parent)
	}
	if p.children, err = journal.Linked[journal.Culture](r, id); err != nil {
		return nil, err
	}
	if other != "" && other != id {
		over, err := histories.Of(r, other)
		switch {
		case errors.Is(err, journal.ErrNotFound): // it was deleted, and lies over nothing any more
		case err != nil:
			return nil, err
		case !over.Culture.InBin():
			p.other = over
		}
	}
	return p, nil
}

// sketch is what the list shows of a culture.
func sketch(l *histories.CultureHistory, now time.Time) *portrait {
	p := &portrait{life: l, now: now, guide: l.Guide(now), ready: l.Ready(now)}
	p.forecast, p.unknown = l.Forecast(now)
	p.due, p.hasDue = l.Due(now)
	return p
}

// read says that a height was ever read of the culture.
func (p *portrait) read() bool { return len(p.life.Peaks(p.now)) > 0 }

// climbing says that a peak is none yet: it belongs to the feeding that the culture
// is in, and the height that is expected of it lies ahead.
func (p *portrait) climbing(k histories.Peak) bool {
	c, ok := p.life.Current(p.now)
	if !ok || c.Feeding.ID != string(k.Feeding) {
		return false
	}
	return p.unknown == nil && p.now.Before(p.forecast.Peak.Mid)
}

// photosOf lists the photos of a culture, its readings and its feedings, oldest
// first.
func photosOf(r journal.Reader, l *histories.CultureHistory) ([]jarPhoto, error) {
	var out []jarPhoto
	add := func(owner journal.ID, at time.Time) error {
		photos, err := journal.Photos(r, owner)
		if err != nil {
			return err
		}
		for _, p := range photos {
			when := at
			if at.IsZero() {
				when = p.When()
			}
			out = append(out, jarPhoto{p, when})
		}
		return nil
	}
	if err := add(l.Culture.ID, time.Time{}); err != nil {
		return nil, err
	}
	for _, f := range l.Feedings {
		if err := add(f.ID, f.At); err != nil {
			return nil, err
		}
	}
	for _, rd := range l.Readings {
		if err := add(rd.ID, rd.At); err != nil {
			return nil, err
		}
	}
	sortByTime(out, func(p jarPhoto) time.Time { return p.at })
	return out, nil
}
