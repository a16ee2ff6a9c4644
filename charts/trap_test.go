package charts_test

import (
	"bytes"
	"encoding/csv"
	"encoding/xml"
	"errors"
	"image"
	"io"
	"math"
	"slices"
	"strings"
	"testing"

	"twinloaf/charts"
)

func line(x, y []float64) charts.Spec {
	return charts.Plot{Panels: []charts.Panel{{Layers: []charts.Layer{charts.Series{Name: "s", X: x, Y: y}}}}}
}

func fixed(y charts.Axis, ys ...float64) charts.Spec {
	x := make([]float64, len(ys))
	for i := range x {
		x[i] = float64(i)
	}
	return charts.Plot{Panels: []charts.Panel{{Y: y, Layers: []charts.Layer{
		charts.Series{Name: "s", X: x, Y: ys}, charts.Ribbon{X: x, Low: ys, High: ys}, charts.Series{X: x, Y: ys, Draw: charts.Line},
	}}}}
}

// The data that make go-chart's own charts fail, panic or hang.
func TestTrapsAreDrawn(t *testing.T) {
	inf := math.Inf(1)
	for _, c := range []struct {
		name   string
		figure charts.Spec
		points int // marks expected
	}{
		{"words alone", charts.Plot{Empty: "No sizes can be shown."}, 0},
		{"no layers", charts.Plot{Panels: []charts.Panel{{}}}, 0},
		{"empty series", line(nil, nil), 0},
		{"one point", line([]float64{3}, []float64{4}), 1},
		{"one point at zero", line([]float64{0}, []float64{0}), 1},
		{"all alike", line([]float64{1, 1, 1}, []float64{2, 2, 2}), 3},
		{"equal Y", line([]float64{1, 2, 3}, []float64{5, 5, 5}), 3},
		{"equal X", line([]float64{1, 1, 1}, []float64{5, 6, 7}), 3},
		{"NaN in Y", line([]float64{1, 2, 3}, []float64{5, missing, 7}), 2},
		{"NaN in X", line([]float64{1, missing, 3}, []float64{5, 6, 7}), 2},
		{"all NaN", line([]float64{1, 2}, []float64{missing, missing}), 0},
		{"Inf", line([]float64{1, 2, inf, 4}, []float64{-inf, inf, 5, 6}), 1},
		{"greatest floats", line([]float64{1, 2}, []float64{math.MaxFloat64, -math.MaxFloat64}), 0},
		{"huge beside small", line([]float64{1, 2}, []float64{1e15, 1e-9}), 2},
		{"smallest floats", line([]float64{0, 5e-324}, []float64{5e-324, 0}), 2},
		{"NaN with a fixed range", fixed(charts.Axis{Min: 1, Max: 2}, 1.5, missing, 1.7), 4},
		{"a hundred thousand times over a fixed range", fixed(charts.Axis{Min: 0, Max: 1}, 0.5, 1e5, 0.5), 4},
		{"a billion times over a fixed range", fixed(charts.Axis{Min: 0, Max: 1}, 0.5, 1e9, -1e14, 0.5), 4},
		{"descending X", line([]float64{3, 2, 1}, []float64{1, 2, 3}), 3},
		{"one bar", charts.Bars{Bars: []charts.Bar{{Name: "a", Value: 3}}}, 1},
		{"bars of zero", charts.Bars{Bars: []charts.Bar{{Name: "a"}, {Name: "b"}}}, 2},
		{"bars with NaN and below zero", charts.Bars{Bars: []charts.Bar{{Name: "a", Value: missing}, {Name: "b", Value: -2}, {Name: "c", Value: 1}}}, 2},
		{"no bars", charts.Bars{}, 0},
		{"spark of zeros", charts.Spark{Edges: []float64{0, 1, 2}, Counts: []float64{0, missing}}, 2},
		{"no spark", charts.Spark{}, 0},
		{"groups without values", charts.Groups{Groups: []charts.Group{{Name: "a"}, {Name: "b", Values: []float64{1}}}}, 1},
		{"pairs outside the scale", charts.Pairs{Rows: []charts.Pair{{Name: "a", A: 99, B: 3}, {Name: "b", A: missing, B: inf}}}, 1},
		{"slopes with a gap", charts.Slopes{Pairs: [][2]float64{{1, 2}, {missing, 2}}}, 2},
		{"lane without length", charts.Lanes{Lanes: []charts.Lane{{Name: "a", Blocks: []charts.Block{{From: 2, To: 2}}}}}, 1},
		{"leap year", charts.Calendar{Year: 2028}, 366},
		{"common year", charts.Calendar{Year: 2026, Counts: []int{1, 0, 9000}}, 365},
		{"year until 4 March", charts.Calendar{Year: 2026, Days: 63}, 63},
		{"more days than the year has", charts.Calendar{Year: 2026, Days: 400}, 365},
	} {
		t.Run(c.name, func(t *testing.T) {
			pic := drawn(t, c.figure, 400, 300, 1)
			if len(pic.Marks) != c.points {
				t.Errorf("%d marks, want %d: %v", len(pic.Marks), c.points, pic.Marks)
			}
		})
	}
}

