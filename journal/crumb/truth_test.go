package crumb_test

import (
	"context"
	"encoding/csv"
	"encoding/json"
	"image"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"testing"

	"twinloaf/journal/crumb"
	"twinloaf/journal/crumb/phantom"
	"twinloaf/journal/journaltest/race"
)

// A truth is what is known of a drawn slice.
type truth struct {
	PxPerMM  float64   `json:"px_per_mm"`
	Porosity float64   `json:"porosity"`
	PerCM2   float64   `json:"density_per_cm2"`
	MeanMM2  float64   `json:"mean_area_mm2"`
	MaxMM2   float64   `json:"max_area_mm2"`
	Areas    []float64 `json:"-"`
}

// Errors against truth: of the open share as a difference, of the rest as a
// share; byNumber and byArea are the largest gaps between the cumulative size
// distributions.
type errorsOf struct{ porosity, density, mean, largest, byNumber, byArea float64 }

func compareWithTruth(r *crumb.Result, want truth) errorsOf {
	off := func(id crumb.MeasureID, truth float64) float64 { return r.Measured(id).Value/truth - 1 }
	var found []float64
	for _, c := range r.Cells {
		if !c.AtEdge {
			found = append(found, c.Area)
		}
	}
	number, area := distributionGap(found, want.Areas)
	return errorsOf{
		porosity: r.Measured(crumb.Porosity).Value - want.Porosity,
		density:  off(crumb.CellDensity, want.PerCM2),
		mean:     off(crumb.MeanArea, want.MeanMM2),
		largest:  off(crumb.LargestArea, want.MaxMM2),
		byNumber: number, byArea: area,
	}
}

// distributionGap is the Kolmogorov-Smirnov distance between two cumulative
// distributions of cell area, by number and weighted by area.
func distributionGap(a, b []float64) (number, area float64) {
	a, b = slices.Sorted(slices.Values(a)), slices.Sorted(slices.Values(b))
	total := func(v []float64) (s float64) {
		for _, x := range v {
			s += x
		}
		return s
	}
	ta, tb := total(a), total(b)
	var i, j int
	var sa, sb float64
	for i < len(a) || j < len(b) {
		x := math.Inf(1)
		if i < len(a) {
			x = a[i]
		}
		if j < len(b) {
			x = math.Min(x, b[j])
		}
		for ; i < len(a) && a[i] <= x; i++ {
			sa += a[i]
		}
		for ; j < len(b) && b[j] <= x; j++ {
			sb += b[j]
		}
		number = math.Max(number, math.Abs(float64(i)/float64(len(a))-float64(j)/float64(len(b))))
		area = math.Max(area, math.Abs(sa/ta-sb/tb))
	}
	return number, area
}

func logErrors(t *testing.T, r *crumb.Result, e errorsOf) {
	t.Helper()
	t.Logf("open share %+.3f, density %+.1f %%, mean area %+.1f %%, largest %+.1f %%, distribution by number %.3f, by area %.3f",
		e.porosity, 100*e.density, 100*e.mean, 100*e.largest, e.byNumber, e.byArea)
	for _, f := range r.Flags {
		t.Logf("%s, %s: %s", f.Kind, f.Severity, f.Reason)
	}
}

// What a good photo must reach.
const (
	porosityLimit     = 0.02
	densityLimit      = 0.08
	meanLimit         = 0.08
	distributionLimit = 0.15 // one great cell may be a tenth of all cell area
)

// checkGood wants good figures, and of flags those alone that are named.
func checkGood(t *testing.T, r *crumb.Result, want truth, told ...crumb.FlagKind) {
	t.Helper()
	e := compareWithTruth(r, want)
	logErrors(t, r, e)
	if math.Abs(e.porosity) > porosityLimit || math.Abs(e.density) > densityLimit || math.Abs(e.mean) > meanLimit {
		t.Errorf("errors beyond %.2f, %.0f %%, %.0f %%", porosityLimit, 100*densityLimit, 100*meanLimit)
	}
	if e.byNumber > distributionLimit || e.byArea > distributionLimit {
		t.Errorf("size distribution off by more than %.2f", distributionLimit)
	}
	var kinds []crumb.FlagKind
	for _, f := range r.Flags {
		kinds = append(kinds, f.Kind)
	}
	if !slices.Equal(kinds, told) {
		t.Errorf("a good photo was flagged %v, want %v", kinds, told)
	}
}

