package charts_test

import (
	"image/color"
	"math"
	"sync"
	"testing"

	"twinloaf/charts"
)

// Where a mark says a point lies, the picture has the series' colour.
func TestMarksLieOnTheDrawnPoints(t *testing.T) {
	p := charts.LightPalette()
	f := charts.Plot{Panels: []charts.Panel{{Layers: []charts.Layer{
		charts.Series{Name: "a", Look: charts.SeriesStyle{Hue: 0}, X: []float64{1, 2, 3, 4}, Y: []float64{1, 7, 3, 9}},
		charts.Series{Name: "b", Look: charts.SeriesStyle{Hue: 2, Shape: charts.Square}, X: []float64{1, 2, 3}, Y: []float64{5, 2, 6}},
		charts.Series{Name: "c", Look: charts.SeriesStyle{Hue: 1, Shape: charts.Diamond}, X: []float64{1.5, 2.5}, Y: []float64{4, 8}, Draw: charts.Points},
	}}}}
	for _, scale := range []float64{1, 1.5, 2, 3} {
		pic := drawn(t, f, int(400*scale), int(300*scale), scale)
		if len(pic.Marks) != 9 {
			t.Fatalf("%d marks, want 9", len(pic.Marks))
		}
		hues := map[string]color.NRGBA{"a": p.Series[0], "b": p.Series[2], "c": p.Series[1]}
		for _, m := range pic.Marks {
			got := pic.Image.RGBAAt(int(m.X), int(m.Y))
			want := hues[m.Series]
			if got != (color.RGBA{R: want.R, G: want.G, B: want.B, A: 255}) {
				t.Errorf("scale %v: at the mark %q (%.1f, %.1f) the picture is %v, want %v", scale, m.Text, m.X, m.Y, got, want)
			}
			found, ok := pic.At(m.X+3*scale, m.Y-2*scale)
			if !ok || found.Series != m.Series || found.Index != m.Index {
				t.Errorf("scale %v: pointing near %q finds %q", scale, m.Text, found.Text)
			}
		}
		if m, ok := pic.At(-1000, -1000); ok {
			t.Errorf("pointing nowhere finds %q", m.Text)
		}
	}
}

// Positions are in proportion to the values.
func TestPointsLieInProportion(t *testing.T) {
	pic := drawn(t, line([]float64{0, 1, 3}, []float64{10, 20, 40}), 500, 300, 1)
	m := pic.Marks
	if got := (m[2].X - m[0].X) / (m[1].X - m[0].X); math.Abs(got-3) > 1e-9 {
		t.Errorf("X distances are as %v to 1, want 3 to 1", got)
	}
	if got := (m[2].Y - m[0].Y) / (m[1].Y - m[0].Y); math.Abs(got-3) > 1e-9 {
		t.Errorf("Y distances are as %v to 1, want 3 to 1", got)
	}
	if m[2].Y >= m[0].Y {
		t.Error("the greater value is not the higher")
	}
}

func TestMarksOfAreasAreHitWithin(t *testing.T) {
	for name, f := range map[string]charts.Spec{"bars": months(), "lying bars": flours(), "spark": spark(), "year": year()} {
		pic := drawn(t, f, 700, 200, 1)
		for _, m := range pic.Marks {
			if m.Area.Empty() {
				t.Fatalf("%s: %q has no area", name, m.Text)
			}
			x, y := float64(m.Area.Min.X+m.Area.Max.X)/2, float64(m.Area.Min.Y+m.Area.Max.Y)/2
			if got, ok := pic.At(x, y); !ok || got.Index != m.Index {
				t.Errorf("%s: pointing into %q finds %q", name, m.Text, got.Text)
			}
		}
	}
}

func TestMarksSayTheirValues(t *testing.T) {
	zone := berlin(t)
	for _, c := range []struct {
		figure charts.Spec
		index  int
		want   string
	}{
		{firstWeeks(100), 2, "Gorse, day of age 3: 1.90×"},
		{pairs(), 0, "Gorse, Sour: 6.4"},
		{slopes(), 0, "Harbour 4, Gorse 6 (3 alike)"},
		{months(), 1, "Feb, 18"},
		{spark(), 0, "56 to 60: 2"},
		{plan(zone), 0, "Two loaves, bulk, Sat 28\u00a0Mar 08:00 to Sat 28\u00a0Mar 12:30 as planned"},
		{riseCurve(zone), 141 + 1, "readings, Sat 24\u00a0Oct 22:00: 1.05×"},
		{year(), 0, "Thu 1\u00a0January: 1"},
	} {
		pic := drawn(t, c.figure, 900, 400, 1)
		if c.index >= len(pic.Marks) {
			t.Errorf("no mark %d for %q", c.index, c.want)
			continue
		}
		if got := pic.Marks[c.index].Text; got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}

func TestSummaries(t *testing.T) {
	for _, c := range []struct {
		figure charts.Spec
		want   string
	}{
		{charts.Pairs{A: pairs().A, B: pairs().B, Rows: pairs().Rows[:1]}, "Sour: Gorse 6.4, Harbour 4.2 (p 0.03)."},
		{slopes(), "Sour, each taster. 7 pairs: Gorse is higher in 5, Harbour in 1, equal in 1."},
		{spark(), "Hydration, 84 of 96 between 64 and 88."},
		{months(), "Loaves each month. 11 bars, the greatest Mar with 22."},
		{charts.Calendar{Year: 2026}, "2026: nothing yet."},
		{line([]float64{1, 2, 3}, []float64{5, missing, 2}), "S: 2 values from 1 to 3, between 2 and 5, the last 2."},
	} {
		chart, err := charts.New(c.figure, style(t, charts.LightPalette()))
		if err != nil {
			t.Fatal(err)
		}
		if got := chart.Summary(); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}

// A chart may be drawn from several goroutines; all see the same picture.
func TestOneChartManyGoroutines(t *testing.T) {
	chart, err := charts.New(firstWeeks(3000), style(t, charts.DarkPalette()))
	if err != nil {
		t.Fatal(err)
	}
	want, err := chart.Image(500, 400, 1)
	if err != nil {
		t.Fatal(err)
	}
	var wg sync.WaitGroup
	for range 8 {
		wg.Go(func() {
			got, err := chart.Image(500, 400, 1)
			if err != nil || string(got.Image.Pix) != string(want.Image.Pix) {
				t.Errorf("the pictures differ (%v)", err)
			}
		})
	}
	wg.Wait()
}

func BenchmarkFirstWeeks(b *testing.B) {
	chart, err := charts.New(firstWeeks(20000), style(b, charts.LightPalette()))
	if err != nil {
		b.Fatal(err)
	}
	for _, scale := range []int{1, 2} {
		b.Run(map[int]string{1: "1x", 2: "2x"}[scale], func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := chart.Image(1052*scale, 560*scale, float64(scale)); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
