package crumb

import (
	"cmp"
	"context"
	"flag"
	"fmt"
	"image"
	"image/jpeg"
	"maps"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"twinloaf/journal/crumb/foam"
	"twinloaf/journal/crumb/phantom"
	"twinloaf/journal/journaltest/race"
)

// A trial is a drawn slice with the figures that are true of it, by the package's own
// definitions.
type trial struct {
	name    string
	photo   image.Image
	options Options
	truth   map[MeasureID]float64
	crumb   float64 // mm²
	width   float64 // of the slice, mm
	perMM   float64 // pixels
}

// trialOf draws the n-th slice of a generator. What differs between slices is drawn
// anew for each: sizes, openness, light, grain, noise, blur and scale, so that contrast
// over grain runs from below 1.5 to beyond 12.
func trialOf(generator string, n uint64) (trial, error) {
	rng := rand.New(rand.NewPCG(n, 0x7a1a1))
	between := func(a, b float64) float64 { return a + (b-a)*rng.Float64() }
	scale := between(4.5, 11)
	width := between(38, 55)
	w := int(width * scale / 0.86)
	h := w * 7 / 8
	median, sd, open := between(0.8, 2.6), between(0.3, 0.65), between(0.2, 0.46)
	grain := math.Max(0, between(-0.03, 0.13))
	noise, blur := between(1, 8), between(0.3, 1.1)
	t := trial{name: generator}
	var labels []uint16
	var face *image.Gray
	var perMM, trueWidth float64
	switch generator {
	case "foam":
		p, err := foam.Draw(context.Background(), foam.Slice{Seed: n, Width: w, Height: h, WidthMM: width, Share: 0.86, MedianMM: median, LogSD: 0.8 * sd, Open: open,
			Grain: grain, GrainMM: between(0.25, 0.6), Light: foam.Light{Direction: between(0, 360), Height: between(22, 55), Around: between(0.25, 0.97),
				Bounce: between(0, 0.9), Gain: between(0.6, 1.05), Noise: noise, Blur: blur}})
		if err != nil {
			return t, err
		}
		t.photo, labels, face, perMM, trueWidth = p.Photo, p.Labels, p.Crumb, p.Truth.PxPerMM, p.Truth.WidthMM
	default:
		p, err := phantom.Draw(context.Background(), phantom.Slice{Seed: n, Width: w, Height: h, SliceMM: width, CrustMM: between(1.5, 3), Shape: phantom.Pan,
			Tone: phantom.Tone(rng.IntN(3)), Ground: []phantom.Ground{phantom.Slate, phantom.Teal}[rng.IntN(2)], Grain: grain,
			Cells: phantom.Cells{MedianMM: median, LogSD: sd, Porosity: open, Stretch: between(1.1, 2.2), Direction: between(0, 180), TopOpen: between(0, 0.6), Depth: between(0.12, 0.65)},
			Light: phantom.Light{Gradient: between(0, 0.35), Direction: between(0, 360), Vignette: between(0, 0.15), Gain: between(0.6, 1.05), Noise: noise, Blur: blur}})
		if err != nil {
			return t, err
		}
		t.photo, labels, face, perMM, trueWidth = p.Photo, p.Labels, p.Crumb, p.Truth.PxPerMM, p.Truth.SliceWidthMM
	}
	t.truth, t.width, t.perMM = truthOf(labels, face, perMM), trueWidth, perMM
	for _, in := range face.Pix {
		t.crumb += float64(b2i(in != 0)) / (perMM * perMM)
	}
	// Half of the slices are told by their width, which rests on the outline found.
	if rng.IntN(2) == 0 {
		t.options.WidthMM = trueWidth
	} else {
		t.options.PxPerMM = perMM
	}
	return t, nil
}

