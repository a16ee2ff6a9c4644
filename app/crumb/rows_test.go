package crumb

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"pgregory.net/rapid"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/crumb"
	"twinloaf/journal/measure"
)

// summary is of a photo with figures of every trust.
func summary() crumb.Summary {
	s := crumb.Summary{Method: crumb.MethodVersion, PxPerMM: 8.04, LargeFrom: 5, FoundByItself: true, Counted: 812,
		Outline: crumb.Outline{{X: 1, Y: 1}, {X: 9, Y: 1}, {X: 9, Y: 9}},
		Flags: []crumb.Flag{
			{Kind: crumb.ShadowAcross, Severity: crumb.Doubtful, Reason: "A shadow lies across.", Affects: []crumb.MeasureID{crumb.EdgeToMiddle}},
			{Kind: crumb.Blurred, Severity: crumb.Withheld, Reason: "The photo is blurred.", Affects: []crumb.MeasureID{crumb.MeanArea}},
		},
		Sizes: []crumb.SizeClass{{From: 0.5, To: 0.63}, {From: 0.63, To: 0.8, Count: 30, Area: 12}, {From: 0.8, To: 1, Count: 10, Area: 6.5}, {From: 1, To: 1.25}},
	}
	for _, d := range crumb.Definitions() {
		f := crumb.Measurement{ID: d.ID, Value: 2.5}
		switch d.ID {
		case crumb.Porosity:
			f.Value = 0.3127
		case crumb.CellDensity:
			f.Value = 41.6
		case crumb.EdgeToMiddle:
			f.Trust = crumb.Doubtful
		case crumb.MeanArea:
			f.Value, f.Trust = 0, crumb.Withheld
		}
		s.Figures = append(s.Figures, f)
	}
	return s
}

func rowOf(t *testing.T, rows []row, id crumb.MeasureID) row {
	t.Helper()
	i := slices.IndexFunc(rows, func(r row) bool { return r.id == id })
	if i < 0 {
		t.Fatalf("no row of %s", id)
	}
	return rows[i]
}

func TestRows(t *testing.T) {
	s := summary()
	rows := rowsOf(s, measure.Units{})
	if len(rows) != len(crumb.Definitions()) {
		t.Fatalf("%d rows of %d measures", len(rows), len(crumb.Definitions()))
	}
	for _, tt := range []struct {
		id                 crumb.MeasureID
		value, unit, label string
		tip                string
	}{
		{crumb.Porosity, "31.3", "%", "Open area", "Zghal"},
		{crumb.CellDensity, "41.6", "per cm²", "Cells", "Sapirstein"},
		{crumb.EdgeToMiddle, "2.50", "", "Edge / middle openness · doubtful", "A shadow lies across."},
		{crumb.MeanArea, "–", "", "Mean cell area · withheld", "The photo is blurred."},
	} {
		r := rowOf(t, rows, tt.id)
		if r.value != tt.value || r.unit != tt.unit || r.label() != tt.label || !strings.Contains(r.tip, tt.tip) {
			t.Errorf("%s reads %q %q %q, want %q %q %q; tip %q", tt.id, r.label(), r.value, r.unit, tt.label, tt.value, tt.unit, r.tip)
		}
	}
	s.Relative = true
	if r := rowOf(t, rowsOf(s, measure.Units{}), crumb.MedianDiameter); r.unit != "% of width" {
		t.Errorf("without a true length the unit is %q", r.unit)
	}
	if r := rowOf(t, rowsOf(summary(), measure.Units{DecimalComma: true}), crumb.CellDensity); r.value != "41,6" {
		t.Errorf("with a decimal comma it reads %q", r.value)
	}
}

func TestFaults(t *testing.T) {
	f := faultsOf(summary(), measure.Units{})
	if len(f) != 2 || f[0].severity != crumb.Withheld || f[0].follows != "Withheld: mean cell area." || f[1].follows != "Doubtful: edge / middle openness." {
		t.Errorf("%+v", f)
	}
	for _, affects := range [][]crumb.MeasureID{nil, {}} { // kept and read again, none is an empty list
		all := crumb.Summary{Flags: []crumb.Flag{{Severity: crumb.Withheld, Reason: "Too dark.", Affects: affects}}}
		if got := faultsOf(all, measure.Units{})[0].follows; got != "All figures are withheld." {
			t.Errorf("%q", got)
		}
	}
}

