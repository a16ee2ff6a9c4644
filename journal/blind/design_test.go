package blind_test

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/iotest"

	"pgregory.net/rapid"

	"twinloaf/journal/blind"
	_ "twinloaf/journal/journaltest/race" // few draws under the race detector
)

// Williams designs as tabled: Williams 1949; n = 3 agrees with R's crossdes.
func TestWilliamsDesignsAsTabled(t *testing.T) {
	file, err := os.Open("../../testdata/blind/serving_order_designs.csv")
	ok(t, err)
	defer file.Close()
	lines, err := csv.NewReader(file).ReadAll()
	ok(t, err)
	for _, line := range lines[1:] {
		n, _ := strconv.Atoi(line[0])
		row, _ := strconv.Atoi(line[1])
		var got strings.Builder
		for _, thing := range blind.Williams(n)[row-1] {
			got.WriteByte('A' + byte(thing))
		}
		if got.String() != line[2] {
			t.Errorf("%d things, row %d: %s, tabled %s", n, row, &got, line[2])
		}
	}
}

func TestWilliamsDesignsAreBalanced(t *testing.T) {
	for n := 2; n <= 12; n++ {
		rows := blind.Williams(n)
		places, neighbours := map[[2]int]int{}, map[[2]int]int{}
		for _, row := range rows {
			for place, thing := range row {
				places[[2]int{place, thing}]++
				if place > 0 {
					neighbours[[2]int{row[place-1], thing}]++
				}
			}
		}
		for what, times := range places {
			if times != len(rows)/n {
				t.Errorf("%d things: thing %d stands %d times at place %d", n, what[1], times, what[0])
			}
		}
		if len(neighbours) != n*(n-1) {
			t.Errorf("%d things: %d neighbour pairs", n, len(neighbours))
		}
		for what, times := range neighbours {
			if times != len(rows)/n {
				t.Errorf("%d things: %v follows %d times", n, what, times)
			}
		}
	}
	if blind.Williams(1) != nil {
		t.Error("one thing has no design")
	}
}

// pattern writes a round's order as letters, the reference first.
func pattern(line blind.CardLine) string {
	var s strings.Builder
	for _, p := range line.Plates {
		s.WriteByte('@' + byte(p.Loaf))
	}
	return s.String()
}

// The orders that each method serves: ISO 4120's six for the triangle.
var patterns = map[blind.Method][]string{
	blind.Triangle: {"ABB", "BAB", "BBA", "BAA", "ABA", "AAB"},
	blind.DuoTrio:  {"AAB", "ABA", "BAB", "BBA"},
	blind.Paired:   {"AB", "BA"},
	blind.Tetrad:   {"AABB", "ABAB", "ABBA", "BBAA", "BABA", "BAAB"},
	blind.Scaling:  {"AB", "BA"},
	blind.ThreeAFC: {"AAB", "ABA", "BAA"}, // B is expected to have more
	blind.TwoOutOfFive: {
		"AABBB", "ABABB", "ABBAB", "ABBBA", "BAABB", "BABAB", "BABBA", "BBAAB", "BBABA", "BBBAA",
		"BBAAA", "BABAA", "BAABA", "BAAAB", "ABBAA", "ABABA", "ABAAB", "AABBA", "AABAB", "AAABB",
	},
}

// Where everybody tastes once, every order is served as often as every other,
// give or take one, as ISO 4120, 5495 and 10399 ask.
func TestOrdersAreBalanced(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := rapid.SampledFrom(blind.Methods()).Draw(t, "method")
		tasters := rapid.IntRange(1, 40).Draw(t, "tasters")
		const rounds = 1
		plan := planFor(m, blind.WithHelper, tasters, rounds)
		draft, err := blind.Draw(plan, chance(rapid.Uint64().Draw(t, "seed")))
		if err != nil {
			t.Fatal(err)
		}
		card, _ := draft.Card()
		lines, err := card.Lines()
		if err != nil {
			t.Fatal(err)
		}
		counts := map[string]map[string]int{}
		for _, line := range lines {
			p := pattern(line)
			if !slices.Contains(patterns[m], p) {
				t.Fatalf("%s serves %s", m, p)
			}
			for _, where := range []string{"all", fmt.Sprint("taster ", line.Taster), fmt.Sprint("round ", line.Round)} {
				if counts[where] == nil {
					counts[where] = map[string]int{}
				}
				counts[where][p]++
			}
		}
		for where, c := range counts {
			least, most := math.MaxInt, 0
			for _, p := range patterns[m] {
				least, most = min(least, c[p]), max(most, c[p])
			}
			if most-least > 1 {
				t.Fatalf("%s, %s: orders served %v", m, where, c)
			}
		}
	})
}