// truthOf takes every figure from true labels, as if they had been found.
func truthOf(labels []uint16, face *image.Gray, perMM float64) map[MeasureID]float64 {
	w, h := face.Rect.Dx(), face.Rect.Dy()
	f := &Prepared{w: w, h: h, crumb: make([]bool, w*h), frame: frame{step: 1, pxPerMM: perMM}}
	p := &partition{labels: make([]int32, w*h)}
	n := 0
	for i, l := range labels {
		f.crumb[i] = face.Pix[i] != 0
		p.labels[i] = int32(l)
		n = max(n, int(l))
	}
	f.crumbPx = count(f.crumb)
	f.layers()
	for _, g := range measureRegions(p.labels, n, w, h, nil, f.crumb) {
		if g.Area > 0 {
			p.regions = append(p.regions, g)
		}
	}
	r := &Result{Summary: Summary{LargeFrom: LargeFromMM}}
	v := f.values(r, p)
	// To the texture a cell is a place as dark as can be in a white wall.
	rel := make([]uint16, w*h)
	for i, l := range labels {
		if l == 0 {
			rel[i] = wallLevel
		}
	}
	// Surely void is what is more than half open.
	tx, l, grain := newTexture(rel, f.crumb, levels{wall: wallLevel}, w, h, perMM), levels{cell: wallLevel, wall: wallLevel}, (wallLevel/2+1)/sureGrains
	tx.values(v, l, grain)
	v[SureVoids] = tx.sure(l, grain, sureWidthMM-0.25) // a whole void hangs on a hair of its width
	return v
}

var (
	showTable = flag.Bool("table", false, "measure the long set of drawn slices and show every measure's errors")
	calibrate = flag.Bool("calibrate", false, "work the table of uncertainties out anew, from slices that no other test measures")
)

var generators = []string{"phantom", "foam"}

// A miss is how far one figure of a drawn slice lies off.
type miss struct {
	name   string
	id     MeasureID
	seen   clarity
	trust  Trust
	faulty bool
	value  float64
	truth  float64
	off    float64 // stated
	error  float64 // as offBy tells it: a share of the value or in its own unit, over the photo's strain
}

// missesOf measures a drawn slice. A slice that is not found, or whose figures are
// withheld for another reason than its clarity, has none.
func missesOf(t *testing.T, generator string, n uint64) []miss {
	t.Helper()
	s, err := trialOf(generator, n)
	if err != nil {
		t.Fatal(err)
	}
	f, err := Prepare(context.Background(), s.photo, s.options)
	if err != nil {
		t.Fatal(err)
	}
	if !f.missing.IsZero() {
		return nil
	}
	p, err := f.segment(context.Background(), 0)
	if err != nil {
		t.Fatal(err)
	}
	r := &Result{w: f.w, h: f.h, frame: f.frame, crumb: f.crumb, Summary: Summary{LargeFrom: LargeFromMM}}
	f.report(r, p)
	values := f.values(r, p)
	newTexture(f.rel, f.crumb, f.levels, f.w, f.h, f.frame.pxPerMM).values(values, f.levels, (f.levels.wall-f.levels.cell)/p.grain)
	var out []miss
	for _, d := range definitions {
		v, found := values[d.ID]
		truth, known := s.truth[d.ID]
		if !found || !known || d.ID == Direction && (s.truth[Alignment] < leastAlignment || values[Alignment] < leastAlignment) {
			continue
		}
		m := miss{name: fmt.Sprintf("%s %d", generator, n), id: d.ID, seen: p.seen, value: v, truth: truth, error: errorOf(d.ID, v, truth) / p.strain(d.ID, values)}
		stop := false
		for _, fl := range r.Flags {
			if fl.touches(d.ID) && fl.Kind != Grainy && fl.Kind != PartSeen {
				m.faulty, stop = true, stop || fl.Severity == Withheld
			}
		}
		if stop {
			continue
		}
		fig := r.Measured(d.ID)
		m.trust, m.off = fig.Trust, fig.Off
		out = append(out, m)
	}
	return out
}

