package histories

import (
	"slices"
	"time"

	"twinloaf/journal"
	"twinloaf/journal/ferment"
)

// readSeries reads what rows of pictures of a culture have shown, as readings of the
// feedings that they were taken of. A row that was not followed yet, or not with the lines
// and the method of now, says nothing.
func (l *CultureHistory) readSeries(r journal.Reader) error {
	var err error
	if l.Series, err = journal.SeriesOf(r, l.Culture.ID); err != nil {
		return err
	}
	l.seen = map[journal.ID][]ferment.Reading{}
	for _, s := range l.Series {
		curves, ok, err := journal.SeriesCurves(r, s)
		if err != nil {
			return err
		}
		for k, one := range s.Jars {
			if !ok || one.Culture != l.Culture.ID {
				continue
			}
			for _, p := range curves[k].Curve().Readings(journal.OneLook) {
				l.seen[one.Feeding] = append(l.seen[one.Feeding], ferment.Reading{ID: string(s.ID), At: p.At, Rise: ferment.Rise(p.Rise), SD: p.SD})
			}
		}
	}
	return nil
}

// merge puts what pictures showed of a course, until its end, among its readings.
func (l *CultureHistory) merge(c *ferment.Course, end time.Time) {
	more := l.seen[journal.ID(c.Feeding.ID)]
	if len(more) == 0 {
		return
	}
	for _, r := range more {
		if !r.At.Before(c.Feeding.At) && (end.IsZero() || r.At.Before(end)) {
			c.Readings = append(c.Readings, r)
		}
	}
	slices.SortStableFunc(c.Readings, func(a, b ferment.Reading) int { return a.At.Compare(b.At) })
}

// SeriesOf lists the rows of pictures of a feeding.
func (l *CultureHistory) SeriesOf(feeding journal.ID) []*journal.Series {
	return slices.DeleteFunc(slices.Clone(l.Series), func(s *journal.Series) bool {
		return !slices.ContainsFunc(s.Jars, func(j journal.SeriesJar) bool { return j.Feeding == feeding })
	})
}
