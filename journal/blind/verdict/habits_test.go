package verdict

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"twinloaf/journal/blind"
)

// guessed is a duo-trio of tasters of one round each who named the places in this
// order, L for the first and R for the second sample, with k answers right by
// luck.
func guessed(t *testing.T, places string, right int) (blind.Opened, bool) {
	t.Helper()
	plan := blind.Plan{
		Method: blind.DuoTrio, Mode: blind.WithHelper, Rounds: 1,
		Loaves: [2]blind.Loaf{{ID: "h", Name: "Harbour"}, {ID: "g", Name: "Gorse"}},
	}
	for i := range places {
		plan.Tasters = append(plan.Tasters, fmt.Sprint("taster ", i))
	}
	for seed := range 2000 {
		draft, err := blind.Draw(plan, rand.NewChaCha8([32]byte{byte(seed), byte(seed >> 8)}))
		if err != nil {
			t.Fatal(err)
		}
		sealed, setting, err := draft.Seal()
		if err != nil {
			t.Fatal(err)
		}
		s := blind.Begin(setting)
		for i, serving := range setting.Servings {
			if err := s.TypeIn(i, blind.Answer{Picks: []string{serving.Samples[strings.IndexByte("LR", places[i])]}}); err != nil {
				t.Fatal(err)
			}
		}
		proof, err := s.Finish()
		if err != nil {
			t.Fatal(err)
		}
		opened, err := sealed.Unseal(proof)
		if err != nil {
			t.Fatal(err)
		}
		if tally(opened, nil).Agreeing == right {
			return opened, true
		}
	}
	return blind.Opened{}, false
}

// Eight tasters are served each of the four duo-trio orders twice, so the match
// stands left in four and right in four. If four name left and four right, all
// eight are right with probability 1/C(8,4) = 1/70, and not 1/256; if all say
// left, exactly four are, always.
func TestHabitsOfAGuesser(t *testing.T) {
	opened, found := guessed(t, "LRRLLRLR", 8)
	if !found {
		t.Fatal("no luck in 2 000 tastings, expected about 28")
	}
	p, ok := habitP(opened, tally(opened, nil))
	if want := 1.0 / 70; !ok || math.Abs(p-want) > 5*math.Sqrt(want/redraws) {
		t.Errorf("p %.4f, by counting %.4f", p, want)
	}
	v, err := Of(Input{Opened: opened})
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(fmt.Sprint(v.Cautions), "The orders were balanced") || math.Abs(v.P-1.0/256) > 1e-12 {
		t.Errorf("p %g, cautions %q", v.P, v.Cautions)
	}
	always, found := guessed(t, "LLLLLLLL", 4)
	if !found {
		t.Fatal("always left was not right in four")
	}
	if p, ok := habitP(always, tally(always, nil)); !ok || p != 1 {
		t.Errorf("always left: p %g", p)
	}
	if _, found := guessed(t, "LLLLLLLL", 5); found {
		t.Error("always left was right in five of eight balanced rounds")
	}
}

func TestHabitsAreLeftAloneWhereTheyDoNotMatter(t *testing.T) {
	o := blind.Opened{Setting: blind.Setting{Version: 2, Plan: blind.Plan{Method: blind.Triangle, Mode: blind.WithHelper, Tasters: []string{"a", "b"}, Rounds: 1}}}
	if _, ok := habitP(o, Tally{Counted: 2}); !ok {
		t.Error("two tasters of one round each: not redrawn")
	}
	for why, change := range map[string]func(*blind.Plan){
		"alone":                   func(p *blind.Plan) { p.Mode = blind.Alone },
		"rounds drawn one by one": func(p *blind.Plan) { p.Rounds = 6 },
		"one answer":              func(p *blind.Plan) { p.Tasters = p.Tasters[:1] },
		"large":                   func(p *blind.Plan) { p.Tasters = make([]string, 61) },
		"scaling":                 func(p *blind.Plan) { p.Method = blind.Scaling },
	} {
		other := o
		change(&other.Setting.Plan)
		if _, ok := habitP(other, Tally{Counted: 5}); ok {
			t.Errorf("%s: redrawn", why)
		}
	}
}
