package charts_test

import (
	"math"
	"os"
	"testing"
	"time"

	"twinloaf/charts"
)

var missing = math.NaN()

// styles are of three series, each by its colour and its shape.
var styles = [3]charts.SeriesStyle{{}, {Hue: 1, Shape: 1, Hollow: true}, {Hue: 2, Shape: 2}}

// style reads the fonts the program is shipped with.
func style(t testing.TB, p charts.Palette) charts.Style {
	t.Helper()
	regular, err := os.ReadFile("../assets/fonts/TwinloafText-Regular.ttf")
	if err != nil {
		t.Fatal(err)
	}
	bold, err := os.ReadFile("../assets/fonts/TwinloafText-SemiBold.ttf")
	if err != nil {
		t.Fatal(err)
	}
	s, err := charts.NewStyle(p, regular, bold)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func berlin(t testing.TB) *time.Location {
	t.Helper()
	zone, err := time.LoadLocation("Europe/Berlin")
	if err != nil {
		t.Fatal(err)
	}
	return zone
}

// exhibit is a figure of the gallery: pictures to look at, golden files, and
// what the properties are tried on.
type exhibit struct {
	name          string
	figure        charts.Spec
	width, height int
}

func gallery(t testing.TB) []exhibit {
	zone := berlin(t)
	return []exhibit{
		{"weeks", firstWeeks(20000), 1052, 560},
		{"rise", riseCurve(zone), 760, 320},
		{"trend", trend(), 520, 360},
		{"histogram", histogram(), 520, 420},
		{"groups", groups(), 520, 320},
		{"pairs", pairs(), 540, 260},
		{"slopes", slopes(), 360, 320},
		{"months", months(), 560, 220},
		{"flours", flours(), 320, 200},
		{"spark", spark(), 184, 48},
		{"bakes", bakes(), 860, 260},
		{"plan", plan(zone), 860, 160},
		{"year", year(), 860, 160},
		{"empty", charts.Plot{Panels: []charts.Panel{{Title: "Rise"}}, Empty: "No readings yet. Take the first an hour after feeding."}, 520, 160},
	}
}

func ramp(from, to, step float64) []float64 {
	var out []float64
	for i := 0; from+float64(i)*step <= to+1e-9; i++ {
		out = append(out, from+float64(i)*step)
	}
	return out
}

func each(xs []float64, f func(float64) float64) []float64 {
	out := make([]float64, len(xs))
	for i, x := range xs {
		out[i] = f(x)
	}
	return out
}

// firstWeeks is two cultures over fourteen days, with a long temperature log.
func firstWeeks(rows int) charts.Plot {
	log := ramp(1, 12, 11/float64(rows-1))
	degrees := each(log, func(x float64) float64 {
		warm := 25.6
		if x > 6.3 {
			warm = 20.4
		}
		if x > 8.1 && x < 8.6 {
			return missing // the logger lay in a drawer
		}
		return warm + 1.2*math.Sin(x*2*math.Pi) + 0.2*math.Sin(x*401)
	})
	first, second := styles[1], styles[0]
	first.Shape, first.Hollow, second.Shape, second.Hollow = charts.Round, false, charts.Square, true
	return charts.Plot{
		X: charts.Axis{Title: "day of age", Whole: true},
		Panels: []charts.Panel{
			{
				Title: "Peak rise after each feeding", Height: 5, XHere: true,
				Y: charts.Axis{Ratio: true, Include: []float64{1, 3}},
				Layers: []charts.Layer{
					charts.Band{From: 3.4, To: 5.6, Label: "the usual lull"},
					charts.Level{At: 2, Label: "doubled"},
					charts.Events{Name: "feeding", X: ramp(1, 14, 1)},
					charts.Series{Name: "Gorse", Look: first, X: ramp(1, 12, 1),
						Y: []float64{1, 1.35, 1.9, 1.2, 1.08, 1.25, 1.5, 1.8, 1.95, 2.1, 2.05, 2.3}},
					charts.Series{Name: "Harbour", Look: second, X: ramp(1, 14, 1),
						Y: []float64{1, 1.1, 1.6, 1.5, 1.05, 1.1, 1.15, 1.4, 1.6, 1.7, 2, 2.2, 2.3, 2.45}},
				},
			},
			{
				Y:      charts.Axis{Unit: "°C"},
				Height: 1,
				Layers: []charts.Layer{charts.Series{Name: "kitchen", Look: charts.SeriesStyle{Hue: charts.Faint}, X: log, Y: degrees, Draw: charts.Line}},
			},
			{
				Title: "Smell", Y: charts.Axis{Title: "sour, 1 to 9", Min: 1, Max: 9}, Height: 1.2,
				Layers: []charts.Layer{
					charts.Series{Name: "Gorse", Look: first, X: ramp(1, 12, 1), Y: []float64{2, 2, missing, 3, 3, 4, 5, 5, 6, missing, 6, 7}},
					charts.Series{Name: "Harbour", Look: second, X: ramp(1, 14, 1), Y: []float64{1, 2, 3, 3, 4, 4, 4, 5, 5, 6, 6, 6, 7, 7}},
				},
			},
		},
	}
}

// riseCurve is readings of one night with the curve fitted to them; the clocks
// go back in that night.
func riseCurve(zone *time.Location) charts.Plot {
	start := charts.Seconds(time.Date(2026, time.October, 24, 20, 30, 0, 0, zone))
	curve := func(h float64) float64 { return 1 + 1.4*math.Exp(-math.Exp(1.2-0.42*h)) }
	hours := ramp(0, 14, 0.1)
	at := func(hs []float64) []float64 { return each(hs, func(h float64) float64 { return start + h*3600 }) }
	read := []float64{0, 1.5, 3, 4, 5.2, 6, 7.5, 9}
	rises := []float64{1, 1.05, 1.3, 1.42, 1.9, 1.78, 2.1, 2.2}
	left := make([]bool, len(read))
	left[4] = true
	return charts.Plot{
		X: charts.Axis{Zone: zone},
		Panels: []charts.Panel{{
			Title: "Rise since feeding",
			Y:     charts.Axis{Ratio: true, Include: []float64{1}},
			Layers: []charts.Layer{
				charts.Ribbon{Look: charts.SeriesStyle{Hue: 1}, X: at(hours), Low: each(hours, func(h float64) float64 { return curve(h) - 0.01*h }), High: each(hours, func(h float64) float64 { return curve(h) + 0.015*h })},
				charts.Series{Name: "fitted", Look: charts.SeriesStyle{Hue: 1}, X: at(hours), Y: each(hours, curve), Draw: charts.Line},
				charts.Series{Name: "readings", Look: charts.SeriesStyle{Hue: 1}, X: at(read), Y: rises, Draw: charts.Points, LeftOut: left},
				charts.Level{At: 2, Label: "doubled", Dashed: true},
			},
		}},
	}
}

func trend() charts.Plot {
	x := each(ramp(0, 39, 1), func(i float64) float64 { return 19 + 8*math.Mod(i*0.618, 1) })
	y := make([]float64, len(x))
	for i := range x {
		y[i] = 13 - 0.36*x[i] + 0.8*math.Sin(float64(i*i))
	}
	line := ramp(19, 27, 0.25)
	fit := func(v float64) float64 { return 13 - 0.36*v }
	room := func(v float64) float64 { return 0.25 + 0.02*(v-23)*(v-23) }
	return charts.Plot{
		X: charts.Axis{Title: "dough temperature, °C"},
		Panels: []charts.Panel{{
			Title: "Time to double", Y: charts.Axis{Title: "hours", Unit: "h"},
			Layers: []charts.Layer{
				charts.Ribbon{Look: charts.SeriesStyle{Hue: charts.Faint}, X: line, Low: each(line, func(v float64) float64 { return fit(v) - room(v) }), High: each(line, func(v float64) float64 { return fit(v) + room(v) })},
				charts.Series{Look: charts.SeriesStyle{Hue: charts.Ink}, X: line, Y: each(line, fit), Draw: charts.Line},
				charts.Series{Name: "Harbour", Look: styles[0], X: x[:20], Y: y[:20], Draw: charts.Points},
				charts.Series{Name: "Gorse", Look: styles[1], X: x[20:], Y: y[20:], Draw: charts.Points},
			},
		}},
	}
}

func histogram() charts.Plot {
	edges := ramp(0, 12, 1)
	a := []float64{4, 11, 18, 22, 17, 12, 7, 4, 2, 2, 1, 0}
	b := []float64{1, 3, 7, 11, 15, 18, 16, 12, 8, 5, 3, 1}
	total := func(n []float64) []float64 {
		sum, out := 0.0, []float64{0}
		for _, v := range n {
			sum += v
			out = append(out, sum/100)
		}
		return out
	}
	return charts.Plot{
		X: charts.Axis{Title: "pore size, mm"},
		Panels: []charts.Panel{
			{Title: "Pores", Y: charts.Axis{Title: "count"}, Height: 1, Layers: []charts.Layer{
				charts.Bins{Name: "Harbour", Look: styles[0], Edges: edges, Counts: a},
				charts.Bins{Name: "Gorse", Look: styles[1], Edges: edges, Counts: b},
			}},
			{Title: "Share no larger", Y: charts.Axis{Format: charts.Words{}.Percent, Min: 0, Max: 1}, Height: 1, Layers: []charts.Layer{
				charts.Series{Name: "Harbour", Look: styles[0], X: edges, Y: total(a), Draw: charts.Steps},
				charts.Series{Name: "Gorse", Look: styles[1], X: edges, Y: total(b), Draw: charts.Steps},
			}},
		},
	}
}

func groups() charts.Groups {
	return charts.Groups{
		Title: "Openness by flour", Y: charts.Axis{Include: []float64{0}},
		Groups: []charts.Group{
			{Name: "strong white", Look: styles[0], Values: each(ramp(0, 27, 1), func(i float64) float64 { return 0.40 + 0.07*math.Sin(i*1.7) })},
			{Name: "spelt", Look: styles[1], Values: each(ramp(0, 11, 1), func(i float64) float64 { return 0.33 + 0.05*math.Sin(i*2.3) })},
			{Name: "dark rye", Look: styles[2], Values: []float64{0.12, 0.15, missing, 0.18}},
		},
	}
}

func pairs() charts.Pairs {
	return charts.Pairs{
		A: charts.Side{Name: "Gorse", Look: charts.SeriesStyle{Hue: 1}},
		B: charts.Side{Name: "Harbour", Look: charts.SeriesStyle{Hue: 0, Shape: charts.Square}},
		Rows: []charts.Pair{
			{Name: "Sour", A: 6.4, B: 4.2, Note: "p 0.03", Strong: true},
			{Name: "Crust crispness", A: 5.1, B: 5.2},
			{Name: "Crumb chew", A: 5.6, B: 5},
			{Name: "Wheaty aroma", A: 4.8, B: 6.1},
			{Name: "Liking", A: 5.9, B: 6.6},
		},
	}
}

func slopes() charts.Slopes {
	return charts.Slopes{
		Title: "Sour, each taster", Y: charts.Axis{Min: 1, Max: 9, Whole: true},
		Left:  charts.Side{Name: "Harbour", Look: charts.SeriesStyle{Hue: 0, Shape: charts.Square}},
		Right: charts.Side{Name: "Gorse", Look: charts.SeriesStyle{Hue: 1}},
		Pairs: [][2]float64{{4, 6}, {3, 6}, {5, 5}, {4, 6}, {4, 7}, {6, 5}, {4, 6}, {2, missing}},
	}
}

func months() charts.Bars {
	out := charts.Bars{Title: "Loaves each month"}
	for i, n := range []float64{14, 18, 22, 16, 12, 9, 6, 8, 17, 21, 19, missing} {
		out.Bars = append(out.Bars, charts.Bar{Name: time.Month(i + 1).String()[:3], Value: n, Pale: i < 3})
	}
	return out
}

func flours() charts.Bars {
	return charts.Bars{Bars: []charts.Bar{
		{Name: "Strong white wheat", Value: 38}, {Name: "Spelt, stone ground", Value: 31}, {Name: "Whole wheat", Value: 19, Pale: true},
		{Name: "Rye, dark", Value: 9, Pale: true}, {Name: "Emmer", Value: 2, Pale: true},
	}}
}

func spark() charts.Spark {
	return charts.Spark{Name: "Hydration", Edges: ramp(56, 96, 4), Counts: []float64{2, 4, 8, 15, 22, 19, 13, 7, 4, 2}, From: 64, To: 88}
}

func bakes() charts.Lanes {
	lane := func(name string, late float64, hue charts.Hue) charts.Lane {
		l := charts.Lane{Name: name, Blocks: []charts.Block{
			{From: 0, To: 4.5 + late, Label: "bulk", Hue: hue, Pale: true},
			{From: 5 + late, To: 17 + 2*late, Label: "cold rest", Hue: 4, Pale: true},
			{From: 17.5 + 2*late, To: 18.3 + 2*late, Label: "bake", Hue: charts.Accent},
		}}
		for i := range 5 {
			l.Ticks = append(l.Ticks, charts.Tick{At: 0.5 + float64(i)*(0.6+late/5), Label: "turn"})
		}
		return l
	}
	return charts.Lanes{
		X:     charts.Axis{Title: "hours since mixing"},
		Lanes: []charts.Lane{lane("Ferry loaf", 0, 5), lane("Gorse trial", 0.8, 5), lane("Flat loaf, wet", -0.6, 5)},
	}
}

func plan(zone *time.Location) charts.Lanes {
	at := func(h, m int) float64 { return charts.Seconds(time.Date(2026, time.March, 28, h, m, 0, 0, zone)) }
	return charts.Lanes{
		X: charts.Axis{Zone: zone},
		Lanes: []charts.Lane{{Name: "Two loaves", Blocks: []charts.Block{
			{From: at(8, 0), To: at(12, 30), Label: "bulk", Hue: 5, Planned: true},
			{From: at(13, 0), To: at(27, 0), Label: "cold rest", Hue: 4, Planned: true},
			{From: at(31, 0), To: at(32, 0), Label: "bake", Hue: charts.Accent, Planned: true},
			{From: at(8, 20), To: at(13, 40), Hue: 5, Pale: true},
			{From: at(14, 10), To: at(22, 0), Hue: 4, Pale: true},
		}}},
		Bands: []charts.Band{{From: at(22, 30), To: at(30, 30), Label: "night"}},
		Now:   at(22, 0),
	}
}

func year() charts.Calendar {
	c := charts.Calendar{Year: 2026}
	for i := range 329 {
		n := 0
		if i%2 == 0 || i%7 == 3 {
			n = 1 + i%3*(i%5)/3
		}
		if i > 190 && i < 205 {
			n = 0
		}
		c.Counts = append(c.Counts, n)
	}
	return c
}

// TestShow writes the gallery to the folder named by -show, to be looked at.
func TestShow(t *testing.T) {
	if *show == "" {
		return
	}
	for theme, p := range map[string]charts.Palette{"light": charts.LightPalette(), "dark": charts.DarkPalette()} {
		for _, e := range gallery(t) {
			chart, err := charts.New(e.figure, style(t, p))
			if err != nil {
				t.Fatal(err)
			}
			for suffix, scale := range map[string]int{"1x": 1, "2x": 2} {
				writeFile(t, *show+"/"+e.name+"-"+theme+"-"+suffix+".png", func(f *os.File) error {
					return chart.PNG(f, e.width*scale, e.height*scale, float64(scale))
				})
			}
			writeFile(t, *show+"/"+e.name+"-"+theme+".svg", func(f *os.File) error { return chart.SVG(f, e.width, e.height) })
			t.Log(e.name, chart.Summary())
		}
	}
}

func writeFile(t *testing.T, path string, write func(*os.File) error) {
	t.Helper()
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := write(f); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
}
