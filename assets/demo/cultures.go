package demo

import (
	"math"
	"time"

	"twinloaf/journal"
	"twinloaf/journal/formula"
)

// gorseAge is Gorse's age in days: it is in its third week.
const gorseAge = 17

func (s *story) harbourBorn() time.Time { return atHour(s.now.AddDate(0, -11, 0), 8.5) }

func (s *story) gorseBorn() time.Time { return s.day(gorseAge, 8) }

// cultures tells of the two cultures, and of one that was split off and given
// away.
func (s *story) cultures() {
	harbour := &journal.Culture{
		Name: "Harbour", Born: s.harbourBorn(), Hydration: new(formula.Percent(100)), Home: journal.Counter,
		Usual: new(celsius(22)), Colour: 1,
		Flours: []journal.FlourShare{{Name: darkRye, Grain: "rye", Share: 100}},
		Notes:  "Begun while the ferry lay in harbour for repairs. Rye and water, nothing else.",
	}
	put(s, harbour.Born, harbour)
	s.harbourID = harbour.ID
	split := s.day(80, 9)
	put(s, split, &journal.Culture{
		Name: "Harbour, stiff", Born: split, Parent: harbour.ID, Hydration: new(formula.Percent(60)), Home: journal.Refrigerator,
		Usual: new(celsius(5)), Colour: 3, Ended: s.day(38, 16),
		Flours: []journal.FlourShare{{Name: strongWhite, Grain: "wheat", Share: 100}},
		Notes:  "A stiff one for sweet doughs. Given to the engineer's sister when she moved ashore.",
	})
	gorse := &journal.Culture{
		Name: "Gorse", Born: s.gorseBorn(), Hydration: new(formula.Percent(100)), Home: journal.WarmSpot,
		Usual: new(celsius(23)), Colour: 2,
		Flours: []journal.FlourShare{
			{Name: strongWhite, Grain: "wheat", Share: 80},
			{Name: wholeWheat, Grain: "wheat", Share: 20, Wholegrain: 100},
		},
		Notes: "From flour and water, to see whether a wheat culture makes a milder loaf than Harbour does. Named after what flowers on the headland.",
	}
	put(s, gorse.Born, gorse)
	s.gorseID = gorse.ID
}

// A dayOfLife is how a young culture does on one day of its age.
type dayOfLife struct {
	peak, hours float64
	bubbles     int
	smells      map[string]int
	pH          float64
	note        string
}

// youth is the usual way of a new culture by day of age: the early burst, the
// lull, the waking. Its figures are invented within common practice.
var youth = []dayOfLife{
	{1.00, 24, 0, map[string]int{"none": 1}, 6.1, "Flour and water. Looks like paste."},
	{1.95, 8.5, 3, map[string]int{"foul": 2}, 5.2, "Up like a lift overnight! Smells of old socks."},
	{1.44, 8.5, 2, map[string]int{"foul": 2, "milky": 1}, 4.8, "Less than yesterday."},
	{1.05, 16, 1, map[string]int{"milky": 1, "sour": 1}, 4.4, "Nothing. Did I kill it?"},
	{1.07, 18, 1, map[string]int{"sour": 2}, 4.2, "Still asleep. Fed it all the same."},
	{1.58, 6.4, 2, map[string]int{"sour": 2}, 4.1, "Bubbles along the glass again."},
	{1.62, 6.4, 2, map[string]int{"sour": 2, "fruity": 1}, 4.0, ""},
	{1.70, 6.3, 2, map[string]int{"sour": 1, "fruity": 1}, 3.95, "Awake. Smells of apples for the first time."},
	{1.82, 6.3, 3, map[string]int{"fruity": 2}, 3.9, ""},
	{1.96, 6.2, 3, map[string]int{"fruity": 2, "sour": 1}, 3.9, "Nearly doubled."},
	{2.10, 6.2, 3, map[string]int{"fruity": 2}, 3.88, "Doubled before supper."},
	{2.18, 6.2, 3, map[string]int{"fruity": 2, "milky": 1}, 3.87, ""},
	{2.24, 6.1, 4, map[string]int{"fruity": 2}, 3.86, "Twice in a row."},
	{2.30, 6.1, 4, map[string]int{"fruity": 2, "milky": 1}, 3.86, "Ready for bread, I should think."},
	{2.28, 6.1, 4, map[string]int{"fruity": 2}, 3.85, ""},
	{2.34, 6.0, 4, map[string]int{"fruity": 2}, 3.85, ""},
	{2.36, 6.0, 4, map[string]int{"fruity": 2, "milky": 1}, 3.85, ""},
}

// gorse tells the new culture's life, with a temperature log of its first
// two weeks.
func (s *story) gorse() {
	born := s.gorseBorn()
	for i, d := range youth {
		at := s.day(gorseAge-i, 8)
		m := meal{
			kept: 25, flour: 50, water: 50, peak: d.peak, hours: d.hours, bubbles: d.bubbles, smells: d.smells,
			note: "", readingNote: d.note, at: []float64{7.5, 12},
			taken: []journal.TakenOff{{Grams: 100, For: journal.Discarded}},
		}
		if i == 0 {
			m.kept, m.flour, m.water, m.taken, m.at = 0, 60, 60, nil, []float64{5, 12, 22}
		}
		if i >= 5 {
			m.at = []float64{1.5, 3, 4.5, 6, 7.5, 9.5, 11}
		}
		if i == 11 { // followed past its top for once
			m.at = append(m.at, 12.75)
		}
		if i%2 == 1 || i < 6 {
			m.pH = s.scatter(d.pH, 0.03)
		}
		if i == 1 || i == 3 || i == 6 || i == 9 || i == 13 {
			m.jar = true
		}
		s.feed(s.gorseID, at, m)
		if i >= 7 { // twice a day from the second week on
			evening := s.day(gorseAge-i, 21)
			if s.fedToday(s.gorseID).Sub(evening) < 7*time.Hour {
				continue // the night is young: it was still at work
			}
			m.at, m.jar, m.readingNote, m.pH = []float64{1.5, 7.75}, false, "", 0
			s.feed(s.gorseID, evening, m)
		}
	}
	s.tempLog(born)
}

