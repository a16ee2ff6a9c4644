package demo

import (
	"math"
	"time"

	"twinloaf/journal"
	"twinloaf/journal/ferment"
	"twinloaf/journal/formula"
)

// A meal is one feeding as the story tells it, and how the culture took it.
type meal struct {
	kept, flour, water float64
	taken              []journal.TakenOff
	peak               float64   // rise at its highest, 2 for doubled
	hours              float64   // until then, at 25 °C
	at                 []float64 // hours after the feeding at which it was looked at
	bubbles            int
	smells             map[string]int
	pH                 float64 // 0 when it was not measured
	note               string
	readingNote        string
	jar                *jarShot // photo taken at the last reading but one, or nil
	// until is when it was fed again, if some of the readings would come after that.
	until time.Time
}

// fed is a feeding that has been told, with the readings after it.
type fed struct {
	feeding  *journal.Feeding
	readings []*journal.Reading
}

// feed tells a feeding and the readings that follow it, as far as they lie
// before now.
func (s *story) feed(culture journal.ID, at time.Time, m meal) fed {
	room := s.galley(at)
	f := &journal.Feeding{
		Culture: culture, At: at, Kept: formula.Grams(m.kept), Flour: formula.Grams(m.flour), Water: formula.Grams(m.water),
		Taken: m.taken, RoomC: new(celsius(room)), WaterC: new(celsius(s.scatter(27, 1.5))), Note: m.note,
	}
	put(s, at, f)
	out := fed{feeding: f}
	pace := ferment.CardinalYeast()
	slow := pace.Relative(ferment.Celsius(25)) / max(0.15, pace.Relative(ferment.Celsius(room)))
	c := course{peak: m.peak - 1, hours: m.hours * slow}
	for i, h := range m.at {
		t := at.Add(hours(h))
		if t.After(s.now) || !m.until.IsZero() && !t.Before(m.until) {
			break
		}
		r := &journal.Reading{
			Culture: culture, At: t, Rise: new(round(max(1, 1+c.rise(h)+s.scatter(0, 0.02)*c.rise(h)), 0.01)),
			Temp: new(celsius(s.galley(t) + 0.4)),
		}
		if i == len(m.at)-1 || m.hours-h < 2 {
			r.Bubbles, r.Smells = new(m.bubbles), m.smells
		}
		if i == len(m.at)-1 {
			r.Note = m.readingNote
			if m.pH > 0 {
				r.PH = new(round(m.pH, 0.01))
			}
		}
		if m.jar != nil && i == max(0, len(m.at)-2) {
			s.photographJar(r, m.jar)
		}
		put(s, t, r)
		out.readings = append(out.readings, r)
	}
	return out
}

// A course is how a culture rises after a feeding: Zwietering's modified
// Gompertz curve, and a slow fall after the peak.
type course struct{ peak, hours float64 }

// rise is the rise over the mark after so many hours.
func (c course) rise(h float64) float64 {
	if c.peak <= 0 {
		return 0
	}
	lag := 0.16 * c.hours
	rate := 1.55 * c.peak / (c.hours - lag)
	y := c.peak * math.Exp(-math.Exp(rate*math.E/c.peak*(lag-h)+1))
	if fall := h - c.hours - 1.5; fall > 0 {
		y *= math.Exp(-fall / 9)
	}
	return y
}

// move tells that a culture has been put somewhere else.
func (s *story) move(culture journal.ID, at time.Time, to journal.Home, note string) {
	c := s.galley(at)
	if to == journal.Refrigerator {
		c = 4.5
	}
	put(s, at, &journal.Move{Culture: culture, At: at, To: to, Temp: new(celsius(c)), Note: note})
}