func TestContradictionsAreRefused(t *testing.T) {
	for name, f := range map[string]charts.Spec{
		"nothing":                charts.Spec(nil),
		"no panels":              charts.Plot{},
		"more X than Y":          line([]float64{1, 2}, []float64{1}),
		"more Y than X":          line([]float64{1}, []float64{1, 2}),
		"flags that do not fit":  charts.Plot{Panels: []charts.Panel{{Layers: []charts.Layer{charts.Series{X: []float64{1}, Y: []float64{1}, LeftOut: []bool{}}}}}},
		"ribbon that tapers":     charts.Plot{Panels: []charts.Panel{{Layers: []charts.Layer{charts.Ribbon{X: []float64{1}, Low: []float64{1}}}}}},
		"edges that fall":        charts.Plot{Panels: []charts.Panel{{Layers: []charts.Layer{charts.Bins{Edges: []float64{2, 1}, Counts: []float64{1}}}}}},
		"as many edges as bins":  charts.Spark{Edges: []float64{1}, Counts: []float64{1}},
		"missing layer":          charts.Plot{Panels: []charts.Panel{{Layers: []charts.Layer{nil}}}},
		"range that is NaN":      fixed(charts.Axis{Min: missing, Max: 1}, 1),
		"range back to front":    fixed(charts.Axis{Min: 2, Max: 1}, 1),
		"range of no width":      fixed(charts.Axis{Min: 1, Max: 1 + 1e-15}, 1),
		"band that ends early":   charts.Plot{Panels: []charts.Panel{{Layers: []charts.Layer{charts.Band{From: 2, To: 1}}}}},
		"level nowhere":          charts.Plot{Panels: []charts.Panel{{Layers: []charts.Layer{charts.Level{At: missing}}}}},
		"block that ends early":  charts.Lanes{Lanes: []charts.Lane{{Blocks: []charts.Block{{From: 2, To: 1}}}}},
		"a day too many":         charts.Calendar{Year: 2026, Counts: make([]int, 366)},
		"fewer loaves than none": charts.Calendar{Year: 2026, Counts: []int{-1}},
		"fewer days than none":   charts.Calendar{Year: 2026, Days: -1},
	} {
		if _, err := charts.New(f, style(t, charts.LightPalette())); !errors.Is(err, charts.ErrFigure) {
			t.Errorf("%s: got %v, want an error that is ErrFigure", name, err)
		}
	}
	if _, err := charts.New(line(nil, nil), charts.Style{}); !errors.Is(err, charts.ErrFigure) {
		t.Errorf("a style without fonts: got %v", err)
	}
	if _, err := charts.NewStyle(charts.LightPalette(), []byte("no font"), nil); err == nil {
		t.Error("a font that is none was taken")
	}
}

func TestSizesAreChecked(t *testing.T) {
	chart, err := charts.New(pairs(), style(t, charts.LightPalette()))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		w, h  int
		scale float64
		ok    bool
	}{
		{1, 1, 1, true}, {10, 10, 1, true}, {40, 2000, 1, true}, {2000, 12, 2, true}, {300, 200, 0.25, true},
		{0, 10, 1, false}, {10, -1, 1, false}, {100000, 10, 1, false}, {16000, 16000, 1, false},
		{100, 100, 0, false}, {100, 100, math.NaN(), false}, {100, 100, math.Inf(1), false},
	} {
		pic, err := chart.Image(c.w, c.h, c.scale)
		if c.ok && (err != nil || pic.Image.Rect != image.Rect(0, 0, c.w, c.h)) {
			t.Errorf("%d by %d at %v: %v", c.w, c.h, c.scale, err)
		}
		if !c.ok && !errors.Is(err, charts.ErrSize) {
			t.Errorf("%d by %d at %v: got %v, want ErrSize", c.w, c.h, c.scale, err)
		}
	}
	var svg bytes.Buffer
	if err := chart.SVG(&svg, -1, 5); !errors.Is(err, charts.ErrSize) || svg.Len() > 0 {
		t.Errorf("SVG of no size: %v, and %d bytes written", err, svg.Len())
	}
}

