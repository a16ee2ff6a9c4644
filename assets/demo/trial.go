package demo

import (
	"fmt"
	"slices"
	"time"

	"twinloaf/journal"
	"twinloaf/journal/blind/fair"
)

// arms are the two loaves of the trial: the culture, and its word.
var arms = [2]string{"Harbour", "Gorse"}

// marks are what the bowls are told apart by: two of those that the program offers.
var marks = [2]string{"ring", "cross"}

// trial tells the trial of one culture against the other, and plans its tasting; and
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
		Head: journal.Head{ID: s.id(at)}, Name: "Harbour against Gorse", At: at, Varied: journal.VaryCulture,
		Question: "Can anybody tell the two cultures apart in the same loaf?",
		Notes:    "One formula, one plan, one oven. Only the culture differs.",
	}
	for i, name := range arms {
		b := s.twin(d, t.ID, name, marks[lots.BowlMarks[i]], lots.MixOrder, lots.BakeOrder, i)
		t.Arms = append(t.Arms, journal.Arm{
			Bake: b.ID, Value: name, Mark: b.Mark, MixOrder: 1 + place(lots.MixOrder, i), BakeOrder: 1 + place(lots.BakeOrder, i),
		})
		s.trialBakes[i] = b
	}
	put(s, at, t)
	s.answer(t)
	s.planTasting(t)
	s.nextTrial(d)
}

// answer says something to each difference between the bakes that was not meant.
func (s *story) answer(t *journal.Trial) {
	if s.err != nil {
		return
	}
	found, err := journal.TrialFairness(s.tx, t)
	if err != nil {
		s.fail(err)
		return
	}
	for i, u := range found {
		a := journal.FairnessAnswer{Difference: u.Key, Accepted: true}
		if i == 0 {
			a.Note = "Measured twice. Too small to taste, I should say."
		}
		t.Answers = append(t.Answers, a)
	}
	put(s, t.At, t)
}

func place(order []int, i int) int { return slices.Index(order, i) }

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
	if first := s.trialBakes[0]; first != nil {
		sideBySide(b.Steps, first.Steps)
	}
	b.At, b.Ready = b.Steps[0].At, outOfOven(b.Steps).Add(time.Duration(place(bakeOrder, arm))*2*time.Minute)
	b.Outcome = s.outcome(&single, m, b.Dough().Metrics().Dough)
	b.Outcome.Inside = new(celsius(97.2 + 0.5*float64(arm)))
	b.Outcome.Notes = map[string]string{
		"Harbour": "Sharper at the end, darker crumb. The one I know.",
		"Gorse":   "Milder, almost sweet. A touch less open.",
	}[culture]
	put(s, mix, b)
	s.photograph(&single, b, culture, b.Outcome.Scores[0].Score, true)
	s.retake(b)
	return b
}

// sideBySide makes the steps of the second bake go as those of the first went,
// in the same room and oven, as far apart as they were planned.
func sideBySide(steps, first []journal.Step) {
	for i := range steps {
		st, like := &steps[i], &first[i]
		apart := st.PlannedAt.Sub(like.PlannedAt)
		st.At, st.End, st.Air, st.Done = like.At.Add(apart), like.End.Add(apart), like.Air, nil
		for _, turn := range like.Done {
			st.Done = append(st.Done, turn.Add(apart))
		}
	}
}

// retake photographs the same slice once more, so that the journal can tell
// what taking the photo again changes.
func (s *story) retake(b *journal.Bake) {
	for _, sh := range s.wanted {
		if sh.owner.ID != b.ID || sh.plate.Role != journal.RoleCrumb {
			continue
		}
		sh.same, sh.at, sh.caption = sh.id, sh.at.Add(time.Minute), "The same slice again."
		sh.plate = s.plate(journal.RoleCrumb, sh.plate.Of+", again", sh.plate.Level, 0)
		s.want(sh)
		return
	}
}

// nextTrial plans the next question: two bakes, begun the day after tomorrow.
func (s *story) nextTrial(d *bread) {
	made := s.now.Add(-20 * time.Hour)
	if s.err != nil {
		return
	}
	s.clock = made
	t, err := journal.NewTrial(s.tx, journal.TrialPlan{
		From: journal.Ref{Kind: journal.KindFormula, ID: s.formulaOf[d.key()]}, Name: "A night or a day in the cold",
		Question: "Which is liked better?", Varied: journal.VaryColdRest, Values: []string{"12 h", "24 h"},
		Marks: marks[:], At: s.day(-2, 7.5),
	})
	if err != nil {
		s.fail(err)
		return
	}
	for _, arm := range t.Arms {
		s.fail(journal.Change(s.tx, arm.Bake, func(b *journal.Bake) { b.Culture = s.harbourID }))
	}
	s.planNextTasting(t)
}
