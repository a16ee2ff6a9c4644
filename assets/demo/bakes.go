package demo

import (
	"math"
	"time"

	"twinloaf/journal"
)

// The days, before today, that the trial takes up, and that of the bake which
// waits to be scored.
const (
	trialMixed  = 4
	trialBaked  = 3
	waitingFrom = 2
	firstBake   = 119
	ownPictures = 15 // of the latest bakes
)

// bakes tells four months of bakes, up to the trial.
func (s *story) bakes() {
	var days []int
	for ago := firstBake; ago > trialMixed; ago-- {
		if s.away(s.day(ago, 12)) || s.away(s.day(ago-1, 12)) || s.rng.IntN(100) >= 67 {
			continue
		}
		days = append(days, ago)
	}
	for i, ago := range days {
		d := s.choose(ago)
		s.bake(d, ago, i >= len(days)-ownPictures+4)
	}
	s.bake(find(ferryLoaf, 2), waitingFrom, true)
}

// choose takes a bread by how often it is baked. A second version takes over
// from the first.
func (s *story) choose(ago int) *bread {
	second := s.ago(s.day(64, 14))
	all := 0
	for _, d := range breads {
		all += d.often
	}
	for {
		n := s.rng.IntN(all)
		for i := range breads {
			d := &breads[i]
			if n -= d.often; n >= 0 {
				continue
			}
			if d.name == ferryLoaf && (ago < second) != (d.version == 2) {
				break
			}
			return d
		}
	}
}

// beforeCold is from the mixing to the cold, in hours; see steps.
const beforeCold = 4.75

// times chooses when to mix and how long to rest in the cold, so that nothing
// falls into the night.
func (s *story) times(d *bread, ago int) (mix, cold float64) {
	colds := []float64{8, 10, 12, 12, 14, 14, 16, 16, 18, 20, 22, 24}
	if ago > 5 {
		colds = append(colds, 30)
	}
	for {
		cold = pick(s, colds...)
		mix = 7.5 + float64(s.rng.IntN(21))/2
		if d.built && mix > 8 && mix < 14 { // its levain would be built at night
			continue
		}
		if !d.cold {
			if mix < 16 {
				if !d.built && mix > 14 { // proofed in its tin, and out of the oven before bedtime
					mix -= 2
				}
				return mix, 0
			}
			continue
		}
		oven := math.Mod(mix+beforeCold+cold+0.75, 24)
		if oven >= 6 && oven <= 19.5 {
			return mix, cold
		}
	}
}

// bake tells one bake with its photos.
func (s *story) bake(d *bread, ago int, own bool) {
	hour, cold := s.times(d, ago)
	if ago == waitingFrom { // out of the oven yesterday morning
		hour, cold = 15, 12
	}
	mix := s.day(ago, hour)
	m := made{hyd: s.hydration(d), cold: cold, skill: 1 - float64(ago)/firstBake}
	b := &journal.Bake{
		Name: d.name, State: journal.Finished, Culture: s.harbourID, Formula: s.formulaOf[d.key()], Loaves: d.loaves,
	}
	culture := "Harbour"
	if s.fromGorse(d, ago) {
		b.Culture, culture, m.young = s.gorseID, "Gorse", true
	}
	b.Ingredients, b.Levains = s.mixture(d, b.Culture, culture, m.hyd, mix, s.rng.IntN(3) > 0)
	b.Water = s.water(mix)
	m.doughC = float64(*b.Water.Dough)
	b.Steps = s.steps(d, mix, cold)
	s.carryOut(b.Steps, m.doughC)
	if ago != waitingFrom {
		s.forgetPlan(b)
	}
	b.At, b.Ready = b.Steps[0].At, outOfOven(b.Steps)
	b.Outcome = s.outcome(d, m, b.Dough().Metrics().Dough)
	score := b.Outcome.Scores[0].Score
	b.Notes, b.Outcome.Notes = s.remark(d, m, score), s.tasted(score)
	if ago == waitingFrom {
		b.Outcome.Scores, b.Outcome.Notes, b.Outcome.VolumeML, b.Outcome.DisplacedBy = nil, "", nil, ""
		b.Notes = "Cut this evening at the earliest."
	}
	put(s, mix, b)
	s.photograph(d, b, culture, score, own)
}

// hydration is the percentage that was weighed this time.
func (s *story) hydration(d *bread) float64 {
	return round(clamp(s.scatter(d.hyd, 1.8), 62.5, 83.5), 0.5)
}

// fromGorse: since it has been ready, the new culture raises some of the bread.
func (s *story) fromGorse(d *bread, ago int) bool {
	return d.ryeShare() < 50 && (ago == waitingFrom || ago < 7 && ago > trialMixed)
}

// outOfOven is when the last baking ended.
func outOfOven(steps []journal.Step) time.Time {
	last := steps[len(steps)-1]
	if last.At.IsZero() {
		return last.PlannedAt
	}
	return last.At
}

// forgetPlan makes a bake that was only written down: nothing was planned.
func (s *story) forgetPlan(b *journal.Bake) {
	if b.Formula != "" && s.rng.IntN(10) < 7 {
		return
	}
	b.State = journal.Recorded
	for i := range b.Steps {
		st := &b.Steps[i]
		st.PlannedAt, st.Planned, st.Min, st.Max, st.Every, st.Times = time.Time{}, 0, 0, 0, 0, 0
	}
}

// water works out the water for a dough of 25 °C, as well as a kettle allows,
// and what the dough came to: the mean of flour, room, levain and water, and a
// little from mixing (common practice, no source).
func (s *story) water(mix time.Time) journal.WaterPlan {
	room := s.galley(mix)
	flour, levain, tap := room-0.6, room+0.8, s.scatter(14, 0.8)
	friction := s.scatter(2, 1)
	water := 4*25 - flour - room - levain - 2 + s.scatter(0, 3)
	if s.rng.IntN(3) == 0 { // by feel
		water = s.scatter(24, 4)
	}
	water = clamp(water, tap, 42)
	dough := (flour + room + levain + water + friction) / 4
	return journal.WaterPlan{
		Wanted: new(celsius(25)), Flour: new(celsius(flour)), Room: new(celsius(room)), Levain: new(celsius(levain)),
		Tap: new(celsius(tap)), Water: new(celsius(water)), Dough: new(celsius(dough)),
	}
}
