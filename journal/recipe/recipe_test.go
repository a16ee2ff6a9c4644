package recipe_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"twinloaf/journal/recipe"
)

// The durations of ISO 8601-1:2019, 5.5.2 (from memory), and what is none.
func TestDurations(t *testing.T) {
	for text, want := range map[string]time.Duration{
		"PT30M": 30 * time.Minute, "PT1H30M": 90 * time.Minute, "P1DT2H": 26 * time.Hour, "PT36H": 36 * time.Hour,
		"P2W": 14 * 24 * time.Hour, "PT0.5H": 30 * time.Minute, "PT1,5H": 90 * time.Minute, "PT45S": 45 * time.Second, " pt20m ": 20 * time.Minute,
		"PT0M": 0,
	} {
		if got, ok := recipe.ParseDuration(text); !ok || got != want {
			t.Errorf("%q is %v, %v; want %v", text, got, ok, want)
		}
	}
	for _, text := range []string{"", "P", "PT", "1H", "P1Y", "P1M", "PT-5M", "PT99999999H", "half an hour"} {
		if got, ok := recipe.ParseDuration(text); ok {
			t.Errorf("%q was taken for %v", text, got)
		}
	}
	for d, want := range map[time.Duration]string{0: "", time.Hour: "PT1H", 26 * time.Hour: "P1DT2H", 90 * time.Minute: "PT1H30M", 24 * time.Hour: "P1D"} {
		if got := recipe.FormatDuration(d); got != want {
			t.Errorf("%v is %q, want %q", d, got, want)
		}
	}
}

func TestIngredientsAreReadByTheirWeight(t *testing.T) {
	const ounce, pound = 28.349523125, 453.59237 // the international pound of 1959
	for text, want := range map[string]struct {
		name  string
		grams float64
	}{
		"500 g strong white flour": {"strong white flour", 500},
		"500g strong white flour":  {"strong white flour", 500},
		"1.5 kg flour, sifted":     {"flour, sifted", 1500},
		"1,5 kg rye":               {"rye", 1500},
		"1,250 g flour":            {"flour", 1250},
		"Water, 350 g":             {"Water", 350},
		"350 ml water":             {"water", 350},
		"0.35 l warm water":        {"warm water", 350},
		"2 cups (240 g) flour":     {"flour", 240},
		"1 lb 2 oz flour":          {"flour", pound + 2*ounce},
		"8 oz (227 g) butter":      {"butter", 227},
		"½ oz yeast":               {"yeast", ounce / 2},
		"1 1/2 lb potatoes":        {"potatoes", 1.5 * pound},
		"1 ½ lb potatoes":          {"potatoes", 1.5 * pound},
		"10 grams of salt":         {"salt", 10},
		"7.5 gr. salt":             {"salt", 7.5},
		"100 g Harbour (Levain)":   {"Harbour (Levain)", 100},
	} {
		got := recipe.ParseLine(text)
		if !got.Weighed || got.Name != want.name || float64(got.Grams)-want.grams > 1e-6 || want.grams-float64(got.Grams) > 1e-6 {
			t.Errorf("%q is %v g of %q (%v), want %v of %q", text, got.Grams, got.Name, got.Weighed, want.grams, want.name)
		}
	}
	for _, text := range []string{
		"", "salt to taste", "2 cups flour", "500-550 g flour", "500 – 550 g flour", "2 x 250 g flour", "10 to 12 g salt",
		"250 ml milk", "8 fl oz beer", "8 fl. oz. water", "3 eggs", "500 g", "a 9000000 kg loaf", "2 large glasses", "250 ml rose water", "1/0 g salt",
	} {
		if got := recipe.ParseLine(text); got.Weighed || got.Text != strings.Join(strings.Fields(text), " ") {
			t.Errorf("%q was taken for %+v", text, got)
		}
	}
}

func ferry() recipe.Recipe {
	return recipe.Recipe{
		Name: "Ferry loaf", Description: "For the early boat.\nKeeps three days.", Yield: "2 loaves of 814 g", Loaves: 2, Total: 28*time.Hour + 45*time.Minute,
		Lines: []recipe.Line{
			{Name: "Harbour", Grams: 20, Part: "Levain", Weighed: true}, {Name: "Whole rye", Grams: 100, Part: "Levain", Weighed: true},
			{Name: "Strong white flour, T65", Grams: 720, Weighed: true}, {Name: "Sea salt", Grams: 18.25, Weighed: true},
		},
		Steps: []recipe.Step{
			{Part: "Levain", Name: "Build the levain", Length: 8 * time.Hour}, {Name: "Mix", Text: "All but the salt.", Length: 15 * time.Minute}, {Name: "Cool"},
		},
	}
}

