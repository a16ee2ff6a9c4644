package formula

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// table reads a file of published check values, its header as keys.
func table(t *testing.T, name string) []map[string]string {
	t.Helper()
	file, err := os.Open(filepath.Join("..", "..", "testdata", "formula", name))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	out := make([]map[string]string, 0, len(rows))
	for _, row := range rows[1:] {
		m := make(map[string]string, len(row))
		for i, cell := range row {
			m[rows[0][i]] = cell
		}
		out = append(out, m)
	}
	if len(out) == 0 {
		t.Fatalf("%s holds no rows", name)
	}
	return out
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatalf("reading a check value: %v", err)
	}
	return x
}

// digit is the worth of the last digit that was printed.
func digit(s string) float64 {
	if _, frac, ok := strings.Cut(s, "."); ok {
		return math.Pow10(-len(frac))
	}
	return 1
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s is %.9g, want %.9g within %.2g", what, got, want, within)
	}
}

// part picks the rows of one part of one worked example; item to row.
func part(t *testing.T, rows []map[string]string, example, part string) map[string]map[string]string {
	t.Helper()
	out := map[string]map[string]string{}
	for _, r := range rows {
		if strings.HasPrefix(r["example"], example) && r["part"] == part {
			out[r["item"]] = r
		}
	}
	if len(out) == 0 {
		t.Fatalf("no rows of %s, %s", example, part)
	}
	return out
}

// agree holds a table against the printed one. scale is the printed unit in
// grams. A printed weight may be off by half its last digit, and a sum or a
// percentage by the printed roundings it was reckoned from.
func agree(t *testing.T, got Table, want map[string]map[string]string, scale float64) {
	t.Helper()
	rows := append([]Row{}, got.Rows...)
	total := got.Total
	total.Name = "TOTAL"
	rows = append(rows, total)
	if len(rows) != len(want) {
		t.Errorf("%d rows, want %d", len(rows), len(want))
	}
	for _, r := range rows {
		w, ok := want[r.Name]
		if !ok {
			t.Errorf("row %q is not in print", r.Name)
			continue
		}
		within := digit(w["amount"])
		near(t, r.Name+" weight", float64(r.Grams)/scale, number(t, w["amount"]), within*1.1)
		if p := w["bakers_percent"]; p != "" {
			near(t, r.Name+" percent", float64(r.Percent), number(t, p), digit(p)/2+0.06)
		}
	}
}

// Source: www.artisanbakers.com/percentage.html.
func pounds(lb float64) Grams { return Grams(lb) * GramsPerPound }

func TestLeanDoughInPounds(t *testing.T) {
	rows := table(t, "bakers_percentages.csv")
	f := Formula{Lines: []Ingredient{
		{Name: "flour", Role: Flour, Grams: pounds(5)},
		{Name: "water", Role: Water, Grams: pounds(3.25)},
		{Name: "salt", Role: Salt, Grams: pounds(0.1)},
		{Name: "yeast", Role: Yeast, Grams: pounds(0.1)},
	}}
	pound := float64(GramsPerPound)
	agree(t, f.FinalDough(WithCulture), part(t, rows, "E1 lean", "overall"), pound)

	scaled, err := f.ScaleToDough(pounds(3))
	if err != nil {
		t.Fatal(err)
	}
	agree(t, scaled.FinalDough(WithCulture), part(t, rows, "E1 scaled", "overall"), pound)
}

// Source: dawghousebakery.com, calculating dough yield.
func TestBaguettesFromPercentages(t *testing.T) {
	f := Formula{Lines: []Ingredient{
		{Name: "flour", Role: Flour, Grams: 100},
		{Name: "water", Role: Water, Grams: 80},
		{Name: "salt", Role: Salt, Grams: 2},
	}}
	f, err := f.ScaleToLoaves(4, 335)
	if err != nil {
		t.Fatal(err)
	}
	agree(t, f.FinalDough(WithCulture), part(t, table(t, "bakers_percentages.csv"), "E2", "overall"), 1)
}

// Source: bakemag.com article 10808, a miche with two preferments. It leaves
// the seed cultures out of the flour, so that basis is asked for.
func TestMicheWithTwoPreferments(t *testing.T) {
	rows := table(t, "bakers_percentages.csv")
	f := miche()
	agree(t, f.Levains[0].BuildTable(WithoutCulture), rename(part(t, rows, "E4", "levain"), "culture", "levain culture"), 1000)
	agree(t, f.Levains[1].BuildTable(WithoutCulture), rename(part(t, rows, "E4", "rye sour"), "culture", "rye culture"), 1000)
	agree(t, f.FinalDough(WithoutCulture), part(t, rows, "E4", "final dough"), 1000)

	near(t, "levain inoculation", float64(f.Levains[0].Metrics().Inoculation), 2.5, 0.05)
	near(t, "rye inoculation", float64(f.Levains[1].Metrics().Inoculation), 5, 0.05)
}

