package verdict

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"twinloaf/journal/blind"
	"twinloaf/journal/blind/blindtest"
)

// The simulated table of false alarms, in testdata/blind/risk.txt, by hand:
//
//	go test ./journal/blind/verdict -run FalseAlarms -v -tastings 400 -every
var (
	tastings = flag.Int("tastings", 25, "how many tastings to make up for each size and habit")
	every    = flag.Bool("every", false, "make up every size of 1 to 12 tasters and 1 to 6 rounds")
)

// A habit is how somebody who cannot tell anything chooses: for each taster, which
// of n possible answers is given in each round.
type habit struct {
	name   string
	choose func(r *rand.Rand, taster, rounds, n int) []int
}

func habits() []habit {
	each := func(f func(round int) int) func(*rand.Rand, int, int, int) []int {
		return func(_ *rand.Rand, _, rounds, n int) []int {
			out := make([]int, rounds)
			for i := range out {
				out[i] = f(i) % n
			}
			return out
		}
	}
	return []habit{
		{"always the first", each(func(int) int { return 0 })},
		{"always the last", func(_ *rand.Rand, _, rounds, n int) []int {
			out := make([]int, rounds)
			for i := range out {
				out[i] = n - 1
			}
			return out
		}},
		{"alternating", func(r *rand.Rand, _, rounds, n int) []int {
			out, from := make([]int, rounds), r.IntN(n)
			for i := range out {
				out[i] = (from + i) % n
			}
			return out
		}},
		{"each side equally often", func(r *rand.Rand, _, rounds, n int) []int {
			out, from := make([]int, rounds), r.IntN(n)
			for i := range out {
				out[i] = (from + i) % n
			}
			r.Shuffle(rounds, func(i, j int) { out[i], out[j] = out[j], out[i] })
			return out
		}},
		{"at random", func(r *rand.Rand, _, rounds, n int) []int {
			out := make([]int, rounds)
			for i := range out {
				out[i] = r.IntN(n)
			}
			return out
		}},
		{"copying the last", func(r *rand.Rand, _, rounds, n int) []int {
			out, first := make([]int, rounds), r.IntN(n)
			for i := range out {
				out[i] = first
			}
			return out
		}},
		{"half first, half last", func(_ *rand.Rand, taster, rounds, n int) []int {
			out := make([]int, rounds)
			for i := range out {
				out[i] = taster % 2 * (n - 1)
			}
			return out
		}},
	}
}

// choices lists the answers of a serving.
func choices(m blind.Method, s blind.Serving) [][]string {
	var out [][]string
	for i, a := range s.Samples {
		if m.Picks() < 2 {
			out = append(out, []string{a})
			continue
		}
		for _, b := range s.Samples[i+1:] {
			out = append(out, []string{a, b})
		}
	}
	return out
}

// asked are the plans that the table is made of.
func asked() map[string]blind.Plan {
	plans := map[string]blind.Plan{}
	for _, m := range []blind.Method{blind.Triangle, blind.DuoTrio, blind.Tetrad, blind.TwoOutOfFive} {
		plans[string(m)] = blind.Plan{Method: m}
	}
	plans["3-AFC"] = blind.Plan{Method: blind.ThreeAFC, Attribute: "sour", Expected: 1}
	plans["paired, one-sided"] = blind.Plan{Method: blind.Paired, Attribute: "sour", Expected: 1}
	plans["paired, two-sided"] = blind.Plan{Method: blind.Paired, Attribute: "sour"}
	plans["paired, liking"] = blind.Plan{Method: blind.Paired}
	plans["scaling"] = blind.Plan{Method: blind.Scaling, Attributes: []blind.Attribute{{Name: "sour"}}}
	for name, p := range plans {
		p.Mode, p.Loaves = blind.WithHelper, [2]blind.Loaf{{ID: "h", Name: "Harbour"}, {ID: "g", Name: "Gorse"}}
		plans[name] = p
	}
	return plans
}

// served draws a tasting of which nobody has tasted yet.
func served(t *testing.T, plan blind.Plan, random *rand.ChaCha8) blind.Opened {
	t.Helper()
	_, setting, lines := blindtest.Seal(t, plan, random)
	o := blind.Opened{Setting: setting, Progress: blind.Begin(setting).Progress()}
	for i, s := range setting.Servings {
		round := blind.Round{Taster: s.Taster, Round: s.Round}
		for _, p := range lines[i].Plates {
			round.Plates = append(round.Plates, blind.Plate{Label: p.Label, Loaf: p.Loaf})
		}
		o.Rounds = append(o.Rounds, round)
	}
	return o
}