// tempLog is a data logger's record beside Gorse, every ten minutes for two weeks.
func (s *story) tempLog(from time.Time) {
	var points []journal.TempPoint
	drift, warm := 0.0, s.placeOf(s.gorseID)
	for i := range 14*24*6 + 1 {
		at := from.Add(time.Duration(i) * 10 * time.Minute)
		drift = 0.97*drift + 0.06*s.rng.NormFloat64()
		c := warm(at) + drift
		if h := at.Hour(); h == 6 { // the oven beside it is lit
			c += 0.8
		}
		points = append(points, journal.TempPoint{At: at, C: formula.Celsius(math.Round(c*100) / 100)})
	}
	packed, err := journal.PackTemps(points)
	if err != nil {
		s.fail(err)
	}
	last := points[len(points)-1].At
	put(s, last, &journal.TempLog{
		Culture: s.gorseID, Name: "warm-shelf.csv", From: from, To: last, Count: len(points), Packed: packed,
	})
}

// harbour tells the old culture's life: its first weeks, a winter of weekly
// feedings out of the refrigerator, and the four months of baking.
func (s *story) harbour() {
	born := s.harbourBorn()
	age := s.ago(born)
	for i, d := range youth {
		m := meal{
			kept: 25, flour: 50, water: 50, bubbles: d.bubbles, smells: d.smells, at: []float64{4, 8, 12, 22},
			// Rye wakes a little sooner and rises a little less.
			peak: 1 + (d.peak-1)*0.86, hours: d.hours * 0.95, taken: []journal.TakenOff{{Grams: 100, For: journal.Discarded}},
		}
		if i == 0 {
			m.kept, m.taken, m.at = 0, nil, []float64{12, 22}
		}
		if i == 1 || i == 8 {
			m.jar = true
		}
		s.feed(s.harbourID, s.day(age-i, 8.5), m)
	}
	s.winter(age - len(youth) - 3)
	s.season()
}

// winter: in the refrigerator, fed once a week.
func (s *story) winter(from int) {
	s.move(s.harbourID, s.day(from+1, 20), journal.Refrigerator, "Settled enough for the cold box.")
	for ago := from - 6; ago > 128; ago -= 7 {
		m := meal{
			kept: 20, flour: 40, water: 40, peak: s.scatter(2.0, 0.1), hours: 7.5, at: []float64{6},
			bubbles: 3, smells: map[string]int{"sour": 2},
			taken: []journal.TakenOff{{Grams: 60, For: journal.Discarded}},
		}
		s.move(s.harbourID, s.day(ago, 8), journal.Counter, "")
		s.feed(s.harbourID, s.day(ago, 9), m)
		s.move(s.harbourID, s.day(ago, 17), journal.Refrigerator, "")
	}
	s.move(s.harbourID, s.day(122, 8), journal.Counter, "Out for the season.")
}

// season: on the counter, fed daily, but for the days when nobody is aboard.
func (s *story) season() {
	for i := range s.awayFrom {
		s.move(s.harbourID, s.awayFrom[i], journal.Refrigerator, pick(s, "Off the ship until the weekend.", "Shore leave.", "Ship in dry dock for the week."))
		s.move(s.harbourID, s.awayTo[i], journal.Counter, "Back aboard.")
	}
	for ago := 122; ago > 0; ago-- {
		at := s.day(ago, 9.25+s.between(-0.5, 0.5))
		if s.away(at) || s.away(at.Add(-time.Hour)) {
			continue
		}
		s.feed(s.harbourID, at, s.dailyMeal(ago))
	}
}

// dailyMeal is what Harbour gets on a day of the season.
func (s *story) dailyMeal(ago int) meal {
	m := meal{
		kept: 25, flour: 50, water: 50, peak: s.scatter(2.15, 0.09), hours: s.scatter(5.6, 0.35), bubbles: 3,
		taken:  []journal.TakenOff{{Grams: formula.Grams(60 + 5*s.rng.IntN(6)), For: pick(s, journal.Baked, journal.Baked, journal.Discarded)}},
		smells: pick(s, map[string]int{"sour": 2}, map[string]int{"sour": 1, "fruity": 1}, map[string]int{"fruity": 2, "sour": 1}),
	}
	if s.rng.IntN(4) == 0 {
		m.kept, m.flour, m.water, m.hours = 15, 60, 60, m.hours+1.2
	}
	switch s.rng.IntN(10) {
	case 0, 1, 2, 3:
		m.at = []float64{1.5, 3, 4.5, 6, 8, 10.5}
	case 4, 5, 6:
		m.at = []float64{2, 4, 6, 9}
	case 7:
		m.at = []float64{7}
	}
	if ago%11 == 0 && len(m.at) > 3 {
		m.pH = s.scatter(3.78, 0.04)
		m.jar = true
	}
	for _, back := range s.awayTo {
		if s.ago(back) == ago {
			m.peak, m.hours, m.at, m.smells = 1.7, 8.5, []float64{5, 9}, map[string]int{"sour": 3, "solvent": 1}
			m.note = "Grey liquid on top after the cold. Poured it off."
		}
	}
	return m
}