func TestHeading(t *testing.T) {
	with := func(change func(*crumb.Summary)) string {
		s := summary()
		change(&s)
		return heading(s, measure.Units{})
	}
	trust := func(id crumb.MeasureID, t crumb.Trust) func(*crumb.Summary) {
		return func(s *crumb.Summary) {
			for i := range s.Figures {
				if s.Figures[i].ID == id {
					s.Figures[i].Trust = t
				}
			}
		}
	}
	for _, tt := range []struct{ got, want string }{
		{with(func(*crumb.Summary) {}), "31 % open, 42\u00a0cells/cm²"},
		{with(trust(crumb.Porosity, crumb.Doubtful)), "Perhaps 31 % open, 42\u00a0cells/cm²"},
		{with(trust(crumb.CellDensity, crumb.Withheld)), "31 % open"},
		{with(func(s *crumb.Summary) { s.Relative = true }), "31 % open"},
		{with(trust(crumb.Porosity, crumb.Withheld)), "The cells cannot be told apart, only the texture"},
		{with(func(s *crumb.Summary) {
			trust(crumb.Porosity, crumb.Withheld)(s)
			trust(crumb.CorrelationMM, crumb.Withheld)(s)
		}), "This photo cannot be measured"},
		{with(func(s *crumb.Summary) { s.Figures[0].Off, s.Figures[1].Off = 0.0213, 2.1 }), "31.3 ± 2.2 % open, 41.6\u00a0±\u00a02.1\u00a0cells/cm²"},
		{with(func(s *crumb.Summary) { s.Flags = []crumb.Flag{{Kind: crumb.NotFound}} }), "The slice was not found: draw its outline"},
	} {
		if tt.got != tt.want {
			t.Errorf("heading %q, want %q", tt.got, tt.want)
		}
	}
}

func TestNudge(t *testing.T) {
	for _, tt := range []struct {
		from  float64
		steps int
		want  float64
	}{{0, 1, 0.1}, {0, -1, -0.1}, {0.1, 1, 0.2}, {-0.1, 1, 0}, {0.1, -1, 0}, {1, 1, 1}, {-1, -1, -1}, {0.7, 1, 0.8}, {-0.3, 1, -0.2}} {
		if got := nudge(tt.from, tt.steps); got != tt.want {
			t.Errorf("%v by %d is %v, want %v", tt.from, tt.steps, got, tt.want)
		}
	}
	a, b := summary(), summary()
	b.Sensitivity, b.Counted, b.Figures[0].Value = -0.1, 700, 0.29
	if got := nudged(a, b, measure.Units{}); got != "At −0.1 rather than 0: open area 29 % rather than 31.3 %, 700 cells rather than 812." {
		t.Errorf("%q", got)
	}
	if got := nudged(a, a, measure.Units{}); got != "" {
		t.Errorf("nothing was nudged, yet %q", got)
	}
}

// The chart has what the histogram and both cumulative curves are made of, and can
// be drawn, whichever photos it is of.
func TestSizes(t *testing.T) {
	s := summary()
	if f, ok := pages.CrumbSizes([]pages.CrumbSeries{{Sizes: s}}, measure.Units{}).(charts.Plot); !ok || f.Empty == "" {
		t.Errorf("withheld sizes are drawn: %+v", f)
	}
	for i := range s.Figures {
		s.Figures[i].Trust = crumb.Good
	}
	plot := pages.CrumbSizes([]pages.CrumbSeries{{Name: "A", Sizes: s}, {Name: "B", Sizes: s}}, measure.Units{}).(charts.Plot)
	if len(plot.Panels) != 2 || len(plot.Panels[0].Layers) != 2 || len(plot.Panels[1].Layers) != 4 {
		t.Fatalf("panels %+v", plot.Panels)
	}
	bins := plot.Panels[0].Layers[0].(charts.Bins)
	if !slices.Equal(bins.Counts, []float64{0.75, 0.25}) || plot.X.Format(bins.Edges[1]) != "0.8" {
		t.Errorf("bins %v from %s", bins.Counts, plot.X.Format(bins.Edges[0]))
	}
	byArea := plot.Panels[1].Layers[1].(charts.Series)
	if last := byArea.Y[len(byArea.Y)-1]; last != 1 || math.Abs(byArea.Y[1]-12/18.5) > 1e-9 {
		t.Errorf("the curve by area is %v", byArea.Y)
	}
	style, err := kit.ChartStyle(lightPalette(), measure.Units{})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := charts.New(plot, style); err != nil {
		t.Error(err)
	}
}