func rename(m map[string]map[string]string, from, to string) map[string]map[string]string {
	m[to] = m[from]
	delete(m, from)
	return m
}

func miche() Formula {
	return Formula{
		Lines: []Ingredient{
			{Name: "white flour", Role: Flour, Grams: 7222},
			{Name: "whole rye", Role: Flour, Grams: 413, Wholegrain: 100},
			{Name: "whole wheat", Role: Flour, Grams: 516, Wholegrain: 100},
			{Name: "water", Role: Water, Grams: 3128},
			{Name: "beer", Role: Liquid, Grams: 3095, WaterShare: 92},
			{Name: "salt", Role: Salt, Grams: 206},
			{Name: "yeast", Role: Yeast, Grams: 41},
		},
		Levains: []Levain{
			{Name: "levain", Lines: []Ingredient{
				{Name: "white flour", Role: Flour, Grams: 1032},
				{Name: "water", Role: Water, Grams: 1032},
				{Name: "levain culture", Role: Culture, Grams: 26},
			}},
			{Name: "rye sour", Lines: []Ingredient{
				{Name: "whole rye", Role: Flour, Grams: 1135, Wholegrain: 100},
				{Name: "water", Role: Water, Grams: 999},
				{Name: "rye culture", Role: Culture, Grams: 57, Wholegrain: 100},
			}},
		},
	}
}

// Source: thefreshloaf.com node 69688: 1000 flour, 750 water and 200 of levain
// at 100 % are in truth 1100 flour and 850 water, 77.27 %.
func TestCultureCountsTowardHydration(t *testing.T) {
	rows := part(t, table(t, "bakers_percentages.csv"), "E5", "final dough")
	f := Formula{Lines: []Ingredient{
		{Name: "flour", Role: Flour, Grams: 1000},
		{Name: "water", Role: Water, Grams: 750},
		{Name: "levain", Role: Culture, Grams: 200, Hydration: 100},
	}}
	fig := f.Metrics()
	near(t, "flour", float64(fig.Flour), number(t, rows["TRUE flour"]["amount"]), 1e-9)
	near(t, "water", float64(fig.Water), number(t, rows["TRUE water"]["amount"]), 1e-9)
	near(t, "hydration", float64(fig.Hydration), number(t, rows["TRUE water"]["bakers_percent"]), 5e-5)
	near(t, "hydration without the culture", float64(fig.HydrationWeighed), 75, 1e-9)
	near(t, "inoculation", float64(fig.Inoculation), 20, 1e-9)
	near(t, "prefermented flour", float64(fig.Prefermented), 100.0/11, 1e-9)
}

// Sources per row: San Francisco Baking Institute class notes, pizzatoday
// 2018-06, and the base printed at sourflour.org.
func TestWaterTemperatureAgreesWithPrint(t *testing.T) {
	seen := 0
	for _, r := range table(t, "dough_temperature.csv") {
		if r["water_expected"] == "" { // the friction rule, checked below
			continue
		}
		seen++
		f := Factors{Flour: fahrenheit(t, r["flour"]), Room: fahrenheit(t, r["room"])}
		if r["factor_count"] == "4" {
			f.Levain, f.HasLevain = fahrenheit(t, r["preferment"]), true
		}
		friction := FahrenheitDiff(number(t, r["friction"])).Celsius()
		got := WaterTemperature(fahrenheit(t, r["DDT"]), f, friction)
		near(t, r["id"]+" water in °F", float64(got.Fahrenheit()), number(t, r["water_expected"]), 1e-9)
		near(t, r["id"]+" friction back", float64(Friction(fahrenheit(t, r["DDT"]), f, got)), float64(friction), 1e-9)
	}
	if seen != 3 {
		t.Errorf("%d rows with a water temperature, want 3", seen)
	}

	// The friction rule is printed at pmq.com, In Lehmann's Terms, spring 2003;
	// the numbers are arithmetic: 3 x 79 - (70 + 68 + 75) = 24 °F.
	got := Friction(Fahrenheit(79).Celsius(), Factors{Flour: Fahrenheit(68).Celsius(), Room: Fahrenheit(70).Celsius()}, Fahrenheit(75).Celsius())
	near(t, "friction in °F", float64(got.Fahrenheit()), 24, 1e-9)
}