func TestAFormulaGoesOutAndComesIn(t *testing.T) {
	var out bytes.Buffer
	if err := recipe.Write(&out, ferry()); err != nil {
		t.Fatal(err)
	}
	text := out.String()
	for _, want := range []string{
		`"@context": "https://schema.org"`, `"@type": "Recipe"`, `"recipeYield": "2 loaves of 814 g"`, `"totalTime": "P1DT4H45M"`,
		`"18.25 g Sea salt"`, `"20 g Harbour (Levain)"`, `"@type": "HowToSection"`, `"@type": "HowToStep"`, `"timeRequired": "PT15M"`,
	} {
		if !strings.Contains(text, want) {
			t.Errorf("there is no %s in\n%s", want, text)
		}
	}
	got, err := recipe.Read(strings.NewReader(text))
	if err != nil || len(got) != 1 {
		t.Fatal(got, err)
	}
	for i := range got[0].Lines {
		got[0].Lines[i].Text = ""
	}
	if want := ferry(); !reflect.DeepEqual(got[0], want) {
		t.Errorf("came back as\n%+v, want\n%+v", got[0], want)
	}
}

// The samples were written by us in the vocabulary of schema.org, each in another way
// that it allows; none is anybody's recipe.
func TestOtherWaysOfWritingAreRead(t *testing.T) {
	for name, want := range map[string]recipe.Recipe{
		"plain.json":  {Name: "Tide loaf", Yield: "1 loaf", Loaves: 1, Total: 5 * time.Hour},
		"graph.html":  {Name: "Oat & honey tin", Yield: "2 tins", Loaves: 2, Total: 90 * time.Minute},
		"nested.json": {Name: "Pier rolls", Yield: "12 rolls", Loaves: 12},
	} {
		f, err := os.Open(filepath.Join("testdata", name))
		if err != nil {
			t.Fatal(err)
		}
		got, err := recipe.Read(f)
		if err := errors.Join(err, f.Close()); err != nil || len(got) != 1 {
			t.Fatal(name, got, err)
		}
		r := got[0]
		if r.Name != want.Name || r.Yield != want.Yield || r.Loaves != want.Loaves || r.Total != want.Total {
			t.Errorf("%s: %q, %q, %d, %v", name, r.Name, r.Yield, r.Loaves, r.Total)
		}
		lines, unweighed := 0, 0
		for _, l := range r.Lines {
			if lines++; !l.Weighed {
				unweighed++
			}
		}
		if lines != 4 || unweighed != 1 || len(r.Steps) != 3 {
			t.Errorf("%s: %d lines, %d of them not weighed, %d steps: %+v", name, lines, unweighed, len(r.Steps), r)
		}
		all := strings.Join(r.Notes, "\n")
		if !strings.Contains(all, "author: Jory") || !strings.Contains(all, "nutrition: ") {
			t.Errorf("%s: unknown members are lost: %q", name, r.Notes)
		}
	}
}

// A yield names loaves, or it weighs, or it feeds people.
func TestOnlyLoavesAreTakenForLoaves(t *testing.T) {
	for yield, want := range map[string]struct {
		words  string
		loaves int
	}{
		`3`:                          {"3", 3},
		`"2 loaves of 900 g"`:        {"2 loaves of 900 g", 2},
		`"Makes 2 (900 g each)"`:     {"Makes 2 (900 g each)", 2},
		`"2 × 900 g"`:                {"2 × 900 g", 2},
		`["2", "2 loaves", "900 g"]`: {"2 loaves, 900 g", 2},
		`"900 g"`:                    {"900 g", 0},
		`"900g loaf"`:                {"900g loaf", 0},
		`"1.8 kg of dough"`:          {"1.8 kg of dough", 0},
		`"a 23 cm tin"`:              {"a 23 cm tin", 0},
		`"8 servings"`:               {"8 servings", 0},
		`"8 Portionen"`:              {"8 Portionen", 0},
		`"10–12 rolls"`:              {"10–12 rolls", 0},
		`"10 to 12 rolls"`:           {"10 to 12 rolls", 0},
		`"1/2 loaf"`:                 {"1/2 loaf", 0},
		`"400 rolls"`:                {"400 rolls", 0}, // more than a formula may make
		`{"@type": "QuantitativeValue", "value": 900, "unitCode": "GRM"}`: {"900 GRM", 0},
	} {
		got, err := recipe.Read(strings.NewReader(`{"@type": "Recipe", "recipeYield": ` + yield + `}`))
		if err != nil {
			t.Fatal(yield, err)
		}
		if r := got[0]; r.Loaves != want.loaves || r.Yield != want.words {
			t.Errorf("%s: %q, %d loaves, want %q, %d", yield, r.Yield, r.Loaves, want.words, want.loaves)
		}
	}
}

