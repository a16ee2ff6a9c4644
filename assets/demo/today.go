package demo

import (
	"time"

	"twinloaf/journal"
)

// fedToday is when a culture was fed last.
func (s *story) fedToday(culture journal.ID) time.Time {
	if culture == s.gorseID {
		return s.now.Add(-190 * time.Minute)
	}
	return s.now.Add(-150 * time.Minute)
}

// today tells the day under way: both cultures fed this morning, and a dough
// with a turn due in twelve minutes.
func (s *story) today() {
	s.feed(s.harbourID, s.fedToday(s.harbourID), meal{
		kept: 25, flour: 50, water: 50, peak: 2.2, hours: 5.6, at: []float64{0.5, 1.25, 1.9, 2.35}, bubbles: 2,
		smells: map[string]int{"fruity": 1}, taken: []journal.TakenOff{{Grams: 90, For: journal.Baked}},
		jar: true,
	})
	s.feed(s.gorseID, s.fedToday(s.gorseID), meal{
		kept: 25, flour: 50, water: 50, peak: 2.36, hours: 6.0, at: []float64{1, 2, 3}, bubbles: 3,
		smells: map[string]int{"fruity": 2}, taken: []journal.TakenOff{{Grams: 100, For: journal.Discarded}},
		jar: true,
	})
	s.underWay(find("Seeded loaf", 1))
}

// nextTurn is when the next turn is due.
const nextTurn = 12 * time.Minute

// underWay is a dough in its turns: the second is done, the third is due.
func (s *story) underWay(d *bread) {
	turns := s.now.Add(nextTurn - 90*time.Minute)
	mix := turns.Add(-45 * time.Minute) // mixed, and rested
	b := &journal.Bake{
		Name: d.name, State: journal.Running, Culture: s.harbourID, Formula: s.formulaOf[d.key()], Loaves: d.loaves,
		Notes: "For the harbour master's birthday.",
	}
	b.Ingredients, b.Levains = s.mixture(d, b.Culture, "Harbour", 74, mix, true)
	b.Water = s.water(mix)
	b.Water.Dough = new(celsius(24.6))
	b.Steps = s.steps(d, mix, s.untilMorning(mix.Add(hours(beforeCold)), 14))
	for i := range b.Steps {
		st := &b.Steps[i]
		if st.PlannedAt.After(s.now) {
			break
		}
		st.At = st.PlannedAt
		if st.Times == 0 {
			st.End = st.PlannedAt.Add(st.Planned)
			s.measure(st, 24.6)
			continue
		}
		st.Done = []time.Time{st.At.Add(31 * time.Minute), st.At.Add(60 * time.Minute)}
		st.Note = "Slack at first; better after the second."
	}
	b.At, b.Ready = b.Steps[0].At, outOfOven(b.Steps)
	put(s, mix, b)
	s.want(shot{
		plate: s.plate(journal.RoleDough, d.dough+" after a turn", 0, 0), owner: journal.RefOf(b),
		at: turns.Add(60 * time.Minute), caption: "After the second fold.",
	})
}

// untilMorning lengthens a cold proof so that the oven is not heated at night: to six in the
// morning.
func (s *story) untilMorning(from time.Time, cold float64) float64 {
	heat := from.Add(hours(cold))
	morning := time.Date(heat.Year(), heat.Month(), heat.Day(), 6, 0, 0, 0, heat.Location())
	switch h := heat.Hour(); {
	case h < 6:
		return morning.Sub(from).Hours()
	case h >= 20:
		return morning.AddDate(0, 0, 1).Sub(from).Hours()
	}
	return cold
}