// A dark crumb is hardly lighter than its crust, and where few pixels show it, noise alone makes cells
// look like crust. Either the crumb is as large as drawn, but for the half millimetre in which crust
// shades into it, or a flag says that it may not be.
func TestCrustOfADarkCrumb(t *testing.T) {
	for _, c := range race.Few([]struct {
		slice   uint64
		flagged bool
	}{{11020, true}, {24, false}, {82, false}, {30089, true}, {20105, true}}, 2) {
		s, err := trialOf("phantom", c.slice)
		if err != nil {
			t.Fatal(err)
		}
		f, err := Prepare(t.Context(), s.photo, s.options)
		if err != nil {
			t.Fatal(err)
		}
		r, err := f.Measure(t.Context(), 0)
		if err != nil {
			t.Fatal(err)
		}
		told := slices.ContainsFunc(r.Flags, func(f Flag) bool { return f.Kind == CrustAlike })
		if told != c.flagged {
			t.Errorf("slice %d: flagged as having a crust like its crumb: %v, want %v; %.3f of what lies deep looks like it", c.slice, told, c.flagged, f.stray)
		}
		if off := r.FaceArea/s.crumb - 1; !told && math.Abs(off) > 0.06 {
			t.Errorf("slice %d: %.0f mm² of crumb, drawn with %.0f", c.slice, r.FaceArea, s.crumb)
		}
		if e := r.Measured(EdgeToMiddle); told && e.Trust == Good {
			t.Errorf("slice %d: edge to middle is good all the same: %+v", c.slice, e)
		}
	}
}

// The slice's own width gives the scale only if the outline is its own: a camera's noise in the shadow beside it is no
// part of it, and a crust coloured much like what it lies on is one.
func TestScaleFromTheOutline(t *testing.T) {
	for _, c := range race.Few([]struct {
		generator string
		slice     uint64
	}{{"foam", 82}, {"phantom", 66}, {"foam", 32}, {"foam", 71034}, {"foam", 71158}, {"foam", 71191}, {"phantom", 31}, {"phantom", 123}}, 2) {
		s, err := trialOf(c.generator, c.slice)
		if err != nil {
			t.Fatal(err)
		}
		f, err := Prepare(t.Context(), s.photo, Options{WidthMM: s.width})
		if err != nil {
			t.Fatal(err)
		}
		if off := f.frame.pxPerMM*f.frame.step/s.perMM - 1; math.Abs(off) > 0.02 {
			t.Errorf("%s %d: its scale is %+.3f of the true one off", c.generator, c.slice, off)
		}
	}
}

