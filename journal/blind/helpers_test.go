package blind_test

import (
	"bytes"
	"fmt"
	"io"
	"math/rand/v2"
	"slices"
	"testing"

	"twinloaf/journal/blind"
	"twinloaf/journal/blind/blindtest"
)

// chance is a fixed stream of bytes that looks random; the same seed gives the
// same stream.
func chance(seed uint64) io.Reader {
	var key [32]byte
	for i := range 8 {
		key[i] = byte(seed >> (8 * i))
	}
	return rand.NewChaCha8(key)
}

// twins are two streams that differ in the lowest bit of their first byte: the
// bit on which hangs which loaf takes which part.
func twins(seed uint64) [2]io.Reader {
	first := make([]byte, 1)
	rest := chance(seed)
	if _, err := io.ReadFull(rest, first); err != nil {
		panic(err)
	}
	tail, err := io.ReadAll(io.LimitReader(rest, 1<<17))
	if err != nil {
		panic(err)
	}
	return [2]io.Reader{
		io.MultiReader(bytes.NewReader([]byte{first[0] &^ 1}), bytes.NewReader(tail)),
		io.MultiReader(bytes.NewReader([]byte{first[0] | 1}), bytes.NewReader(tail)),
	}
}

func planFor(m blind.Method, mode blind.Mode, tasters, rounds int) blind.Plan {
	p := blind.Plan{
		Method: m, Mode: mode, Rounds: rounds,
		Loaves: [2]blind.Loaf{
			{ID: "bake-harbour-17", Name: "Harbour loaf", Allergens: []string{"rye", "wheat"}},
			{ID: "bake-gorse-17", Name: "Gorse loaf", Allergens: []string{"wheat"}},
		},
	}
	for i := range tasters {
		p.Tasters = append(p.Tasters, fmt.Sprintf("Taster %c", 'A'+i))
	}
	if m == blind.ThreeAFC {
		p.Attribute, p.Expected = "sour", 2
	}
	if m == blind.Scaling {
		p.Attributes = []blind.Attribute{{Name: "sour"}, {Name: "chewy"}, blind.Liking()}
	}
	return p
}

// everyPlan is one plan for each method and way of plating.
func everyPlan() []blind.Plan {
	var plans []blind.Plan
	for _, m := range blind.Methods() {
		plans = append(plans, planFor(m, blind.WithHelper, 3, 4), planFor(m, blind.Alone, 1, 5))
	}
	return plans
}

func name(p blind.Plan) string { return fmt.Sprintf("%s %s", p.Method, p.Mode) }

type sealedTasting struct {
	card    []blind.CardLine
	sealed  blind.Sealed
	setting blind.Setting
}

func mustSeal(t testing.TB, p blind.Plan, reader io.Reader) sealedTasting {
	t.Helper()
	sealed, setting, lines := blindtest.Seal(t, p, reader)
	return sealedTasting{lines, sealed, setting}
}

// loafOf reads a label's loaf off the card.
func (s sealedTasting) loafOf(taster, round int, label string) int {
	line := s.card[taster*s.setting.Plan.Rounds+round]
	for _, p := range line.Plates {
		if p.Label == label {
			return p.Loaf
		}
	}
	return 0
}

func ok(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// tasteRound walks one taster through one round and hands it in.
func tasteRound(t testing.TB, s *blind.Session, taster int, answer func(blind.Serving) blind.Answer) {
	t.Helper()
	for {
		step, err := s.At(taster)
		ok(t, err)
		switch step.Phase {
		case blind.PhaseAllergens:
			ok(t, s.AllergensShown(taster))
		case blind.PhaseRinse:
			ok(t, s.Rinsed(taster, false))
		case blind.PhaseSample:
			for attribute, score := range answer(step.Serving).Scores[step.Label] {
				ok(t, s.Score(taster, attribute, score))
			}
			ok(t, s.Tasted(taster))
		case blind.PhaseAnswer:
			a := answer(step.Serving)
			switch {
			case a.Missing != "":
				ok(t, s.HandInMissing(taster, a.Missing))
				return
			case a.Tie:
				ok(t, s.ChooseTie(taster))
			case len(a.Picks) > 0:
				ok(t, s.Choose(taster, a.Picks...))
			}
			ok(t, s.HandIn(taster))
			return
		default:
			t.Fatalf("taster %d has nothing to taste at %q", taster, step.Phase)
		}
	}
}

// tasteAll walks everybody through everything, each round in turn.
func tasteAll(t testing.TB, s *blind.Session, answer func(blind.Serving) blind.Answer) {
	t.Helper()
	plan := s.Setting().Plan
	for range plan.Rounds {
		for taster := range plan.Tasters {
			tasteRound(t, s, taster, answer)
		}
	}
}

// firstPicks answers with the first labels there are, and fives.
func firstPicks(p blind.Plan) func(blind.Serving) blind.Answer {
	return func(s blind.Serving) blind.Answer {
		a := blind.Answer{Picks: slices.Clone(s.Samples[:p.Method.Picks()])}
		if p.Method == blind.Scaling {
			a.Scores = scores(p, s, func(string) int { return 5 })
		}
		return a
	}
}

func scores(p blind.Plan, s blind.Serving, score func(label string) int) map[string]map[string]int {
	all := map[string]map[string]int{}
	for _, label := range s.Samples {
		all[label] = map[string]int{}
		for _, a := range p.Attributes {
			all[label][a.Name] = score(label)
		}
	}
	return all
}
