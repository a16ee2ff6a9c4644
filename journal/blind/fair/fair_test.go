package fair_test

import (
	"bytes"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"twinloaf/journal/blind/fair"
	"twinloaf/journal/measure"
	"twinloaf/journal/say"
)

func TestDifferencesBeyondTheIntendedOne(t *testing.T) {
	figures := []fair.Metric{
		{Name: say.Of("culture"), First: fair.Text("Harbour"), Second: fair.Text("Gorse"), Intended: true},
		{Name: say.Of("dough temperature"), Unit: "°C", First: fair.Number(26), Second: fair.Number(24), Tolerance: 0.5},
		{Name: say.Of("water"), Unit: "g", First: fair.Number(350), Second: fair.Number(350.4), Tolerance: 0.5},
		{Name: say.Of("loaf temperature"), Unit: "°C", First: fair.Number(24.3), Second: fair.Number(24.1), Tolerance: 0.2},
		{Name: say.Of("flour"), First: fair.Text("rye"), Second: fair.Text("rye ")},
		{Name: say.Of("oven"), First: fair.Text("upper deck"), Second: fair.Text("lower deck")},
		{Name: say.Of("proof"), Unit: "min", First: fair.Number(0), Second: fair.Value{}},
		{Name: say.Of("steam"), Second: fair.Text("yes")},
		{Name: say.Of("folds")},
	}
	var got []string
	for _, d := range fair.Differences(figures) {
		if d.Settled() {
			t.Errorf("%s is settled before anybody looked", d.Figure.Name)
		}
		got = append(got, d.Sentence(say.Of("Harbour loaf"), say.Of("Gorse loaf")).String())
	}
	want := []string{
		"Dough temperature: 26 °C for Harbour loaf, 24 °C for Gorse loaf, a difference of 2 °C.",
		"Oven: upper deck for Harbour loaf, lower deck for Gorse loaf.",
		"Proof was recorded for Harbour loaf (0 min) and not for Gorse loaf.",
		"Steam was recorded for Gorse loaf (yes) and not for Harbour loaf.",
	}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("said\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	if !(fair.Difference{Accepted: true}).Settled() || !(fair.Difference{Note: "x"}).Settled() || (fair.Difference{Note: " "}).Settled() {
		t.Error("settled means accepted or noted")
	}
}

func TestLotsAreEvenAndApart(t *testing.T) {
	r := rand.NewChaCha8([32]byte{9})
	const draws = 4000
	counts := map[[3]int]int{}
	for range draws {
		lots, err := fair.DrawLots(2, r)
		if err != nil {
			t.Fatal(err)
		}
		counts[[3]int{lots.MixOrder[0], lots.BowlMarks[0], lots.BakeOrder[0]}]++
	}
	if len(counts) != 8 {
		t.Errorf("%d of eight outcomes came up", len(counts))
	}
	for outcome, c := range counts {
		if math.Abs(float64(c)-draws/8) > 5*math.Sqrt(draws*7.0/64) {
			t.Errorf("%v drawn %d times of %d", outcome, c, draws)
		}
	}
	if _, err := fair.DrawLots(1, r); err == nil {
		t.Error("lots for one bake")
	}
	if _, err := fair.DrawLots(2, bytes.NewReader(nil)); err == nil {
		t.Error("lots from nothing")
	}
}

// Two numbers stand in columns; a word, or what only one bake has, takes a sentence.
func TestFiguresOfADifference(t *testing.T) {
	units := measure.Units{}
	number := fair.Difference{Figure: fair.Metric{Name: say.Of("water temperature"), Unit: "°C", First: fair.Number(29.9), Second: fair.Number(29.1)}}
	first, second, apart, ok := number.Figures()
	if got := []string{units.Say(first), units.Say(second), units.Say(apart)}; !ok || !slices.Equal(got, []string{"29.9\u00a0°C", "29.1\u00a0°C", "0.8\u00a0°C"}) {
		t.Errorf("%q, %v", got, ok)
	}
	for name, d := range map[string]fair.Difference{
		"a word": {Figure: fair.Metric{Name: say.Of("flour"), First: fair.Text("rye"), Second: fair.Text("spelt")}},
		"one":    {Figure: fair.Metric{Name: say.Of("water temperature"), Unit: "°C", Second: fair.Number(29.1)}},
		"a time": {Figure: fair.Metric{Name: say.Of("mixed"), First: fair.Value{Known: true, Text: "a", Said: say.Of("a")}, Second: fair.Number(1)}},
	} {
		if _, _, _, ok := d.Figures(); ok {
			t.Errorf("%s stands in columns", name)
		}
	}
}

// What is alike is recorded of both, within the tolerance, and not what was varied.
func TestWhatIsAlike(t *testing.T) {
	var got []string
	for _, d := range fair.Alike([]fair.Metric{
		{Name: say.Of("culture"), First: fair.Text("Harbour"), Second: fair.Text("Harbour"), Intended: true},
		{Name: say.Of("dough"), First: fair.Number(24.3), Second: fair.Number(24.1), Tolerance: 0.2},
		{Name: say.Of("water"), First: fair.Number(30), Second: fair.Number(29), Tolerance: 0.2},
		{Name: say.Of("oven"), First: fair.Text("deck"), Second: fair.Text("deck ")},
		{Name: say.Of("steam"), Second: fair.Text("yes")},
		{Name: say.Of("folds")},
	}) {
		got = append(got, d.Figure.Name.String())
	}
	if want := "dough oven"; strings.Join(got, " ") != want {
		t.Errorf("alike are %q instead of %q", got, want)
	}
}
