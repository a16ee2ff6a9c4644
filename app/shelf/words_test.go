package shelf

import (
	"strings"
	"testing"
	"time"

	"twinloaf/app/past"
	"twinloaf/journal/measure"
	"twinloaf/journal/shelf"
)

var march = time.Date(2026, 3, 4, 8, 54, 0, 0, time.UTC)

func speak() wording {
	return wording{now: march, units: measure.Units{}, record: &past.BakeIndex{
		Shelf: shelf.New(nil), Flours: map[string]string{"spelt": "Spelt", "dark rye": "Dark rye", "t65": "T65"},
		Cultures: map[string]string{"h": "Harbour", "g": "Gorse"}, Trials: map[string]string{"t": "Harbour against Gorse"},
	}}
}

// What a filter is called: heading and pills. No-break spaces are written as spaces.
func TestFilterInWords(t *testing.T) {
	fifteen, twenty := new(15.0), new(20.0)
	spelt := shelf.FlourPart{Flour: "spelt", AtLeast: fifteen}
	day := time.Date(2026, 3, 1, 0, 0, 0, 0, time.UTC)
	for _, tt := range []struct {
		filter  shelf.Filter
		seen    int
		heading string
		pills   string
	}{
		{shelf.Filter{}, 214, "214 bakes on the shelf", ""},
		{shelf.Filter{Flours: []shelf.FlourPart{spelt}}, 38, "Bakes with spelt, at least 15 %", "spelt, at least 15 %"},
		{shelf.Filter{Flours: []shelf.FlourPart{spelt}}, 0, "No bake with spelt, at least 15 %", "spelt, at least 15 %"},
		{shelf.Filter{Flours: []shelf.FlourPart{{Flour: "spelt", AtLeast: fifteen, AtMost: twenty}, {Flour: "dark rye", AtMost: twenty}}}, 3,
			"Bakes with spelt, 15 % to 20 % and dark rye, at most 20 %", "spelt, 15 % to 20 %|dark rye, at most 20 %"},
		{shelf.Filter{Flours: []shelf.FlourPart{{Flour: "t65"}}}, 3, "Bakes with T65", "T65"},
		{shelf.Filter{Cultures: []string{"h", "g"}}, 9, "Bakes leavened with Harbour or Gorse", "culture Harbour or Gorse"},
		{shelf.Filter{Cultures: []string{"x"}}, 0, "No bake leavened with one that is gone", "culture one that is gone"},
		{shelf.Filter{Ranges: []shelf.Range{{Figure: shelf.Hydration, AtLeast: new(62.0), AtMost: new(84.0)}}}, 9,
			"Bakes of hydration 62 to 84 %", "hydration 62 to 84 %"},
		{shelf.Filter{Ranges: []shelf.Range{{Figure: shelf.Score, AtLeast: new(7.0)}}}, 9,
			"Bakes of overall score of at least 7", "overall score of at least 7"},
		{shelf.Filter{Ranges: []shelf.Range{{Figure: shelf.Hydration, AtMost: new(75.0), Below: true}}}, 3,
			"Bakes of hydration of less than 75 %", "hydration of less than 75 %"},
		{shelf.Filter{Seasons: []shelf.Season{12, 3}}, 9, "Bakes baked in March to May or December to February", "March to May or December to February"},
		{shelf.Filter{From: day, To: day.AddDate(0, 1, 0)}, 9, "Bakes baked in March 2026", "in March 2026"},
		{shelf.Filter{From: day, To: day.AddDate(0, 0, 1)}, 2, "Bakes baked on 1 Mar", "on 1 Mar"},
		{shelf.Filter{From: day.AddDate(0, -2, 0), To: day.AddDate(0, 10, 0)}, 2, "Bakes baked in 2026", "in 2026"},
		{shelf.Filter{Trials: []string{"t"}, Photos: shelf.WithCrumb}, 2,
			"Bakes from the trial Harbour against Gorse, with a photo of the crumb", "trial Harbour against Gorse|with a photo of the crumb"},
		{shelf.Filter{AddIns: []string{"sesame", "honey"}, Text: "wet"}, 2,
			"Bakes with sesame and honey in it, whose name, ingredients or notes say “wet”", "sesame|honey|“wet”"},
	} {
		s := speak()
		plain := strings.NewReplacer("\u00a0", " ")
		if got := plain.Replace(s.heading(tt.filter, tt.seen, 214)); got != tt.heading {
			t.Errorf("heading %q, want %q", got, tt.heading)
		}
		var words []string
		pills := s.pills(tt.filter)
		for _, p := range pills {
			words = append(words, p.words)
		}
		if got := plain.Replace(strings.Join(words, "|")); got != tt.pills {
			t.Errorf("pills %q, want %q", got, tt.pills)
		}
		// Taken off one by one, nothing is left.
		f := tt.filter
		for _, p := range pills {
			p.off(&f)
		}
		if !f.Empty() {
			t.Errorf("after taking every pill off %q, %+v is left", tt.pills, f)
		}
	}
}