func TestDrawnReferenceSlices(t *testing.T) {
	for _, name := range race.Few([]string{"p01_pan_fine", "p03_boule_open", "p04_ciabatta_elong", "p14_crop_fullframe"}, 1) {
		t.Run(name, func(t *testing.T) {
			img, want := readDrawn(t, name)
			o := crumb.Options{PxPerMM: want.PxPerMM}
			if name == "p14_crop_fullframe" {
				none, err := crumb.Measure(context.Background(), img, 0, o)
				if err != nil || !flagged(none, crumb.NotFound, crumb.Withheld) {
					t.Errorf("crumb from border to border has no outline to be found: %v, %v", none.Flags, err)
				}
				o.Outline, o.CrumbOnly = boxOutline(img.Bounds()), true
			}
			r, err := crumb.Measure(context.Background(), img, 0, o)
			if err != nil {
				t.Fatal(err)
			}
			checkGood(t, r, want)
		})
	}
}

func readDrawn(t *testing.T, name string) (image.Image, truth) {
	t.Helper()
	base := filepath.Join("..", "..", "testdata", "crumb", "drawn", name)
	var want truth
	raw, err := os.ReadFile(base + ".json")
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(raw, &want); err != nil {
		t.Fatal(err)
	}
	f, err := os.Open(base + "_areas_mm2.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows[1:] {
		a, err := strconv.ParseFloat(row[0], 64)
		if err != nil {
			t.Fatal(err)
		}
		want.Areas = append(want.Areas, a)
	}
	p, err := os.Open(base + ".png")
	if err != nil {
		t.Fatal(err)
	}
	defer p.Close()
	img, err := png.Decode(p)
	if err != nil {
		t.Fatal(err)
	}
	return img, want
}

// A case of our own drawing.
type drawnCase struct {
	name  string
	slice phantom.Slice
	told  []crumb.FlagKind
}

// pan is the slice that the cases vary: a fine even crumb at 8 pixels per mm, less of it under the race detector.
func pan(change func(s *phantom.Slice)) phantom.Slice {
	s := phantom.Slice{Seed: 101, Width: race.Cases(640, 360), Height: race.Cases(600, 336), Shape: phantom.Pan, SliceMM: float64(race.Cases(66, 37)),
		Cells: phantom.Cells{MedianMM: 0.9, LogSD: 0.45}, Light: phantom.Light{Noise: 2, Blur: 0.5}}
	change(&s)
	return s
}

