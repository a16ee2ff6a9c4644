package blind_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"twinloaf/journal/blind"
)

// kitchen is somebody alone who does as the guide says: shuffles the plates,
// puts one away where there is one too many, and knows only places.
type kitchen struct {
	r     *rand.Rand
	under [][]string // by round, the slips under the plates from left to right
}

func (k *kitchen) shuffle(setting blind.Setting) {
	for _, serving := range setting.Servings {
		slips := slices.Clone(serving.Slips)
		k.r.Shuffle(len(slips), func(i, j int) { slips[i], slips[j] = slips[j], slips[i] })
		k.under = append(k.under, slips[:len(serving.Samples)])
	}
}

// Alone, the six triangle orders come up equally often: the four plates, of
// which one is put away unseen, are as good as a balanced draw.
func TestAloneEveryTriangleOrderIsAsLikely(t *testing.T) {
	k := &kitchen{r: rand.New(rand.NewPCG(1, 2))}
	tasting := mustSeal(t, planFor(blind.Triangle, blind.Alone, 1, 1), chance(1))
	const shuffles = 6000
	counts := map[string]int{}
	for range shuffles {
		k.under = nil
		k.shuffle(tasting.setting)
		var order strings.Builder
		for _, slip := range k.under[0] {
			order.WriteByte('@' + byte(tasting.loafOf(0, 0, slip)))
		}
		counts[order.String()]++
	}
	for _, order := range patterns[blind.Triangle] {
		if away := math.Abs(float64(counts[order]) - shuffles/6.0); away > 5*math.Sqrt(shuffles*5.0/36) {
			t.Errorf("order %s came up %d times of %d", order, counts[order], shuffles)
		}
	}
	if len(counts) != 6 {
		t.Errorf("orders %v", counts)
	}
}

// A whole tasting alone, from plan to opened, for each method.
func TestAloneFromPlanToOpened(t *testing.T) {
	for _, m := range blind.Methods() {
		t.Run(string(m), func(t *testing.T) {
			plan := planFor(m, blind.Alone, 1, 4)
			tasting := mustSeal(t, plan, chance(21))
			k := &kitchen{r: rand.New(rand.NewPCG(3, 4))}
			k.shuffle(tasting.setting)
			s := blind.Begin(tasting.setting)
			if err := s.EnterSlips(0, k.under[0]...); !errors.Is(err, blind.ErrIncomplete) {
				t.Errorf("slips turned over before the last score: %v", err)
			}
			if len(s.SlipsWanted()) != 0 {
				t.Error("slips are asked for before the last score")
			}
			for range plan.Rounds {
				tasteRound(t, s, 0, firstPicks(plan))
			}
			if _, err := s.Finish(); !errors.Is(err, blind.ErrIncomplete) {
				t.Errorf("finished without slips: %v", err)
			}
			if got := s.SlipsWanted(); !slices.Equal(got, []int{0, 1, 2, 3}) {
				t.Errorf("slips wanted of rounds %v", got)
			}
			for _, wrong := range [][]string{k.under[1], k.under[0][:1], slices.Repeat(k.under[0][:1], m.Samples()), {}} {
				if err := s.EnterSlips(0, wrong...); !errors.Is(err, blind.ErrAnswer) {
					t.Errorf("slips %v: %v", wrong, err)
				}
			}
			for round, slips := range k.under {
				ok(t, s.EnterSlips(round, slips...))
			}
			proof, err := s.Finish()
			ok(t, err)
			opened, err := tasting.sealed.Unseal(proof)
			ok(t, err)
			for _, r := range opened.Rounds {
				for _, plate := range r.Plates {
					if plate.Slip != "" && plate.Loaf != tasting.loafOf(0, r.Round, plate.Slip) {
						t.Errorf("slip %s opened as loaf %d", plate.Slip, plate.Loaf)
					}
				}
				if m == blind.DuoTrio && r.Loaf(blind.ReferenceLabel) != tasting.setting.Servings[r.Round].OpenReference {
					t.Error("the reference is another loaf than was said")
				}
			}
		})
	}
}