func fahrenheit(t *testing.T, s string) Celsius {
	t.Helper()
	return Fahrenheit(number(t, s)).Celsius()
}

// The printed table errs by up to 0.0056 against the exact formula.
func TestIceAgreesWithThePrintedTable(t *testing.T) {
	for _, r := range table(t, "ice.csv") {
		got := iceShare(fahrenheit(t, r["tap_F"]), fahrenheit(t, r["wanted_F"]))
		what := "ice from " + r["tap_F"] + " to " + r["wanted_F"] + " °F"
		near(t, what+", exact", got, number(t, r["formula_(tap-wanted)/(tap+112)"]), 5e-5)
		near(t, what+", printed", got, number(t, r["ice_lb_per_lb_water_PRINTED"]), 0.006)
	}
}

func TestFlourTypesAgreeWithTheList(t *testing.T) {
	systems := map[string]System{
		"DIN 10355": German, "France 13 Jul 1963": French, "France": French, "Italy DPR 187/2001": Italian,
	}
	bound := func(s string) Percent {
		if s == "" {
			return 0
		}
		return Percent(number(t, s))
	}
	rows := table(t, "flour_types.csv")
	if len(rows) != len(flourTypes) {
		t.Errorf("%d types, want %d", len(flourTypes), len(rows))
	}
	for _, r := range rows {
		found := false
		for _, ft := range FlourTypes() {
			if ft.System != systems[r["system"]] || ft.Grain != strings.TrimPrefix(r["grain"], "soft ") || ft.Name != r["type"] {
				continue
			}
			found = true
			if ft.AshMin != bound(r["ash_min_pct_dm"]) || ft.AshMax != bound(r["ash_max_pct_dm"]) || ft.ProteinMin != bound(r["protein_min_pct_dm"]) {
				t.Errorf("%s %s: %+v, want %v", ft.System, ft.Name, ft, r)
			}
			if ft.FromMemory != (r["status"] == "FROM MEMORY") {
				t.Errorf("%s %s: from memory is %v, want status %s", ft.System, ft.Name, ft.FromMemory, r["status"])
			}
			if !ft.FromMemory && ft.Source == "" {
				t.Errorf("%s %s names no source", ft.System, ft.Name)
			}
		}
		if !found {
			t.Errorf("no type %s %s %s", r["system"], r["grain"], r["type"])
		}
	}
}

func TestUnitsAreExact(t *testing.T) {
	want := map[string]float64{
		"1 oz (avdp)": float64(GramsPerOunce), "1 lb": float64(GramsPerPound),
		"40 F": math.Round(float64(Fahrenheit(40).Celsius())*100) / 100,
	}
	seen := 0
	for _, r := range table(t, "units.csv") {
		if got, ok := want[r["quantity"]]; ok {
			seen++
			near(t, r["quantity"], got, number(t, r["value"]), 1e-12*got)
		}
	}
	if seen != len(want) {
		t.Errorf("%d units checked, want %d", seen, len(want))
	}
	near(t, "-40 °F", float64(Fahrenheit(-40).Celsius()), -40, 0)
	near(t, "difference of 9 °F", float64(FahrenheitDiff(9).Celsius()), 5, 0)
}

func TestBothListsAreComplete(t *testing.T) {
	entriesOn := func(l List) map[string]bool {
		out := map[string]bool{}
		for _, a := range Allergens() {
			if e, ok := a.On(l); ok {
				out[e] = true
			}
		}
		return out
	}
	us, eu := entriesOn(USNine), entriesOn(EUFourteen)
	if len(us) != 9 || len(eu) != 14 {
		t.Errorf("%d US and %d EU entries, want 9 and 14", len(us), len(eu))
	}
	for _, r := range table(t, "allergens.csv") {
		have := us
		if strings.HasPrefix(r["list"], "EU") {
			have = eu
		}
		found := false
		for e := range have {
			found = found || strings.HasPrefix(r["allergen"], e)
		}
		if !found {
			t.Errorf("%s: no entry for %q", r["list"], r["allergen"])
		}
	}
	for _, a := range []Allergen{Rye, Barley, Oats} {
		if _, ok := a.On(USNine); ok {
			t.Errorf("%s stands on the US list", a)
		}
		if e, _ := a.On(EUFourteen); e != gluten {
			t.Errorf("%s is %q in the EU, want %q", a, e, gluten)
		}
	}
}