func goodCases() []drawnCase {
	return []drawnCase{
		{"plain", pan(func(s *phantom.Slice) {}), nil},
		{"light", pan(func(s *phantom.Slice) { s.Seed, s.Light.Gain = 102, 1.08 }), nil},
		{"half dark", pan(func(s *phantom.Slice) { s.Seed, s.Light.Gain = 103, 0.45 }), nil},
		{"uneven light", pan(func(s *phantom.Slice) { s.Seed, s.Light.Gradient, s.Light.Vignette = 104, 0.4, 0.15 }), nil},
		{"noise", pan(func(s *phantom.Slice) { s.Seed, s.Light.Noise = 105, 12 }), nil},
		{"a little blur", pan(func(s *phantom.Slice) { s.Seed, s.Light.Blur = 106, 1.1 }), nil},
		{"shallow cells", pan(func(s *phantom.Slice) { s.Seed, s.Cells.Depth = 107, 0.3 }), nil},
		{"spelt on linen", pan(func(s *phantom.Slice) { s.Seed, s.Tone, s.Ground = 108, phantom.Spelt, phantom.Linen }), nil},
		{"rye on linen", pan(func(s *phantom.Slice) { s.Seed, s.Tone, s.Ground = 109, phantom.Rye, phantom.Linen }), nil},
		{"yellow light", pan(func(s *phantom.Slice) { s.Seed, s.Light.Balance = 110, [3]float64{1.05, 0.95, 0.75} }), nil},
		{"boule, open on top, on a board", phantom.Slice{Seed: 3, Width: 900, Height: 640, SliceMM: 95, Ground: phantom.Board,
			Cells: phantom.Cells{MedianMM: 1.3, LogSD: 0.75, Porosity: 0.42, TopOpen: 0.5}, Light: phantom.Light{Noise: 2, Blur: 0.5}}, nil},
		{"boule, sizes far apart", phantom.Slice{Seed: 7, Width: 900, Height: 640, SliceMM: 95,
			Cells: phantom.Cells{LogSD: 0.9, Porosity: 0.4}, Light: phantom.Light{Noise: 2, Blur: 0.5}}, nil},
		{"flat, stretched cells, on teal", phantom.Slice{Seed: 4, Width: 1000, Height: 500, SliceMM: 100, Shape: phantom.Flat, Ground: phantom.Teal,
			Cells: phantom.Cells{MedianMM: 1.6, LogSD: 0.7, Porosity: 0.42, Stretch: 2, Direction: 20}, Light: phantom.Light{Noise: 2, Blur: 0.5}}, nil},
		{"crust touches the frame", pan(func(s *phantom.Slice) { s.Seed, s.ShiftX = 111, 0.15 }), []crumb.FlagKind{crumb.CutOff}},
		{"15 pixels per mm", pan(func(s *phantom.Slice) { s.Seed, s.Width, s.Height = 112, 1200, 1120 }), nil},
	}
}

func drawTruth(t testing.TB, s phantom.Slice) (*phantom.Picture, truth) {
	t.Helper()
	p, err := phantom.Draw(context.Background(), s)
	if err != nil {
		t.Fatal(err)
	}
	return p, truth{PxPerMM: p.Truth.PxPerMM, Porosity: p.Truth.Porosity, PerCM2: p.Truth.PerCM2,
		MeanMM2: p.Truth.MeanAreaMM2, MaxMM2: p.Truth.LargestMM2, Areas: p.Truth.AreasMM2}
}

func TestDrawnSlicesOfOurOwn(t *testing.T) {
	for _, c := range race.Few(goodCases(), 1) {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			p, want := drawTruth(t, c.slice)
			r, err := crumb.Measure(context.Background(), p.Photo, 0, crumb.Options{PxPerMM: want.PxPerMM})
			if err != nil {
				t.Fatal(err)
			}
			checkGood(t, r, want, c.told...)
			if c.slice.Cells.Stretch == 2 {
				if d := r.Measured(crumb.Direction).Value; math.Abs(d-20) > 6 {
					t.Errorf("cells drawn at 20° came out at %.1f°", d)
				}
			}
		})
	}
}

func TestStretchedReferenceCells(t *testing.T) {
	img, want := readDrawn(t, "p04_ciabatta_elong")
	r, err := crumb.Measure(context.Background(), img, 0, crumb.Options{PxPerMM: want.PxPerMM})
	if err != nil {
		t.Fatal(err)
	}
	// Its truth: mean aspect 1.92, direction 179°, strength of direction 0.85.
	if e := r.Measured(crumb.Elongation).Value; math.Abs(e-1.92) > 0.2 {
		t.Errorf("elongation %.2f, drawn with 1.92", e)
	}
	if d := r.Measured(crumb.Direction).Value; math.Abs(math.Mod(d+91, 180)-90) > 5 {
		t.Errorf("main direction %.0f°, drawn with 179°", d)
	}
	if a := r.Measured(crumb.Alignment).Value; math.Abs(a-0.85) > 0.05 {
		t.Errorf("alignment %.2f, drawn with 0.85", a)
	}
}

func flagged(r *crumb.Result, kind crumb.FlagKind, least crumb.Trust) bool {
	return slices.ContainsFunc(r.Flags, func(f crumb.Flag) bool { return f.Kind == kind && f.Severity >= least })
}