func TestAloneEndedEarlyAsksForTheSlipsOfWhatWasTasted(t *testing.T) {
	plan := planFor(blind.Paired, blind.Alone, 1, 3)
	tasting := mustSeal(t, plan, chance(2))
	s := blind.Begin(tasting.setting)
	tasteRound(t, s, 0, firstPicks(plan))
	ok(t, s.Rinsed(0, false))
	ok(t, s.HandInMissing(0, "the cat ate it"))
	ok(t, s.EndEarly("no bread left"))
	if got := s.SlipsWanted(); !slices.Equal(got, []int{0}) {
		t.Errorf("slips wanted of rounds %v", got)
	}
	if err := s.EnterSlips(2, "x", "y"); err == nil {
		t.Error("slips of a round that was not tasted were taken")
	}
	ok(t, s.EnterSlips(0, tasting.setting.Servings[0].Slips...))
	proof, err := s.Finish()
	ok(t, err)
	opened, err := tasting.sealed.Unseal(proof)
	ok(t, err)
	if len(opened.Rounds) != 2 || opened.Rounds[1].Plates[0].Loaf != 0 {
		t.Errorf("%+v", opened.Rounds)
	}
}

func TestGuideTellsEachStepOnce(t *testing.T) {
	for _, plan := range everyPlan() {
		steps := blind.Guide(plan)
		shut := 0
		for _, step := range steps {
			if step.Title.IsZero() || step.Words.IsZero() {
				t.Errorf("%s: an empty step", name(plan))
			}
			if step.EyesShut {
				shut++
			}
		}
		if alone := plan.Mode == blind.Alone; alone != (shut > 0) || len(steps) < 5 {
			t.Errorf("%s: %d steps, %d with the eyes shut", name(plan), len(steps), shut)
		}
		if plan.Method.Title() == "" || plan.Method.Standard() == "" || plan.Method.Question() == "" {
			t.Errorf("%s has no words", name(plan))
		}
	}
	if blind.Method("x").Known() {
		t.Error("an unknown method is known")
	}
}

// Through the whole program, a guesser is right as often as chance says and
// somebody who can tell is always right, for every method and way of plating.
func TestGuessersAndKnowers(t *testing.T) {
	for _, m := range []blind.Method{blind.Triangle, blind.DuoTrio, blind.Tetrad} {
		for _, mode := range []blind.Mode{blind.WithHelper, blind.Alone} {
			plan := planFor(m, mode, 1, 12)
			r := rand.New(rand.NewPCG(5, 6))
			right, knew, rounds := 0, 0, 0
			for seed := range uint64(120) {
				tasting := mustSeal(t, plan, chance(seed))
				k := &kitchen{r: r}
				if mode == blind.Alone {
					k.shuffle(tasting.setting)
				}
				guess := func(s blind.Serving) blind.Answer {
					order := r.Perm(len(s.Samples))
					var a blind.Answer
					for _, i := range order[:m.Picks()] {
						a.Picks = append(a.Picks, s.Samples[i])
					}
					return a
				}
				session := blind.Begin(tasting.setting)
				tasteAll(t, session, guess)
				for round, slips := range k.under {
					ok(t, session.EnterSlips(round, slips...))
				}
				proof, err := session.Finish()
				ok(t, err)
				opened, err := tasting.sealed.Unseal(proof)
				ok(t, err)
				for _, round := range opened.Rounds {
					rounds++
					if opened.Right(round, round.Answer) {
						right++
					}
					if opened.Right(round, blind.Answer{Picks: known(m, round)}) {
						knew++
					}
				}
			}
			p, n := m.Chance(), float64(rounds)
			if math.Abs(float64(right)-n*p) > 5*math.Sqrt(n*p*(1-p)) {
				t.Errorf("%s %s: guessing was right %d times of %d", m, mode, right, rounds)
			}
			if knew != rounds {
				t.Errorf("%s %s: knowing was right %d times of %d", m, mode, knew, rounds)
			}
		}
	}
}

// known is the answer of somebody who tastes which loaf is which.
func known(m blind.Method, r blind.Round) []string {
	byLoaf := map[int][]string{}
	for _, p := range r.Plates {
		if p.Label != blind.ReferenceLabel {
			byLoaf[p.Loaf] = append(byLoaf[p.Loaf], p.Label)
		}
	}
	switch m {
	case blind.DuoTrio:
		return byLoaf[r.Loaf(blind.ReferenceLabel)][:1]
	case blind.Triangle:
		if len(byLoaf[1]) == 1 {
			return byLoaf[1]
		}
		return byLoaf[2]
	}
	return byLoaf[1]
}
