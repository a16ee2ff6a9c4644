package pages

import (
	"slices"
	"testing"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/assets/words"
	"twinloaf/journal/formula"
	"twinloaf/journal/measure"
	"twinloaf/journal/plan"
)

// speaking has the rest of a test in a language.
func speaking(t *testing.T, tag string) {
	t.Helper()
	t.Cleanup(func() {
		if err := words.Speak("en"); err != nil {
			t.Error(err)
		}
	})
	if err := words.Speak(tag); err != nil {
		t.Fatal(err)
	}
}

// The bowls of a trial of four, the most there can be, are told apart in every language, and
// a mark that was drawn in English is said in the baker's.
func TestEachBowlHasAMarkOfItsOwn(t *testing.T) {
	english := BowlMarks()
	for _, l := range words.Languages() {
		speaking(t, l.Tag)
		marks := BowlMarks()
		for i, mark := range english {
			if words.L(mark) != marks[i] {
				t.Errorf("%s: the bowl with the %s has the mark %q", l.Tag, mark, marks[i])
			}
		}
		slices.Sort(marks)
		if n := len(slices.Compact(marks)); n != 4 {
			t.Errorf("%s: %d marks for four bowls: %q", l.Tag, n, marks)
		}
	}
}

// The grain of each type of flour is a word of the baker's language. The German ones are
// those of DIN 10355, which names the types of wheat, rye and spelt (from memory).
func TestGrainsAreNamedInTheBakersLanguage(t *testing.T) {
	speaking(t, "de")
	german := map[string]string{"wheat": "Weizen", "rye": "Roggen", "spelt": "Dinkel"}
	for _, f := range formula.FlourTypes() {
		if want := german[f.Grain]; want == "" || lang.L(f.Grain) != want {
			t.Errorf("%s %s: the grain is %q, want %q", f.System, f.Name, lang.L(f.Grain), want)
		}
	}
}

// The lanes of the kitchen are the doughs in their order, then the oven, the refrigerator
// and the hands.
func TestTheLanesOfTheKitchenStandInOrder(t *testing.T) {
	now := time.Date(2026, 3, 4, 9, 0, 0, 0, time.UTC)
	day := func(hour int) plan.Plan {
		return plan.Plan{Start: now.Add(time.Duration(hour) * time.Hour), Steps: []plan.Step{{Kind: plan.Mix, Length: 60}}}
	}
	names := []string{"Rye", "Ferry loaf"}
	plans := []plan.Plan{day(2), day(1)}
	var got []string
	for _, l := range kitchenLanes(names, plans, plan.Meetings(now, plans...), now) {
		got = append(got, l.Name)
	}
	if want := []string{"Rye", "Ferry loaf", "Oven", "Refrigerator", "Hands"}; !slices.Equal(got, want) {
		t.Errorf("lanes %q, want %q", got, want)
	}
	if Kitchen([]DoughDay{{"Rye", plans[0]}}, now, measure.Units{}) != nil {
		t.Error("one dough has a timeline of the kitchen")
	}
}
