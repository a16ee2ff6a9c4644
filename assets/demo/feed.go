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
	hours              float64   // until then, at ferment.ReferenceTemp
	at                 []float64 // hours after the feeding at which it was looked at
	bubbles            int
	smells             map[string]int
	pH                 float64 // 0 when it was not measured
	note               string
	readingNote        string
	jar                bool // whether a photo was taken at the last reading but one
}

// feed tells a feeding and the readings that follow it, as far as they lie
// before now, and before the feeding of this morning.
func (s *story) feed(culture journal.ID, at time.Time, m meal) {
	warm := s.placeOf(culture)
	f := &journal.Feeding{
		Culture: culture, At: at, Kept: formula.Grams(m.kept), Flour: formula.Grams(m.flour), Water: formula.Grams(m.water),
		Taken: m.taken, RoomC: new(celsius(warm(at))), WaterC: new(celsius(s.scatter(27, 1.5))), Note: m.note,
	}
	put(s, at, f)
	c := course{peak: m.peak - 1, hours: m.hours}
	end := s.now
	if last := s.fedToday(culture); at.Before(last) {
		end = last.Add(-5 * time.Minute)
	}
	jar := m.jar
	for i, h := range m.at {
		t := at.Add(hours(h))
		if t.After(end) {
			break
		}
		rise := c.rise(ripening(warm, at, h))
		r := &journal.Reading{
			Culture: culture, At: t, Rise: new(round(max(1, 1+rise+s.scatter(0, 0.02)*rise), 0.01)),
			Temp: new(celsius(warm(t))),
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
		if jar && i >= len(m.at)-2 {
			jar = !s.photographJar(r, s.nameOf(culture))
		}
		put(s, t, r)
	}
}

// ripening is how many hours at ferment.ReferenceTemp do what so many hours after a
// feeding did. It is by another law than the forecasts go by, so that what they say of
// the demo's jars is no foregone conclusion: the square root of the pace is straight in
// the temperature above 2 °C (Ratkowsky et al. 1982, J Bacteriol 149:1).
func ripening(warm func(time.Time) float64, fed time.Time, h float64) float64 {
	const step = 0.25 // hours
	pace := func(c float64) float64 { return math.Pow(max(0, c-2), 2) }
	sum := 0.0
	for from := 0.0; from < h; from += step {
		long := min(step, h-from)
		sum += long * pace(warm(fed.Add(hours(from+long/2))))
	}
	return sum / pace(float64(ferment.ReferenceTemp))
}

// A course is how a culture rises after a feeding: Zwietering's modified
// Gompertz curve, and a slow fall after the peak. Its hours are those at
// ferment.ReferenceTemp.
type course struct{ peak, hours float64 }

// rise is the rise over the mark after so many of these hours.
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