func TestPairRows(t *testing.T) {
	a, b := summary(), summary()
	b.Figures = slices.Clone(b.Figures)
	b.Figures[0].Value, b.Figures[1].Value = 0.40, 41.4
	find := func(rows []pairRow, name string) pairRow {
		i := slices.IndexFunc(rows, func(r pairRow) bool { return r.name == name })
		if i < 0 {
			t.Fatalf("no row %q", name)
		}
		return rows[i]
	}
	rows := pairRows(a, b, nil, measure.Units{})
	open := find(rows, "Open area")
	if open.unit != "%" || open.a != "31.3" || open.b != "40.0" || open.change != "+8.7" || open.verdict != "cannot tell" || open.stands {
		t.Errorf("without retakes: %+v", open)
	}
	if m := find(rows, "Mean cell area"); m.a != "withheld" || m.change != "–" || m.verdict != "cannot tell" {
		t.Errorf("a withheld figure: %+v", m)
	}
	nudged := b
	nudged.Sensitivity = 0.2
	if h := pairHeading(pairRows(a, nudged, nil, measure.Units{}), a, nudged, 2); h != "Taken at two sensitivities, they cannot be compared" {
		t.Errorf("two sensitivities: %q", h)
	}
	if h := pairHeading(rows, a, b, 0); h != "Without retakes one cannot tell" {
		t.Errorf("heading %q", h)
	}
	// Three retakes of one slice: open share 0.310, 0.312, 0.314 (s 0.002), density 41, 43, 45.
	var group []crumb.Summary
	for i := range 3 {
		r := summary()
		r.Figures[0].Value, r.Figures[1].Value = 0.310+0.002*float64(i), 41+2*float64(i)
		group = append(group, r)
	}
	rows = pairRows(a, b, [][]crumb.Summary{group}, measure.Units{})
	if r := find(rows, "Open area"); r.verdict != "larger than retaking would give" || !r.stands {
		t.Errorf("with retakes: %+v", r)
	}
	if r := find(rows, "Cells"); r.verdict != "no larger than retaking would give" || r.stands || r.change != "−0.2" {
		t.Errorf("with retakes: %+v", r)
	}
	if h := pairHeading(rows, a, b, 1); !strings.HasSuffix(h, "figures differ by more than a retake would") {
		t.Errorf("with retakes the heading is %q", h)
	}
	// Beyond retakes, but within the uncertainties of both, or doubtful: neither is claimed.
	for _, tt := range []struct {
		change      func(a, b *crumb.Measurement)
		says, first string
	}{
		{func(a, b *crumb.Measurement) { a.Off, b.Off = 0.1, 0.1 }, "larger than a retake, within the uncertainty", "31 ± 10"},
		{func(a, b *crumb.Measurement) { b.Trust = crumb.Doubtful }, "larger than a retake, but doubtful", "31.3"},
	} {
		x, y := a, b
		x.Figures, y.Figures = slices.Clone(a.Figures), slices.Clone(b.Figures)
		tt.change(&x.Figures[0], &y.Figures[0])
		rows := pairRows(x, y, [][]crumb.Summary{group}, measure.Units{})
		if r := find(rows, "Open area"); r.verdict != tt.says || r.stands || r.a != tt.first {
			t.Errorf("%+v", r)
		}
		if h := pairHeading(rows, x, y, 1); h != "No difference is sure" {
			t.Errorf("%s: the heading is %q", tt.says, h)
		}
	}
	b.Relative = true
	if r := find(pairRows(a, b, nil, measure.Units{}), "Median diameter"); r.change != "–" || r.unit != "" {
		t.Errorf("figures in two units are subtracted: %+v", r)
	}
}