// A full set of six tasters is served each order of the triangle once.
func TestSixTastersAreServedAllSixOrders(t *testing.T) {
	s := mustSeal(t, planFor(blind.Triangle, blind.WithHelper, 6, 1), chance(3))
	var served []string
	for _, line := range s.card {
		served = append(served, pattern(line))
	}
	slices.Sort(served)
	want := slices.Sorted(slices.Values(patterns[blind.Triangle]))
	if !slices.Equal(served, want) {
		t.Errorf("served %v", served)
	}
}

// Every order is as likely as every other at every place of the tasting.
func TestOrdersAreDrawnEvenly(t *testing.T) {
	const draws = 1000
	for _, m := range []blind.Method{blind.Triangle, blind.DuoTrio, blind.Paired, blind.ThreeAFC, blind.TwoOutOfFive} {
		plan := planFor(m, blind.WithHelper, 2, 3)
		counts := make([]map[string]int, 6)
		for i := range counts {
			counts[i] = map[string]int{}
		}
		for seed := range uint64(draws) {
			for i, line := range mustSeal(t, plan, chance(seed)).card {
				counts[i][pattern(line)]++
			}
		}
		// Five standard deviations of a count.
		p := 1 / float64(len(patterns[m]))
		allowed := 5 * math.Sqrt(draws*p*(1-p))
		for i, c := range counts {
			for _, order := range patterns[m] {
				if away := math.Abs(float64(c[order]) - draws*p); away > allowed {
					t.Errorf("%s, serving %d: order %s drawn %d times of %d", m, i, order, c[order], draws)
				}
			}
		}
	}
}

func TestCodesNeverRepeat(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := rapid.SampledFrom(blind.Methods()).Draw(t, "method")
		mode := rapid.SampledFrom([]blind.Mode{blind.WithHelper, blind.Alone}).Draw(t, "mode")
		tasters := 1
		if mode == blind.WithHelper {
			tasters = rapid.IntRange(1, 12).Draw(t, "tasters")
		}
		plan := planFor(m, mode, tasters, rapid.IntRange(1, 8).Draw(t, "rounds"))
		draft, err := blind.Draw(plan, chance(rapid.Uint64().Draw(t, "seed")))
		if err != nil {
			t.Fatal(err)
		}
		_, setting, err := draft.Seal()
		if err != nil {
			t.Fatal(err)
		}
		seen := map[string]bool{}
		for _, serving := range setting.Servings {
			codes := serving.Samples
			if mode == blind.Alone {
				codes = serving.Slips
			}
			for _, code := range codes {
				n, err := strconv.Atoi(code)
				if err != nil || n < 100 || n > 999 || seen[code] {
					t.Fatalf("code %q is repeated or not of three digits", code)
				}
				seen[code] = true
			}
		}
	})
}

// The odd sample of a triangle carries the least, the middle and the greatest
// of its round's codes equally often, and so does loaf 1 of a pair: codes carry
// no order.
func TestCodesCarryNoOrder(t *testing.T) {
	const draws = 1500
	triangle := planFor(blind.Triangle, blind.WithHelper, 1, 1)
	paired := planFor(blind.Paired, blind.WithHelper, 1, 1)
	var oddRank [3]int
	loafOneLower, firstServedLower := 0, 0
	for seed := range uint64(draws) {
		s := mustSeal(t, triangle, chance(seed))
		labels := s.setting.Servings[0].Samples
		sorted := slices.Sorted(slices.Values(labels))
		for _, label := range labels {
			same := 0
			for _, other := range labels {
				if s.loafOf(0, 0, other) == s.loafOf(0, 0, label) {
					same++
				}
			}
			if same == 1 {
				oddRank[slices.Index(sorted, label)]++
			}
		}
		p := mustSeal(t, paired, chance(seed+draws))
		labels = p.setting.Servings[0].Samples
		lower := slices.Min(labels)
		if p.loafOf(0, 0, lower) == 1 {
			loafOneLower++
		}
		if labels[0] == lower {
			firstServedLower++
		}
	}
	even := func(what string, count int, p float64) {
		if math.Abs(float64(count)-draws*p) > 5*math.Sqrt(draws*p*(1-p)) {
			t.Errorf("%s: %d of %d", what, count, draws)
		}
	}
	for rank, count := range oddRank {
		even(fmt.Sprintf("the odd sample has code rank %d", rank+1), count, 1.0/3)
	}
	even("loaf 1 has the lower code", loafOneLower, 0.5)
	even("the lower code is served first", firstServedLower, 0.5)
}

