package blind_test

import (
	"encoding/json"
	"errors"
	"slices"
	"testing"

	"twinloaf/journal/blind"
)

// Whoever tastes may decline, stop or hand over at any step; the others go on, and
// it is no early end.
func TestAWayOutForPeople(t *testing.T) {
	plan := planFor(blind.Triangle, blind.WithHelper, 3, 2)
	tasting := mustSeal(t, plan, chance(4))
	s := blind.Begin(tasting.setting)
	ok(t, s.Stop(0, "")) // before the first bite, without a reason
	tasteRound(t, s, 1, firstPicks(plan))
	ok(t, s.Rinsed(1, false))
	ok(t, s.Tasted(1))
	ok(t, s.Stop(1, " a toothache ")) // in the middle of a round
	tasteRound(t, s, 2, firstPicks(plan))
	ok(t, s.HandOver(2, "Jon"))
	if step, err := s.At(2); err != nil || step.Phase != blind.PhaseAllergens || step.Round != 1 {
		t.Errorf("whoever takes over begins at %+v, %v", step, err)
	}
	for _, err := range []error{s.Stop(0, ""), s.HandOver(1, "Jon"), s.HandOver(2, "Jon"), s.HandOver(2, " "), s.TypeIn(0, blind.Answer{Missing: "x"})} {
		if err == nil {
			t.Error("a step that does not come was taken")
		}
	}
	again, err := blind.Resume(tasting.setting, s.Progress())
	ok(t, err)
	tasteRound(t, again, 2, firstPicks(plan))
	if !again.AllHandedIn() || !again.Complete() {
		t.Fatal("it waits for somebody")
	}
	proof, err := again.Finish()
	ok(t, err)
	o, err := tasting.sealed.Unseal(proof)
	ok(t, err)
	if len(o.Rounds) != 3 || o.Progress.EndedEarly != "" || o.Progress.Sheets[1].Stopped != "a toothache" {
		t.Errorf("%d rounds, %+v", len(o.Rounds), o.Progress)
	}
	if who := []string{o.Who(o.Rounds[0]), o.Who(o.Rounds[1]), o.Who(o.Rounds[2])}; !slices.Equal(who, []string{"Taster B", "Taster C", "Jon"}) {
		t.Errorf("tasted by %v", who)
	}
	alone := blind.Begin(mustSeal(t, planFor(blind.Paired, blind.Alone, 1, 1), chance(4)).setting)
	if err := alone.HandOver(0, "Jon"); !errors.Is(err, blind.ErrStep) {
		t.Errorf("handed over alone: %v", err)
	}
	ok(t, alone.Stop(0, ""))
	_, err = alone.Finish()
	ok(t, err)
}

// The fingerprint of the answers follows from every answer, in the order in which
// they were handed in, and from the slips alone.
func TestAnswersAreChained(t *testing.T) {
	plan := planFor(blind.Paired, blind.WithHelper, 2, 2)
	tasting := mustSeal(t, plan, chance(9))
	taste := func(order []int) *blind.Session {
		s := blind.Begin(tasting.setting)
		for _, taster := range order {
			tasteRound(t, s, taster, firstPicks(plan))
		}
		return s
	}
	s := taste([]int{0, 1, 0, 1})
	if one, other := s.Fingerprint(), taste([]int{0, 1, 1, 0}).Fingerprint(); one == other || one != taste([]int{0, 1, 0, 1}).Fingerprint() {
		t.Error("the fingerprint does not follow from the order")
	}
	changed := s.Progress()
	changed.Sheets[0].Answers[0].Picks[0] = tasting.setting.Servings[0].Samples[1]
	if _, err := blind.Resume(tasting.setting, changed); !errors.Is(err, blind.ErrTampered) {
		t.Errorf("the first answer was changed: %v", err)
	}
	ok(t, json.Unmarshal(must(json.Marshal(s.Progress())), &changed))
	if _, err := blind.Resume(tasting.setting, changed); err != nil {
		t.Errorf("kept as JSON it no longer fits: %v", err)
	}
	own := planFor(blind.Paired, blind.Alone, 1, 1)
	kitchen := mustSeal(t, own, chance(9))
	var prints []string
	for _, turn := range []bool{false, true} {
		s := blind.Begin(kitchen.setting)
		tasteRound(t, s, 0, firstPicks(own))
		slips := slices.Clone(kitchen.setting.Servings[0].Slips)
		if turn {
			slices.Reverse(slips)
		}
		ok(t, s.EnterSlips(0, slips...))
		prints = append(prints, s.Fingerprint())
	}
	if prints[0] == prints[1] {
		t.Error("which slip lay where is no part of the fingerprint")
	}
}

func must(b []byte, err error) []byte {
	if err != nil {
		panic(err)
	}
	return b
}

// A tasting that the first version of the program sealed is read by what its text
// covers: testdata/blind/seal1.txt.
func TestTheFirstVersionIsStillRead(t *testing.T) {
	text := read(t, "seal1.txt")
	plan := planFor(blind.Triangle, blind.WithHelper, 2, 2)
	plan.Tasters[1] = "Ines \"the second\"\nloaf 1: nobody's"
	setting := blind.Setting{Plan: plan, Commitment: blind.Commitment(text)}
	for i, codes := range [][]string{{"873", "497", "362"}, {"673", "926", "150"}, {"435", "326", "340"}, {"194", "308", "463"}} {
		setting.Servings = append(setting.Servings, blind.Serving{Taster: i / 2, Round: i % 2, Samples: codes})
	}
	s := blind.Begin(setting)
	tasteAll(t, s, firstPicks(plan))
	_, err := s.Finish()
	ok(t, err)
	o, err := blind.Reopen(setting, s.Progress(), text, "")
	ok(t, err)
	if s.Fingerprint() != "" || !o.Setting.Balanced() || o.Rounds[2].Loaf("340") != 1 || o.Rounds[2].Loaf("435") != 2 {
		t.Errorf("%+v", o.Rounds[2])
	}
	setting.Plan.Loaves[0].Name = "another"
	if _, err := blind.Reopen(setting, s.Progress(), text, ""); !errors.Is(err, blind.ErrTampered) {
		t.Errorf("a loaf was renamed: %v", err)
	}
}
