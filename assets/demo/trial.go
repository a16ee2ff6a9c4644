package demo

import (
	"fmt"
	"time"

	"twinloaf/journal"
	"twinloaf/journal/blind/fair"
)

// arms are the two loaves of the trial: the culture, and its word.
var arms = [2]string{"Harbour", "Gorse"}

// trial tells the trial of one culture against the other, and its tasting; and
// plans the next trial.
func (s *story) trial() {
	d := find(ferryLoaf, 2)
	lots, err := fair.DrawLots(2, s.rngReader())
	if err != nil {
		s.fail(err)
		return
	}
	at := s.day(trialMixed+1, 18)
	t := &journal.Trial{
		Head: journal.Head{ID: s.id(at)}, Name: "Harbour against Gorse", At: at, Varied: "culture",
		Question: "Can anybody tell the two cultures apart in the same loaf?",
		Notes:    "One formula, one plan, one oven. Only the culture differs.",
	}
	marks := [2]string{"anchor", "bell"}
	for i, name := range arms {
		b := s.twin(d, t.ID, name, marks[lots.BowlMarks[i]], lots.MixOrder, lots.BakeOrder, i)
		t.Arms = append(t.Arms, journal.Arm{
			Bake: b.ID, Value: name, Mark: b.Mark, MixOrder: 1 + place(lots.MixOrder, i), BakeOrder: 1 + place(lots.BakeOrder, i),
		})
		s.trialBakes[i] = b
	}
	t.Answers = []journal.FairnessAnswer{{
		Difference: "inside temperature", Accepted: true, Note: "Half a degree; the second stood by the door.",
	}}
	put(s, at, t)
	s.tasting(t)
	s.nextTrial(d)
}

func place(order []int, i int) int {
	for k, n := range order {
		if n == i {
			return k
		}
	}
	return 0
}

// twin tells one of the two bakes of the trial.
func (s *story) twin(d *bread, trial journal.ID, culture, mark string, mixOrder, bakeOrder []int, arm int) *journal.Bake {
	single := *d
	single.loaves, single.flour = 1, 500
	mix := s.day(trialMixed, 15.5).Add(time.Duration(place(mixOrder, arm)) * 8 * time.Minute)
	m := made{hyd: 75, cold: 14, skill: 1, young: culture == "Gorse"}
	b := &journal.Bake{
		Head: journal.Head{ID: s.id(mix)}, Name: ferryLoaf + ", " + culture, State: journal.Finished, Culture: s.harbourID,
		Formula: s.formulaOf[d.key()], Trial: trial, Mark: mark, Loaves: 1,
		Notes: fmt.Sprintf("Bowl marked with the %s.", mark),
	}
	if m.young {
		b.Culture = s.gorseID
	}
	b.Ingredients, b.Levains = s.mixture(&single, b.Culture, culture, m.hyd, mix, true)
	room := s.galley(mix)
	dough := 24.9 + 0.2*float64(place(mixOrder, arm))
	b.Water = journal.WaterPlan{
		Wanted: new(celsius(25)), Flour: new(celsius(room - 0.6)), Room: new(celsius(room)), Levain: new(celsius(room + 0.8)),
		Water: new(celsius(4*dough - 3*room - 2.4)), Dough: new(celsius(dough)),
	}
	m.doughC = dough
	b.Steps = s.steps(&single, mix, m.cold)
	s.carryOut(b.Steps, dough)
	b.At, b.Ready = b.Steps[0].At, outOfOven(b.Steps).Add(time.Duration(place(bakeOrder, arm))*2*time.Minute)
	b.Outcome = s.outcome(&single, m, b.Dough().Figures().Dough)
	b.Outcome.Notes = map[string]string{
		"Harbour": "Sharper at the end, darker crumb. The one I know.",
		"Gorse":   "Milder, almost sweet. A touch less open.",
	}[culture]
	put(s, mix, b)
	s.photograph(&single, b, m, b.Outcome.Scores[0].Score, true)
	s.retake(b)
	return b
}

// retake photographs the same slice once more, so that the journal can tell
// what taking the photo again changes.
func (s *story) retake(b *journal.Bake) {
	for _, sh := range s.wanted {
		if sh.owner.ID != b.ID || sh.role != journal.RoleCrumb {
			continue
		}
		again := *sh.slice
		again.ShiftX, again.ShiftY, again.Fill = 0.012, -0.008, 0.82
		again.Light.Gradient, again.Light.Direction, again.Light.Gain = 0.16, 140, 0.95
		sh.same, sh.slice, sh.key, sh.at, sh.caption = sh.id, &again, sh.key+" again", sh.at.Add(time.Minute), "The same slice again."
		s.want(sh)
		return
	}
}

// nextTrial plans the next question: two bakes, the day after tomorrow.
func (s *story) nextTrial(d *bread) {
	at := s.now.Add(-20 * time.Hour)
	t := &journal.Trial{
		Head: journal.Head{ID: s.id(at)}, Name: "A night or a day in the cold", At: at, Varied: "hours of cold rest",
		Question: "Which is liked better?",
	}
	single := *d
	single.loaves, single.flour = 1, 500
	var bakes [2]*journal.Bake
	for i, cold := range []float64{12, 24} {
		mix := s.day(-2, 15.5)
		b := &journal.Bake{
			Head: journal.Head{ID: s.id(at)}, Name: fmt.Sprintf("%s, %.0f h cold", ferryLoaf, cold), State: journal.Planned,
			Culture: s.harbourID, Formula: s.formulaOf[d.key()], Trial: t.ID, Mark: []string{"anchor", "bell"}[i], Loaves: 1,
		}
		b.Ingredients, b.Levains = s.mixture(&single, b.Culture, "Harbour", 75, at, false)
		b.Steps = s.steps(&single, mix, cold)
		b.At, b.Ready = b.Steps[0].PlannedAt, outOfOven(b.Steps)
		b.Water.Wanted = new(celsius(25))
		put(s, at, b)
		bakes[i] = b
		t.Arms = append(t.Arms, journal.Arm{Bake: b.ID, Value: fmt.Sprintf("%.0f h", cold), Mark: b.Mark, MixOrder: i + 1, BakeOrder: i + 1})
	}
	put(s, at, t)
	s.plannedTasting(t, bakes)
}