// Every figure of the gallery fits sizes from a thumbnail to a poster.
func TestFiguresFitAnySize(t *testing.T) {
	for _, e := range gallery(t) {
		for _, size := range [][2]int{{3, 3}, {60, 40}, {120, 90}, {240, 60}, {90, 500}, {1800, 200}} {
			pic := drawn(t, e.figure, size[0], size[1], 1)
			for _, m := range pic.Marks {
				if !image.Pt(int(m.X), int(m.Y)).In(pic.Image.Rect.Inset(-2)) {
					t.Errorf("%s at %v: the mark %q lies at (%.1f, %.1f)", e.name, size, m.Text, m.X, m.Y)
				}
			}
		}
	}
}

func TestTextIsSafeInSVGAndCSV(t *testing.T) {
	nasty := "</text><script>alert(1)</script> & \"<\x00\x1b\n=1+1"
	formula := `=HYPERLINK("x")`
	f := charts.Plot{X: charts.Axis{Title: nasty}, Panels: []charts.Panel{{Title: nasty, Layers: []charts.Layer{
		charts.Series{Name: formula, X: []float64{1, 2}, Y: []float64{-3, 4}, Notes: []string{"+1", "@x"}},
		charts.Band{From: 1, To: 2, Label: nasty},
	}}}}
	chart, err := charts.New(f, style(t, charts.LightPalette()))
	if err != nil {
		t.Fatal(err)
	}
	var svg bytes.Buffer
	if err := chart.SVG(&svg, 500, 300); err != nil {
		t.Fatal(err)
	}
	parseSVG(t, svg.Bytes())
	if bytes.Contains(svg.Bytes(), []byte("<script")) {
		t.Error("markup in a title got into the SVG")
	}
	rows := readCSV(t, chart)
	for _, want := range []string{"'" + formula, "'+1", "'@x", "-3"} {
		if !holds(rows, want) {
			t.Errorf("the CSV has no cell %q: %q", want, rows)
		}
	}
	if holds(rows, formula) {
		t.Error("a formula got into the CSV")
	}
}

func holds(rows [][]string, cell string) bool {
	for _, r := range rows {
		for _, c := range r {
			if c == cell {
				return true
			}
		}
	}
	return false
}

// drawn draws a figure every way there is and checks what holds for all.
func drawn(t testing.TB, f charts.Spec, w, h int, scale float64) charts.Picture {
	t.Helper()
	chart, err := charts.New(f, style(t, charts.LightPalette()))
	if err != nil {
		t.Fatal(err)
	}
	pic, err := chart.Image(w, h, scale)
	if err != nil {
		t.Fatal(err)
	}
	var svg bytes.Buffer
	if err := chart.SVG(&svg, w, h); err != nil {
		t.Fatal(err)
	}
	parseSVG(t, svg.Bytes())
	readCSV(t, chart)
	if strings.TrimSpace(chart.Summary()) == "" {
		t.Error("the summary says nothing")
	}
	return pic
}

// parseSVG wants well-formed XML in which every shape and text carries its own look:
// not every program that shows drawings reads style sheets.
func parseSVG(t testing.TB, svg []byte) {
	t.Helper()
	d := xml.NewDecoder(bytes.NewReader(svg))
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return
		}
		if err != nil {
			t.Fatalf("the SVG is not XML: %v\n%s", err, svg)
		}
		e, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		styled := slices.ContainsFunc(e.Attr, func(a xml.Attr) bool { return a.Name.Local == "style" && strings.Contains(a.Value, "fill:") })
		switch e.Name.Local {
		case "path", "circle", "text":
			if !styled {
				t.Fatalf("a %s has no look of its own: %v", e.Name.Local, e.Attr)
			}
		case "style":
			t.Fatal("the drawing has a style sheet")
		}
	}
}

func readCSV(t testing.TB, chart *charts.Chart) [][]string {
	t.Helper()
	var b bytes.Buffer
	if err := chart.CSV(&b); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(strings.NewReader(strings.TrimPrefix(b.String(), "\uFEFF"))).ReadAll()
	if err != nil {
		t.Fatalf("the CSV cannot be read back: %v", err)
	}
	return rows
}