// guess draws the orders of a tasting anew and has everybody answer by a habit;
// where liked is not nil it gives the loaf that each taster likes instead.
func guess(t *testing.T, base blind.Opened, h habit, liked []int, r *rand.Rand, random *rand.ChaCha8) blind.Opened {
	t.Helper()
	o, err := base.Redrawn(random)
	if err != nil {
		t.Fatal(err)
	}
	plan := o.Setting.Plan
	var chosen []int
	for i, s := range o.Setting.Servings {
		round := &o.Rounds[i]
		all := choices(plan.Method, s)
		if s.Round == 0 {
			chosen = h.choose(r, s.Taster, plan.Rounds, len(all))
		}
		picks := all[chosen[s.Round]]
		if liked != nil {
			for _, p := range round.Plates {
				if p.Loaf == liked[s.Taster] {
					picks = []string{p.Label}
				}
			}
		}
		if plan.Method != blind.Scaling {
			round.Answer.Picks = picks
			continue
		}
		round.Answer.Scores = map[string]map[string]int{}
		for _, label := range s.Samples {
			score := 4
			if label == picks[0] {
				score += 1 + r.IntN(3)
			}
			round.Answer.Scores[label] = map[string]int{"sour": score}
		}
	}
	return o
}

// alarm reports whether something is shown, and whether it is cautioned that a habit
// alone could have shown it.
func alarm(o blind.Opened) (shown, cautioned bool) {
	v, plan := tallied(o, nil), o.Setting.Plan
	if plan.Method == blind.Scaling {
		for _, a := range attributes(o, nil) {
			v.Shown = v.Shown || a.Shown
		}
		return v.Shown, false
	}
	v.count(plan)
	return v.Shown, !habitWords(o, v).IsZero()
}

// Nobody can tell anything, and yet answers: by no method, in no size and by no
// habit is something shown more often than the risk that was taken, without a
// caution that says so.
func TestFalseAlarmsOfGuessers(t *testing.T) {
	sizes := [][2]int{{1, 6}, {1, 3}, {2, 6}, {6, 1}, {12, 1}, {8, 2}}
	if *every {
		sizes = nil
		for tasters := 1; tasters <= 12; tasters++ {
			for rounds := 1; rounds <= 6; rounds++ {
				sizes = append(sizes, [2]int{tasters, rounds})
			}
		}
	}
	r, random := rand.New(rand.NewPCG(20, 26)), rand.NewChaCha8([32]byte{20, 26})
	for name, base := range asked() {
		for _, h := range habits() {
			all, total, worst, where := 0, 0, 0.0, ""
			for _, size := range sizes {
				tasting := served(t, sized(base, size[0], size[1]), random)
				shown := 0
				for range *tastings {
					if alarm, cautioned := alarm(guess(t, tasting, h, nil, r, random)); alarm && !cautioned {
						shown++
					}
				}
				all, total = all+shown, total+*tastings
				if rate := float64(shown) / float64(*tastings); rate > worst {
					worst, where = rate, fmt.Sprintf("%d×%d", size[0], size[1])
				}
				if n := float64(*tastings); float64(shown) > 0.05*n+5*math.Sqrt(0.05*0.95*n) {
					t.Errorf("%s, %s, %d tasters of %d rounds: shown in %d of %d", name, h.name, size[0], size[1], shown, *tastings)
				}
			}
			t.Logf("%-18s %-24s %5.2f %% of %d, at most %.1f %% (%s)", name, h.name, 100*float64(all)/float64(total), total, 100*worst, where)
			if n := float64(total); float64(all) > 0.05*n+4*math.Sqrt(0.05*0.95*n) {
				t.Errorf("%s, %s: shown in %d of %d", name, h.name, all, total)
			}
		}
	}
}

// Tasters who each hold to their own taste, half for either loaf on the whole: it is
// not shown that one is liked better more often than the risk that was taken.
func TestFalseAlarmsOfFirmTastes(t *testing.T) {
	r, random := rand.New(rand.NewPCG(20, 27)), rand.NewChaCha8([32]byte{20, 27})
	for tasters := 2; tasters <= 12; tasters++ {
		shown := 0
		n := 8 * *tastings
		var bases []blind.Opened
		for rounds := 1; rounds <= 6; rounds++ {
			bases = append(bases, served(t, sized(asked()["paired, liking"], tasters, rounds), random))
		}
		for range n {
			tasting := bases[r.IntN(len(bases))]
			liked := make([]int, tasters)
			for i := range liked {
				liked[i] = 1 + r.IntN(2)
			}
			if s, _ := alarm(guess(t, tasting, habits()[4], liked, r, random)); s {
				shown++
			}
		}
		t.Logf("%d tasters: %.2f %% of %d", tasters, 100*float64(shown)/float64(n), n)
		if float64(shown) > 0.05*float64(n)+4*math.Sqrt(0.05*0.95*float64(n)) {
			t.Errorf("%d tasters of firm tastes: shown in %d of %d", tasters, shown, n)
		}
	}
}

func sized(p blind.Plan, tasters, rounds int) blind.Plan {
	p.Rounds, p.Tasters = rounds, nil
	for i := range tasters {
		p.Tasters = append(p.Tasters, fmt.Sprint("taster ", i+1))
	}
	return p
}