// A row has one number of figures after the point, so that its difference is what the
// reader computes, within a unit of the last.
func TestDifferencesFollowFromTheirFigures(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := summary(), summary()
		b.Figures = slices.Clone(b.Figures)
		x, y := &a.Figures[0], &b.Figures[0]
		for _, f := range []*crumb.Measurement{x, y} {
			f.Value = rapid.Float64Range(0.01, 0.9).Draw(t, "share")
			f.Off = rapid.SampledFrom([]float64{0, 0.004, 0.03, 0.163}).Draw(t, "off")
		}
		r := pairRows(a, b, nil, measure.Units{})[0]
		read := func(s string) (float64, int) {
			s, _, _ = strings.Cut(strings.ReplaceAll(s, "−", "-"), " ")
			v, err := strconv.ParseFloat(s, 64)
			if err != nil {
				t.Fatal(err)
			}
			_, after, _ := strings.Cut(s, ".")
			return v, len(after)
		}
		one, n := read(r.a)
		other, m := read(r.b)
		change, k := read(r.change)
		if n != m || n != k || math.Abs(other-one-change) > math.Pow10(-n)+1e-9 {
			t.Fatalf("%q, %q, %q", r.a, r.b, r.change)
		}
	})
}

// The heading rounds as the figures below it do.
func TestTheHeadingSaysTheFigures(t *testing.T) {
	for _, off := range []float64{0.163, 0.0213, 0.0995, 0.004} {
		s := summary()
		s.Figures[0].Off, s.Figures[1].Off = off, 100*off
		rows := rowsOf(s, measure.Units{})
		want := rowOf(t, rows, crumb.Porosity).value + " % open, " + strings.ReplaceAll(rowOf(t, rows, crumb.CellDensity).value+" cells/cm²", " ", "\u00a0")
		if got := heading(s, measure.Units{}); got != want {
			t.Errorf("heading %q, figures %q", got, want)
		}
	}
}

func TestSameSlice(t *testing.T) {
	photo := func(id, same journal.ID) *journal.Photo {
		return &journal.Photo{Head: journal.Head{ID: id}, Slice: &journal.Slice{Same: same}}
	}
	for _, tt := range []struct {
		a, b *journal.Photo
		want bool
	}{
		{photo("1", ""), photo("2", "1"), true},
		{photo("1", "2"), photo("2", ""), true},
		{photo("1", "3"), photo("2", "3"), true},
		{photo("1", ""), photo("2", ""), false},
		{photo("1", "3"), photo("2", "4"), false},
		{&journal.Photo{}, photo("2", ""), false},
	} {
		if got := sameSlice(tt.a, tt.b); got != tt.want {
			t.Errorf("%v and %v: %v", tt.a.Slice, tt.b.Slice, got)
		}
	}
}

func TestEvenScale(t *testing.T) {
	view, wide := fyne.NewSize(400, 300), fyne.NewSize(4000, 3000)
	// Both fit at a tenth: 8 pixels to the mm make 0.8 points, 16 make 1.6.
	got := evenScale([2]fyne.Size{view, view}, [2]fyne.Size{wide, wide}, [2]float64{8, 16})
	if math.Abs(got[0]-2) > 1e-6 || got[1] != 1 {
		t.Errorf("zooms %v, want 2 and 1", got)
	}
	if got := evenScale([2]fyne.Size{view, {}}, [2]fyne.Size{wide, wide}, [2]float64{8, 16}); got != [2]float64{1, 1} {
		t.Errorf("before a view has its size: %v", got)
	}
}

func TestPolygons(t *testing.T) {
	square := []kit.PicturePoint{{X: 0, Y: 0}, {X: 100, Y: 0}, {X: 100, Y: 100}, {X: 0, Y: 100}}
	if got, ok := insertNear(square, kit.PicturePoint{X: 50, Y: 3}, 5); !ok || len(got) != 5 || got[1].X != 50 {
		t.Errorf("near the first side: %v %v", got, ok)
	}
	if got, ok := insertNear(square, kit.PicturePoint{X: 2, Y: 40}, 5); !ok || got[4].Y != 40 {
		t.Errorf("near the last side: %v %v", got, ok)
	}
	if _, ok := insertNear(square, kit.PicturePoint{X: 50, Y: 50}, 5); ok {
		t.Error("a point was put in far from every side")
	}
	if got := areaOf(square); got != 10000 {
		t.Errorf("area %v", got)
	}
	slice := crumb.Outline{{X: -10, Y: -10}, {X: 110, Y: -10}, {X: 110, Y: 110}, {X: -10, Y: 110}}
	if !boxInCrumb(square, slice) || !boxInCrumb(square, nil) || boxInCrumb(square, crumb.Outline{{X: 20, Y: 20}, {X: 80, Y: 20}, {X: 50, Y: 80}}) {
		t.Error("a box within the slice, or where none was found, lies in the crumb; one round it does not")
	}
}