// Whatever is said somewhere in the instructions is in a step or in a note.
func TestNothingOfAStepIsLost(t *testing.T) {
	for steps, want := range map[string][]string{
		`{"text": "Mix.", "itemListElement": ["Add salt.", {"@type": "HowToTip", "name": "Tip", "text": "Wet hands.", "image": "hand.jpg"}]}`: {
			"Mix.", "Add salt.", "Tip", "Wet hands.", "hand.jpg"},
		`{"itemListElement": [{"itemListElement": ["Fold."], "text": "Every hour:"}]}`: {"Every hour:\nFold."},
		`{"text": ["Knead.", "Rest."]}`:                                                        {"Knead.", "Rest."},
		`{"name": {"@value": "Shape"}, "text": "Into a ball."}`:                                {"Shape", "Into a ball."},
		`{"@type": "HowToSection", "name": 7, "text": "For the dough", "itemListElement": []}`: {"7", "For the dough"},
		`["Bake.", 25, true]`: {"Bake.", "25", "true"},
		`{"text": "Fold.", "itemListElement": [{"text": "Fold."}]}`:   {"\nFold."},
		strings.Repeat("[", 60) + `"Cool."` + strings.Repeat("]", 60): {"Cool."},
	} {
		got, err := recipe.Read(strings.NewReader(`{"@type": "Recipe", "recipeInstructions": ` + steps + `}`))
		if err != nil {
			t.Fatal(steps, err)
		}
		var all []string
		for _, s := range got[0].Steps {
			all = append(all, s.Name, s.Text)
		}
		said := strings.Join(append(all, got[0].Notes...), "\n")
		for _, w := range want {
			if !strings.Contains(said, w) {
				t.Errorf("%s: %q is not in %q", steps, w, said)
			}
		}
	}
}

func TestWhatIsNoRecipeIsRefusedByASentence(t *testing.T) {
	for text, want := range map[string]error{
		"":                           recipe.ErrNotJSON,
		"Flour and water":            recipe.ErrNotJSON,
		"<html><p>Flour":             recipe.ErrNotJSON,
		`{"@type": "Person"}`:        recipe.ErrNoRecipe,
		`{"@type": "Recipe"`:         recipe.ErrNotJSON,
		strings.Repeat("[", 100_000): recipe.ErrNotJSON,
		strings.Repeat(" ", 17<<20):  recipe.ErrTooLong,
		strings.Repeat(`{"a":`, 9000) + `{"@type":"Recipe"}` + strings.Repeat("}", 9000): recipe.ErrNoRecipe,
	} {
		if got, err := recipe.Read(strings.NewReader(text)); !errors.Is(err, want) {
			t.Errorf("%.20q: %v, %v; want %v", text, got, err, want)
		}
	}
}

func TestALongFileIsToldAndNotDropped(t *testing.T) {
	members := map[string]any{"@type": "Recipe", "name": "Long"}
	for i := range 150 {
		members["x"+strings.Repeat("y", i)] = "z"
	}
	b, err := json.Marshal(members)
	if err != nil {
		t.Fatal(err)
	}
	got, err := recipe.Read(bytes.NewReader(b))
	if err != nil || len(got[0].Notes)+got[0].Left != 150 || got[0].Left == 0 {
		t.Errorf("%d noted, %d left: %v", len(got[0].Notes), got[0].Left, err)
	}
}

// Whatever is read can be written, and what is written is read again as it was.
func FuzzRead(f *testing.F) {
	names, err := filepath.Glob("testdata/*.*")
	if err != nil || len(names) == 0 {
		f.Fatal("no samples", err)
	}
	for _, name := range names {
		b, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(b)
	}
	var out bytes.Buffer
	if err := recipe.Write(&out, ferry()); err != nil {
		f.Fatal(err)
	}
	f.Add(out.Bytes())
	f.Fuzz(func(t *testing.T, data []byte) {
		all, err := recipe.Read(bytes.NewReader(data))
		if err != nil {
			if !errors.Is(err, recipe.ErrNotJSON) && !errors.Is(err, recipe.ErrNoRecipe) && !errors.Is(err, recipe.ErrTooLong) {
				t.Fatalf("refused by %v", err)
			}
			return
		}
		for _, r := range all {
			for _, l := range r.Lines {
				if l.Weighed && (l.Grams <= 0 || l.Grams > 1e6 || l.Name == "") || !l.Weighed && l.Grams != 0 {
					t.Fatalf("a line %+v", l)
				}
			}
			var out bytes.Buffer
			if err := recipe.Write(&out, r); err != nil {
				t.Fatal(err)
			}
			again, err := recipe.Read(&out)
			if err != nil || len(again) != 1 {
				t.Fatalf("what was written cannot be read: %v", err)
			}
			clean := func(l recipe.Line) bool { return !strings.ContainsAny(l.Text, "<&") && strings.TrimSpace(l.Text) != "" }
			if !slices.ContainsFunc(r.Lines, func(l recipe.Line) bool { return !clean(l) }) && len(again[0].Lines) != len(r.Lines) {
				t.Fatalf("%d lines came back as %d", len(r.Lines), len(again[0].Lines))
			}
		}
	})
}