func TestPlansThatCannotBeServed(t *testing.T) {
	change := func(f func(*blind.Plan)) blind.Plan {
		p := planFor(blind.Triangle, blind.WithHelper, 2, 3)
		f(&p)
		return p
	}
	for why, p := range map[string]blind.Plan{
		"zero":                {},
		"unknown method":      change(func(p *blind.Plan) { p.Method = "guessing" }),
		"unknown mode":        change(func(p *blind.Plan) { p.Mode = "" }),
		"one loaf":            change(func(p *blind.Plan) { p.Loaves[1] = blind.Loaf{} }),
		"the same loaf twice": change(func(p *blind.Plan) { p.Loaves[1] = p.Loaves[0] }),
		"nobody":              change(func(p *blind.Plan) { p.Tasters = nil }),
		"a crowd":             change(func(p *blind.Plan) { *p = planFor(blind.Triangle, blind.WithHelper, 41, 1) }),
		"a nameless taster":   change(func(p *blind.Plan) { p.Tasters[1] = " " }),
		"a taster twice":      change(func(p *blind.Plan) { p.Tasters[1] = p.Tasters[0] }),
		"no rounds":           change(func(p *blind.Plan) { p.Rounds = 0 }),
		"too many rounds":     change(func(p *blind.Plan) { p.Rounds = 41 }),
		"too few codes":       change(func(p *blind.Plan) { *p = planFor(blind.Tetrad, blind.WithHelper, 20, 20) }),
		"two alone":           change(func(p *blind.Plan) { p.Mode = blind.Alone }),
		"stray attribute":     change(func(p *blind.Plan) { p.Attribute = "sour" }),
		"stray expectation":   change(func(p *blind.Plan) { p.Expected = 1 }),
		"third loaf expected": change(func(p *blind.Plan) { p.Expected = 3 }),
		"stray lines":         change(func(p *blind.Plan) { p.Attributes = []blind.Attribute{{Name: "sour"}} }),
		"3-AFC of nothing":    change(func(p *blind.Plan) { p.Method = blind.ThreeAFC }),
		"3-AFC of whatever":   change(func(p *blind.Plan) { p.Method, p.Attribute = blind.ThreeAFC, "sour" }),
		"a key of nobody's":   change(func(p *blind.Plan) { *p = planFor(blind.Triangle, blind.Alone, 1, 1); p.KeyOnPaper = true }),
		"no lines":            change(func(p *blind.Plan) { p.Method = blind.Scaling }),
		"nameless line":       change(func(p *blind.Plan) { p.Method, p.Attributes = blind.Scaling, []blind.Attribute{{}} }),
		"line twice": change(func(p *blind.Plan) {
			p.Method, p.Attributes = blind.Scaling, []blind.Attribute{{Name: "a"}, {Name: "a"}}
		}),
		"a wild risk": change(func(p *blind.Plan) { p.Alpha = 0.9 }),
	} {
		if _, err := blind.Draw(p, chance(1)); !errors.Is(err, blind.ErrPlan) {
			t.Errorf("%s: %v", why, err)
		}
	}
}

// A source that runs dry or fails gives an error at every point, never a
// tasting with poor randomness.
func TestAFailingSourceIsAnError(t *testing.T) {
	for _, plan := range everyPlan() {
		for _, n := range []int64{0, 1, 20, 33, 40, 60, 72} {
			if _, err := blind.Draw(plan, io.LimitReader(chance(1), n)); err == nil {
				t.Errorf("%s: drawn from %d bytes", name(plan), n)
			}
		}
		broken := errors.New("no entropy")
		if _, err := blind.Draw(plan, iotest.ErrReader(broken)); !errors.Is(err, broken) {
			t.Errorf("%s: %v", name(plan), err)
		}
	}
}