func TestFewerCornersStayNearTheOutline(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(5, 200).Draw(t, "n")
		off := rapid.Float64Range(0.1, 5).Draw(t, "off")
		var round []kit.PicturePoint
		for i := range n {
			s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			r := rapid.Float64Range(80, 120).Draw(t, "r")
			round = append(round, kit.PicturePoint{X: r * c, Y: r * s})
		}
		few := fewer(round, off)
		if len(few) > n || len(few) < 2 {
			t.Fatalf("%d corners of %d", len(few), n)
		}
		for _, p := range round {
			least := math.Inf(1)
			for i := range few {
				least = min(least, away(p, few[i], few[(i+1)%len(few)]))
			}
			if least > off+1e-9 {
				t.Fatalf("a corner lies %v off, more than %v", least, off)
			}
		}
	})
}

func TestListModel(t *testing.T) {
	bare := entry{photo: &journal.Photo{}}
	lostOne, good, poor := bare, bare, bare
	s := summary()
	good = good.with(s)
	s.Outline = nil
	lostOne = lostOne.with(s)
	p := summary()
	p.Figures[0].Trust = crumb.Withheld
	poor = poor.with(p)
	all := []entry{bare, lostOne, good, poor}
	for i, want := range []string{"not measured yet", "needs its outline drawn", "31 % open", "too poor to measure"} {
		if got := all[i].item(measure.Units{}).Sub; got != want {
			t.Errorf("entry %d reads %q, want %q", i, got, want)
		}
	}
	if counts(all) != [3]int{1, 1, 2} || len(shownOf(all, int(measured))) != 2 || len(shownOf(all, -1)) != 4 {
		t.Errorf("counts %v", counts(all))
	}
	for n, want := range map[int]string{4: "One crumb photo waits to be measured", 0: "No crumb photo yet"} {
		if got := listHeading(all[:n]); got != want {
			t.Errorf("heading %q, want %q", got, want)
		}
	}
	if got := listHeading(all[1:]); got != "One slice needs its outline drawn" {
		t.Errorf("heading %q", got)
	}
	if got := listHeading(all[2:]); got != "Every crumb photo is measured" {
		t.Errorf("heading %q", got)
	}
}

func TestFileStem(t *testing.T) {
	for name, want := range map[string]string{"Ferry loaf, no. 3": "ferry-loaf-no-3-crumb", "": "crumb", "../..": "crumb", "Süßer Laib": "süßer-laib-crumb"} {
		if got := fileStem(name); got != want {
			t.Errorf("%q gives %q, want %q", name, got, want)
		}
	}
}

// What differs is shown large before the rest, and nothing that is withheld.
func TestLeadFigures(t *testing.T) {
	rows := []pairRow{
		{name: "withheld", a: "withheld", b: "withheld", change: nothing},
		{name: "first", a: "59 ± 16.3 (doubtful)", b: "58.9", change: "−0.1"},
		{name: "second", a: "1", b: "2", change: "+1"}, {name: "third", a: "1", b: "2", change: "+1"},
		{name: "differs", a: "1", b: "3", change: "+2", stands: true},
	}
	var got []string
	for _, o := range leadFigures(rows, [2]charts.SeriesStyle{}).(*fyne.Container).Objects {
		got = append(got, strings.TrimSpace(o.(*fyne.Container).Objects[0].(*kit.Text).String()))
	}
	if want := "differs|first|second"; strings.Join(got, "|") != want {
		t.Errorf("%q leads instead of %q", got, want)
	}
	if leadFigures(rows[:1], [2]charts.SeriesStyle{}) != nil {
		t.Error("what is withheld leads")
	}
	if s := large(rows[1].a); s[0].Text != "59" || s[1].Text != " ± 16.3 (doubtful)" {
		t.Errorf("large is %q", s[0].Text)
	}
}