// A plate of the demonstration, made ready.
func plateOf(t *testing.T, name string) *Prepared {
	t.Helper()
	file, err := os.Open("../../assets/demo/plates/crumb-" + name + ".jpg")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	photo, err := jpeg.Decode(file)
	if err != nil {
		t.Fatal(err)
	}
	f, err := Prepare(t.Context(), photo, Options{WidthMM: 120})
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// Cells whose floors lie in the shade are no crust: of a light crumb the flag says nothing.
func TestShadeIsNoCrust(t *testing.T) {
	for _, name := range race.Few([]string{"ferry-loaf-1-4", "ferry-loaf-2-7", "spelt-and-oats-1-6", "crossing-tin-0-5"}, 1) {
		if f := plateOf(t, name); f.stray > crustStray {
			t.Errorf("%s: %.3f of what lies deep passes for crust", name, f.stray)
		}
	}
}

// The shade in the cells is as warm as wood, and no hole through which a table of wood shows.
func TestShadeIsNoHole(t *testing.T) {
	for _, name := range race.Few([]string{"crossing-tin-0-5", "ferry-loaf-1-4", "ferry-loaf-2-4", "seeded-loaf-1-4.5"}, 1) {
		if f := plateOf(t, name); f.through > throughDoubt {
			t.Errorf("%s: in %.3f of the face the table is thought to show", name, f.through)
		}
	}
}

// Streaks of wood, and of brushed metal, are no part of the slice: of these photos none runs out of the picture.
func TestStreakedGround(t *testing.T) {
	for _, name := range race.Few([]string{"crossing-tin-0-5", "deck-rye-1-3", "deck-rye-1-4.5", "emmer-and-walnut-1-4"}, 1) {
		if f := plateOf(t, name); f.border > 0 {
			t.Errorf("%s: %.3f of the outline runs along the photo's border", name, f.border)
		}
	}
}

// A part of a face has cells as large as all of it: its edge cuts large cells more often than small ones, and if those
// that are cut were left out, as much as an eighth of the mean would be missing (the bias that weights by the
// chance of lying within mend: Miles 1974, in Harding & Kendall, Stochastic Geometry; from memory).
func TestMeanAreaOfAPart(t *testing.T) {
	const w, h, deepMM, sideMM = 900, 800, 12, 22
	p, err := phantom.Draw(t.Context(), phantom.Slice{Seed: 70003, Width: w, Height: h, SliceMM: 180, CrustMM: 1, Cells: phantom.Cells{MedianMM: 1.6, LogSD: 0.5, Porosity: 0.3}})
	if err != nil {
		t.Fatal(err)
	}
	k := p.Truth.PxPerMM
	labels, crumb, n := make([]int32, w*h), make([]bool, w*h), 0
	for i, l := range p.Labels {
		labels[i], crumb[i] = int32(l), p.Crumb.Pix[i] != 0
		n = max(n, int(l))
	}
	depth := distanceSquared(crumb, w, h)
	deep := func(x, y int) bool { return float64(depth[y*w+x]) > deepMM*deepMM*k*k }
	whole, cells := 0.0, 0.0
	for _, c := range measureRegions(labels, n, w, h, nil, crumb) {
		if c.Area > 0 && deep(int(c.X), int(c.Y)) {
			whole += float64(c.Area) / (k * k)
			cells++
		}
	}
	side := int(sideMM * k)
	sum, parts := 0.0, 0.0
	for y := 0; y < h-side; y += side / 4 {
		for x := 0; x < w-side; x += side / 4 {
			if !deep(x, y) || !deep(x+side, y) || !deep(x, y+side) || !deep(x+side, y+side) {
				continue
			}
			part, in := make([]int32, side*side), make([]bool, side*side)
			for i := range part {
				part[i], in[i] = labels[(y+i/side)*w+x+i%side], true
			}
			var found []Cell
			for _, c := range measureRegions(part, n, side, side, nil, in) {
				if c.Area > 0 {
					found = append(found, Cell{Area: float64(c.Area) / (k * k), Diameter: c.equivalentDiameter() / k, AtEdge: c.AtEdge})
				}
			}
			values := map[MeasureID]float64{}
			sizes(values, found, sideMM*sideMM, LargeFromMM)
			sum += values[MeanArea]
			parts++
		}
	}
	if parts < 30 || math.Abs(sum/parts/(whole/cells)-1) > 0.05 {
		t.Errorf("a mean area of %.2f mm² in %.0f parts, and of %.2f in the whole", sum/parts, parts, whole/cells)
	}
}

func TestFewness(t *testing.T) {
	alike := func(n, area int) []region {
		out := make([]region, n)
		for i := range out {
			out[i].Area = area
		}
		return out
	}
	for _, c := range []struct {
		name  string
		cells []region
		want  float64
	}{
		{"a hundred alike", alike(100, 7), 0.1},
		{"four alike", alike(4, 1000), 0.5},
		{"one takes half, the rest are dust", append(alike(1000, 1), region{Area: 1000}), 0.5},
		{"none", nil, 1},
	} {
		if got := fewness(c.cells); math.Abs(got-c.want) > 0.001 {
			t.Errorf("%s: %.3f, want %.3f", c.name, got, c.want)
		}
	}
}

// What goes by the sizes of cells is less sure the fewer there are, and so is what compares two parts of the face
// where each cell is seen in part.
func TestFewCellsAreLessSure(t *testing.T) {
	values := map[MeasureID]float64{}
	for _, d := range definitions {
		values[d.ID] = 1
	}
	off := func(id MeasureID, seen clarity, few float64) float64 {
		return uncertainty(id, values, &partition{seen: seen, few: few, whole: int(1 / (few * few)), grain: 9, sway: map[MeasureID]float64{}}, false)
	}
	for id, seen := range map[MeasureID]clarity{MeanArea: clearly, MedianDiameter: clearly, SmallToLarge: clearly, CellDensity: clearly,
		WallThickness: grainy, TextureWidth: clearly, MeanDiameter: inPart, EdgeToMiddle: inPart, TopToBottom: inPart} {
		if few, many := off(id, seen, 0.3), off(id, seen, 0.05); many <= 0 || few < 1.5*many {
			t.Errorf("%s: ± %.3f of a dozen cells, ± %.3f of hundreds", id, few, many)
		}
	}
}

// Where single cells cannot be told, no figure with a bar is good.
func TestNothingIsGoodWithoutCells(t *testing.T) {
	for c := weakly; c < clarities; c++ {
		doubtful, withheld := c.touched()
		for id := range offBy {
			if !slices.Contains(doubtful, id) && !slices.Contains(withheld, id) {
				t.Errorf("clarity %d: %s is good", c, id)
			}
		}
	}
}

func TestConformalBound(t *testing.T) {
	var v []float64
	for k := range 19 {
		v = append(v, float64(19-k))
	}
	// Of 19 errors the greatest bounds a further one with 19 chances in 20.
	if got := conformal(v); got != 19 {
		t.Errorf("the bound of 1 to 19 is %v, want 19", got)
	}
	if got := conformal(v[:8]); !math.IsInf(got, 1) {
		t.Errorf("eight errors bound a ninth by %v", got)
	}
}

func errorOf(id MeasureID, v, truth float64) float64 {
	switch {
	case id == Direction || inOwnUnit[id]:
		return math.Abs(change(id, truth, v))
	}
	return math.Abs(truth/v - 1)
}

// worthShowing is the widest uncertainty with which a figure is still shown.
func worthShowing(id MeasureID) float64 {
	switch {
	case id == Direction:
		return 30
	case id == Elongation:
		return 0.4
	case inOwnUnit[id]:
		return 0.25
	}
	return 0.5
}

// TestCalibration works out what offBy holds.
func TestCalibration(t *testing.T) {
	spans := [][2]uint64{{2, 3}}
	if *calibrate {
		spans = [][2]uint64{{0, 130}, {3000, 3120}, {10000, 10040}, {11000, 11030}}
	}
	errors := map[MeasureID]*[clarities][]float64{}
	for _, d := range definitions {
		errors[d.ID] = &[clarities][]float64{}
	}
	for _, span := range spans {
		for n := span[0]; n < span[1]; n++ {
			for _, g := range race.Few(generators, 1) {
				for _, m := range missesOf(t, g, n) {
					if !m.faulty {
						errors[m.id][m.seen] = append(errors[m.id][m.seen], m.error)
					}
				}
			}
		}
	}
	for _, d := range definitions {
		if d.ID == SureVoids {
			continue // a bound itself
		}
		row, counts := "", ""
		for c := range clarities {
			bound := math.Max(0.001, conformal(errors[d.ID][c]))
			if bound > worthShowing(d.ID) || c >= weakly && byCells(d.ID) {
				bound = 0
			}
			row += fmt.Sprintf("%.3f, ", bound)
			counts += fmt.Sprintf(" %d", len(errors[d.ID][c]))
		}
		line := fmt.Sprintf("%q: {%s}, // of%s\n", d.ID, row[:len(row)-2], counts)
		if *calibrate {
			fmt.Print(line)
		}
	}
	if len(errors[Porosity][clearly]) == 0 {
		t.Error("no slice is seen clearly")
	}
}

// byCells tells whether a measure goes by single cells.
func byCells(id MeasureID) bool {
	return !slices.Contains(append([]MeasureID{Porosity, EdgeToMiddle, TopToBottom}, textures...), id)
}

// conformal is the bound that nineteen in twenty of further errors keep; without end where there
// are too few to say.
func conformal(v []float64) float64 {
	rank := (19*(len(v)+1) + 19) / 20
	if rank > len(v) {
		return math.Inf(1)
	}
	return slices.Sorted(slices.Values(v))[rank-1]
}

// TestStatedUncertaintyHolds measures slices on which nothing was set, and wants nine in
// ten truths within what is stated of the figures that are good, and of those in doubt.
// With -table it measures sixty of each generator and says how it stands with each
// measure; without, a few.
func TestStatedUncertaintyHolds(t *testing.T) {
	first, count := uint64(1000), uint64(race.Cases(5, 1))
	if *showTable {
		first, count = 2000, 60
	}
	type tally struct{ within, of int }
	var all [Withheld]tally
	byMeasure := map[string]*tally{}
	var worst []miss
	shown, slicesSeen := map[clarity]int{}, map[clarity]int{}
	bias := map[string][]float64{} // of the open share, by generator and clarity
	for n := first; n < first+count; n++ {
		for _, g := range race.Few(generators, 1) {
			misses := missesOf(t, g, n)
			for i, m := range misses {
				if i == 0 {
					slicesSeen[m.seen]++
				}
				if m.id == Porosity {
					key := fmt.Sprintf("%s, clarity %d", g, m.seen)
					bias[key] = append(bias[key], m.value-m.truth)
				}
				in := b2i(math.Abs(change(m.id, m.truth, m.value)) <= m.off)
				switch {
				case m.trust == Withheld:
					continue
				case m.id == SureVoids: // a bound
					in = b2i(m.value <= m.truth)
				case m.off == 0:
					continue
				}
				shown[m.seen]++
				all[m.trust].of++
				all[m.trust].within += in
				key := fmt.Sprintf("%-20s %s", m.id, m.trust)
				if byMeasure[key] == nil {
					byMeasure[key] = &tally{}
				}
				byMeasure[key].of++
				byMeasure[key].within += in
				if in == 0 {
					worst = append(worst, m)
				}
			}
		}
	}
	for trust, c := range all {
		t.Logf("%s: %d of %d figures within what is stated", Trust(trust), c.within, c.of)
		if c.of < race.Cases(10, 0) || c.within*10 < race.Cases(9, 0)*c.of { // one slice says nothing of that
			t.Errorf("%s: only %d of %d figures lie within what is stated", Trust(trust), c.within, c.of)
		}
	}
	if !*showTable {
		return
	}
	for _, key := range slices.Sorted(maps.Keys(byMeasure)) {
		t.Logf("%s %3d of %3d", key, byMeasure[key].within, byMeasure[key].of)
	}
	for _, key := range slices.Sorted(maps.Keys(bias)) {
		v := slices.Sorted(slices.Values(bias[key]))
		t.Logf("open share less the true one, %s: %+.3f in the middle, %+.3f to %+.3f, of %d", key, v[len(v)/2], v[0], v[len(v)-1], len(v))
	}
	for c := range clarities {
		t.Logf("clarity %d: %d slices, %d figures shown", c, slicesSeen[c], shown[c])
	}
	slices.SortFunc(worst, func(a, b miss) int {
		return cmp.Compare(math.Abs(b.value-b.truth)/math.Max(b.off, 1e-3), math.Abs(a.value-a.truth)/math.Max(a.off, 1e-3))
	})
	for _, m := range worst[:min(12, len(worst))] {
		t.Logf("worst: %s, %s: %.3f ± %.3f, in truth %.3f", m.name, m.id, m.value, m.off, m.truth)
	}
}