// A tap on a bin asks for it, another widens the range, one within makes it that
// bin, and the only one takes it away.
func TestPicked(t *testing.T) {
	between := func(a, b float64, below bool) *shelf.Range {
		return &shelf.Range{Figure: shelf.Hydration, AtLeast: &a, AtMost: &b, Below: below}
	}
	for _, tt := range []struct{ old, bin, want *shelf.Range }{
		{nil, between(70, 72, true), between(70, 72, true)},
		{between(70, 72, true), between(74, 76, true), between(70, 76, true)},
		{between(70, 72, true), between(78, 80, false), between(70, 80, false)},
		{between(70, 76, true), between(66, 68, true), between(66, 76, true)},
		{between(70, 76, false), between(66, 68, true), between(66, 76, false)},
		{between(66, 76, true), between(70, 72, true), between(70, 72, true)},
		{between(70, 72, true), between(70, 72, true), &shelf.Range{Figure: shelf.Hydration}},
		{&shelf.Range{Figure: shelf.Hydration, AtLeast: new(60.0)}, between(70, 72, true), between(70, 72, true)},
	} {
		if got := picked(tt.old, *tt.bin); !sameRange(&got, tt.want) {
			t.Errorf("bin %+v on %+v gives %+v", tt.bin, tt.old, got)
		}
	}
}

// Going into a group asks for what its bakes have in common.
func TestIntoGroup(t *testing.T) {
	rows := []shelf.Row{
		{ID: "a", At: march, Culture: "h", Trial: "t", Flours: []shelf.Share{{Flour: "spelt", Percent: 100}},
			Figures: []shelf.Value{{Figure: shelf.Hydration, Value: 71}, {Figure: shelf.Score, Value: 7}}},
		{ID: "b", At: march.AddDate(0, -5, 0), Culture: "g", Flours: []shelf.Share{{Flour: "dark rye", Percent: 100}},
			Figures: []shelf.Value{{Figure: shelf.Hydration, Value: 78}, {Figure: shelf.Score, Value: 4}}},
	}
	s := shelf.New(rows)
	for _, by := range shelf.Groupings()[1:] {
		groups := s.Grouped([]int{0, 1}, by)
		for _, g := range groups {
			at := state{GroupBy: by}
			into(&at, g.Key)
			got := s.Filter(at.Filter).Rows(shelf.Order{})
			if g.Key != "" && (len(got) != len(g.Rows) || got[0] != g.Rows[0]) {
				t.Errorf("%s %q: the filter gives %v, the group has %v", by, g.Key, got, g.Rows)
			}
			if at.GroupBy != shelf.Ungrouped {
				t.Errorf("%s %q is still grouped", by, g.Key)
			}
			if words := speak().groupName(g.Key, by); words == "" {
				t.Errorf("%s %q has no name", by, g.Key)
			}
		}
	}
}

func TestOrderWords(t *testing.T) {
	for by, want := range map[shelf.Metric][2]string{
		"":                     {"newest first", "oldest first"},
		shelf.Score:            {"highest first", "lowest first"},
		shelf.ColdHours:        {"longest first", "shortest first"},
		shelf.DoughTemp:        {"warmest first", "coolest first"},
		shelf.Height:           {"tallest first", "flattest first"},
		shelf.CultureAge:       {"oldest culture first", "youngest culture first"},
		shelf.DoughWeight:      {"heaviest first", "lightest first"},
		shelf.Wholegrain:       {"most of it first", "least of it first"},
		shelf.ShareOf("spelt"): {"most of it first", "least of it first"},
	} {
		for i, upwards := range []bool{false, true} {
			if got := orderWords(shelf.Order{By: by, Upwards: upwards}); got != want[i] {
				t.Errorf("by %q, upwards %v: %q, want %q", by, upwards, got, want[i])
			}
		}
	}
}
