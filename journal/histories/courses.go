package histories

import (
	"cmp"
	"slices"
	"sort"
	"time"

	"twinloaf/journal"
	"twinloaf/journal/ferment"
)

// makeCourses puts the records together: one course for each feeding, and one
// from the birth on if anything was seen before the first feeding.
func (l *CultureHistory) makeCourses() []ferment.Course {
	out := make([]ferment.Course, 0, len(l.Feedings))
	for _, f := range l.Feedings {
		if Taking(f) {
			continue
		}
		out = append(out, ferment.Course{Feeding: ferment.Feeding{
			ID: string(f.ID), At: f.At,
			Kept: f.Kept, Flour: f.Flour, Water: f.Water,
		}})
		fed := &out[len(out)-1].Feeding
		fed.Wholegrain, fed.GrainKnown = l.wholegrain(f)
	}
	if first, ok := l.firstMix(out); ok {
		out = append([]ferment.Course{{Feeding: ferment.Feeding{ID: string(l.Culture.ID), At: first}}}, out...)
	}
	starts := map[string]*journal.Feeding{}
	for _, f := range l.Feedings {
		starts[string(f.ID)] = f
	}
	r := 0
	for i := range out {
		c := &out[i]
		end := time.Time{} // of the last course: open
		if i+1 < len(out) {
			end = out[i+1].Feeding.At
		}
		for ; r < len(l.Readings) && (end.IsZero() || l.Readings[r].At.Before(end)); r++ {
			c.Readings = append(c.Readings, reading(l.Readings[r], starts[c.Feeding.ID]))
		}
		l.merge(c, end)
		l.place(c, starts[c.Feeding.ID], end)
	}
	return out
}

// wholegrain is the share of wholegrain in the flour of a feeding, 0 to 1; false if no
// flour was named.
func (l *CultureHistory) wholegrain(f *journal.Feeding) (share float64, known bool) {
	flours := f.Flours
	if len(flours) == 0 {
		flours = l.Culture.Flours
	}
	all := 0.0
	for _, s := range flours {
		all += float64(s.Share)
		share += float64(s.Share) * float64(s.Wholegrain) / 100
	}
	if all <= 0 {
		return 0, false
	}
	return share / all, true
}

// firstMix is when a course without a feeding begins: at the birth, or at the
// first reading, if that came before the first feeding.
func (l *CultureHistory) firstMix(courses []ferment.Course) (time.Time, bool) {
	if len(l.Readings) == 0 {
		return time.Time{}, false
	}
	at := l.Readings[0].At
	if len(courses) > 0 && !at.Before(courses[0].Feeding.At) {
		return time.Time{}, false
	}
	if born := l.Culture.Born; !born.IsZero() && born.Before(at) && at.Sub(born) < 5*24*time.Hour {
		at = born
	}
	return at, true
}

// place fills in where a culture stood in a course and how warm it was there.
func (l *CultureHistory) place(c *ferment.Course, f *journal.Feeding, end time.Time) {
	from := c.Feeding.At
	room := l.warmth(from)
	if f != nil && f.RoomC != nil && l.Home(from) != journal.Refrigerator {
		room = ferment.Measured(*f.RoomC)
	}
	c.Feeding.Place, c.Feeding.Room = ferment.Place(l.Home(from)), room
	c.Temps = l.tempsBetween(from, end)
	at := from
	var walked []ferment.TempPoint
	for _, m := range l.Moves {
		if !m.At.After(from) || !end.IsZero() && !m.At.Before(end) {
			continue
		}
		walked = append(walked, steady(at, m.At, room)...)
		at, room = m.At, l.warmth(m.At)
		c.Feeding.Place, c.Feeding.Room = ferment.Place(m.To), room
		if room.Known {
			walked = append(walked, ferment.TempPoint{At: m.At.Add(time.Minute), Temp: room.C})
		}
	}
	if len(c.Temps) == 0 {
		c.Temps = walked
	}
}

// steady is a temperature written down every hour, so that the arithmetic takes
// it for known all along.
func steady(from, to time.Time, t ferment.Temperature) []ferment.TempPoint {
	if !t.Known {
		return nil
	}
	var out []ferment.TempPoint
	for at := from; at.Before(to); at = at.Add(time.Hour) {
		out = append(out, ferment.TempPoint{At: at, Temp: t.C})
	}
	return append(out, ferment.TempPoint{At: to, Temp: t.C})
}

// tempsBetween gives the points of the logs from one time to another, with what
// lies within two hours around. A zero end is open.
func (l *CultureHistory) tempsBetween(from, to time.Time) []ferment.TempPoint {
	const around = 2 * time.Hour
	after := func(t time.Time) int {
		return sort.Search(len(l.Temps), func(i int) bool { return l.Temps[i].At.After(t) })
	}
	a, b := after(from.Add(-around)), len(l.Temps)
	if !to.IsZero() {
		b = after(to.Add(around))
	}
	return l.Temps[a:max(a, b):max(a, b)]
}

// Home is where the culture lived at a time: where it was last moved to, or else
// where it is said to live.
func (l *CultureHistory) Home(at time.Time) journal.Home {
	if m := l.lastMove(at); m != nil {
		return m.To
	}
	return cmp.Or(l.Culture.Home, journal.Counter)
}

func (l *CultureHistory) lastMove(at time.Time) *journal.Move {
	for _, m := range slices.Backward(l.Moves) {
		if !m.At.After(at) {
			return m
		}
	}
	return nil
}

// refrigerator is how warm a refrigerator is taken to be when nobody measured it:
// 5 °C, common practice, no source.
const refrigerator ferment.Celsius = 5

// warmth is how warm it is where the culture lived at a time, as far as known.
func (l *CultureHistory) warmth(at time.Time) ferment.Temperature {
	if m := l.lastMove(at); m != nil && m.Temp != nil {
		return ferment.Measured(*m.Temp)
	}
	home := l.Home(at)
	if l.Culture.Usual != nil && (home == l.Culture.Home || l.Culture.Home == "") {
		return ferment.Measured(*l.Culture.Usual)
	}
	if home == journal.Refrigerator {
		return ferment.Measured(refrigerator)
	}
	return ferment.Temperature{}
}
