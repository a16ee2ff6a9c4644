package bakes

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"fyne.io/fyne/v2"

	"twinloaf/journal/formula"
)

// printed is a row of testdata/formula/bakers_percentages.csv: an amount as it
// was printed and its baker's percentage. Its sources stand in the file.
type printed struct {
	item, amount, unit string
	percent            float64
}

// readPrinted gives the rows of one example that are to be weighed, by its name.
func readPrinted(t *testing.T) map[string][]printed {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "formula", "bakers_percentages.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	out := map[string][]printed{}
	for _, r := range rows[1:] {
		percent, err := strconv.ParseFloat(r[5], 64)
		if r[1] != "overall" || r[2] == "TOTAL" || err != nil {
			continue
		}
		out[r[0]] = append(out[r[0]], printed{r[2], r[3], r[4], percent})
	}
	return out
}

// TestPercentagesAgreeWithPrint types published formulas on the page of a new bake,
// in the units in which they were printed, and compares the percentages shown.
func TestPercentagesAgreeWithPrint(t *testing.T) {
	checked := 0
	for name, rows := range readPrinted(t) {
		if rows[0].percent != 100 {
			continue // its flour is printed as several lines whose sum is 100: see journal/formula
		}
		t.Run(name, func(t *testing.T) {
			b := bench(t)
			p := open(b, "")
			b.Press("I")
			for _, r := range rows {
				write(b, r.item)
				press(b, fyne.KeyTab)
				write(b, r.amount+" "+r.unit)
				press(b, fyne.KeyTab)
			}
			m := p.rec.Mix()
			if len(m.Ingredients) != len(rows) {
				t.Fatalf("%d lines were typed, %d are there", len(rows), len(m.Ingredients))
			}
			for i, r := range rows {
				got, ok := p.dough.Final().Percent(m.Ingredients[i].ID)
				// Amounts are printed to about four digits.
				if !ok || math.Abs(float64(got)-r.percent) > 0.02 {
					t.Errorf("%s, %s %s: shows %g %%, printed %g %%", r.item, r.amount, r.unit, float64(got), r.percent)
				}
				checked++
			}
			if got := m.Formula().Metrics().Hydration; rows[1].item == "water" && math.Abs(float64(got)-rows[1].percent) > 0.02 {
				t.Errorf("hydration %g %%, printed %g %%", float64(got), rows[1].percent)
			}
		})
	}
	if checked < 10 {
		t.Errorf("only %d rows were checked", checked)
	}
}

// TestHydrationCountsTheCulture checks the two counts against arithmetic: 100 g of
// a culture at 100 % are 50 g of flour and 50 g of water.
func TestHydrationCountsTheCulture(t *testing.T) {
	b := bench(t)
	p := open(b, "")
	b.Press("I")
	for _, line := range [][2]string{{"flour", "450"}, {"water", "300"}, {"levain", "100"}} {
		write(b, line[0])
		press(b, fyne.KeyTab)
		write(b, line[1])
		press(b, fyne.KeyTab)
	}
	for f, want := range map[formula.Metric]string{
		formula.FigureHydration:    "70.0\u00a0%", // (300+50) / (450+50)
		formula.FigureWeighed:      "66.7\u00a0%", // 300 / 450
		formula.FigurePrefermented: "10\u00a0%",   // 50 / (450+50)
	} {
		if got := p.figures.readouts[f].String(); got != want {
			t.Errorf("%s shows %q, want %q", f, got, want)
		}
	}
}
