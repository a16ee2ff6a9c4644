// Package histories reads a culture's records into what the arithmetic of fermenting
// works with: its feedings with what was seen after each, what it is expected to
// do next, and whether it is ready. Rooms that speak of cultures share it.
//
// Everything here reads the journal and fits curves, which takes its time: call it
// off the main goroutine. A [CultureHistory] does not change once it has been read, and may
// be used from several goroutines.
package histories

import (
	"fmt"
	"slices"
	"time"

	"twinloaf/journal"
	"twinloaf/journal/ferment"
)

// A CultureHistory is one culture with everything that was recorded of it, oldest first.
type CultureHistory struct {
	Culture  *journal.Culture
	Feedings []*journal.Feeding // those without flour and water are takings: see [Taking]
	Readings []*journal.Reading
	Moves    []*journal.Move
	Logs     []*journal.TempLog
	Temps    []ferment.TempPoint // the points of all logs
	Series   []*journal.Series   // rows of pictures

	seen map[journal.ID][]ferment.Reading // by feeding, from rows of pictures

	courses   []ferment.Course
	inherited []ferment.Reading // dangers of the culture that it was split from
	learner   learner
}

// read reads one life.
func read(r journal.Reader, id journal.ID) (*CultureHistory, error) {
	l := new(CultureHistory)
	var err error
	if l.Culture, err = journal.Get[journal.Culture](r, id); err != nil {
		return nil, err
	}
	if l.Feedings, err = journal.Linked[journal.Feeding](r, id); err != nil {
		return nil, err
	}
	if l.Readings, err = journal.Linked[journal.Reading](r, id); err != nil {
		return nil, err
	}
	if l.Moves, err = journal.Linked[journal.Move](r, id); err != nil {
		return nil, err
	}
	if l.Logs, err = journal.Linked[journal.TempLog](r, id); err != nil {
		return nil, err
	}
	for _, log := range l.Logs {
		points, err := journal.UnpackTemps(log.Packed, log.From.Location())
		if err != nil {
			return nil, fmt.Errorf("reading the temperature log %q of %s: %w", log.Name, l.Culture.Name, err)
		}
		for _, p := range points {
			l.Temps = append(l.Temps, ferment.TempPoint{At: p.At, Temp: p.C, Told: log.ID.Made()})
		}
	}
	if len(l.Logs) > 1 {
		slices.SortStableFunc(l.Temps, func(a, b ferment.TempPoint) int { return a.At.Compare(b.At) })
	}
	if err := l.readSeries(r); err != nil {
		return nil, err
	}
	l.courses = l.makeCourses()
	l.inherited, err = inherited(r, l.Culture, 0)
	return l, err
}

// Of reads the life of a culture, the bin left out, and with few feedings of its own those
// kept beside it, from which its forecasts learn.
func Of(r journal.Reader, id journal.ID) (*CultureHistory, error) {
	l, err := read(r, id)
	if err != nil || len(l.courses) > fewOwn {
		return l, err
	}
	all, err := journal.All[journal.Culture](r)
	if err != nil {
		return nil, err
	}
	for _, c := range all {
		if c.ID == id || len(l.learner.beside) == mostBeside {
			continue
		}
		other, err := read(r, c.ID)
		if err != nil {
			return nil, err
		}
		l.learner.beside = append(l.learner.beside, other)
	}
	return l, nil
}

// mostBeside are how many cultures a young one leans on at most.
const mostBeside = 3

// All reads the lives of all cultures that have not been thrown away, in the
// order in which the journal lists them.
func All(r journal.Reader) ([]*CultureHistory, error) {
	cultures, err := journal.All[journal.Culture](r)
	if err != nil {
		return nil, err
	}
	var out []*CultureHistory
	for _, c := range cultures {
		l, err := read(r, c.ID)
		if err != nil {
			return nil, err
		}
		out = append(out, l)
	}
	for _, l := range out {
		l.learner.beside = out[:min(len(out), mostBeside+1)]
	}
	return out, nil
}

// Taking reports whether a record of a feeding is none: something was taken off
// the jar, and nothing was added.
func Taking(f *journal.Feeding) bool { return f.Flour <= 0 && f.Water <= 0 }

// Courses gives the feedings until now, oldest first, each with what was seen of
// it until the next. The list must not be altered.
func (l *CultureHistory) Courses(now time.Time) []ferment.Course {
	n := len(l.courses)
	for n > 0 && l.courses[n-1].Feeding.At.After(now) {
		n--
	}
	return l.courses[:n]
}

// Course gives the course of one feeding by its ID.
func (l *CultureHistory) Course(id journal.ID) (ferment.Course, bool) {
	i := slices.IndexFunc(l.courses, func(c ferment.Course) bool { return c.Feeding.ID == string(id) })
	if i < 0 {
		return ferment.Course{}, false
	}
	return l.courses[i], true
}

// Current gives the course that the culture is in.
func (l *CultureHistory) Current(now time.Time) (ferment.Course, bool) {
	c := l.Courses(now)
	if len(c) == 0 {
		return ferment.Course{}, false
	}
	return c[len(c)-1], true
}

// At gives what is known of the culture at a time.
func (l *CultureHistory) At(now time.Time) ferment.Life {
	return ferment.Life{Born: l.Culture.Born, Courses: l.Courses(now), Now: now, Cleared: l.Culture.Cleared, Inherited: l.inherited}
}

// Day is the culture's day of age, 1 in its first 24 hours; 0 if its birth is not
// known.
func (l *CultureHistory) Day(now time.Time) int { return ferment.DayOfAge(l.Culture.Born, now) }

// Thresholds are the culture's own conditions of readiness, filled up with the
// usual ones.
func (l *CultureHistory) Thresholds() ferment.Thresholds {
	th, own := ferment.UsualThresholds(), l.Culture.Ready
	if own.Rise > 0 {
		th.Rise = ferment.Rise(own.Rise)
	}
	if own.Within > 0 {
		th.Within = own.Within
	}
	if own.Feedings > 0 {
		th.InARow = own.Feedings
	}
	if own.MinAge > 0 {
		th.MinAge = own.MinAge
	}
	return th
}

// Ready works out whether the culture is ready to bake with.
func (l *CultureHistory) Ready(now time.Time) ferment.Readiness {
	return ferment.Ready(l.At(now), l.Thresholds())
}

// Guide says what is to be said of the day that a young culture is in.
func (l *CultureHistory) Guide(now time.Time) ferment.Guide { return ferment.FirstWeeks(l.At(now)) }
