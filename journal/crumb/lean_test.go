package crumb

import (
	"context"
	"math"
	"testing"

	"twinloaf/journal/journaltest/race"
)

// The floors of cells slope as they were made to, whichever way the cells lie, and a crumb whose cells
// slope each another way does not.
func TestLeanIsTheFloorsSlope(t *testing.T) {
	const w, h = 240, 120
	for _, c := range []struct{ left, right, want float64 }{{0.5, 0.5, 0.5}, {0.2, 0.2, 0.2}, {0.5, -0.5, 0}, {0, 0, 0}} {
		f := &Prepared{w: w, h: h, rel: make([]uint16, w*h), crumb: make([]bool, w*h), levels: levels{wall: 8000, cell: 4000}}
		labels := make([]int32, w*h)
		for i := range labels {
			f.crumb[i] = true
			x, y := float64(i%w), float64(i/w)
			for l, slope := range []float64{c.left, c.right} {
				// Ellipses three times as long as wide, aslant.
				dx, dy := x-60-120*float64(l), y-60
				if a, b := (dx+dy)/math.Sqrt2/45, (dx-dy)/math.Sqrt2/15; a*a+b*b < 1 {
					labels[i] = int32(l + 1)
					f.rel[i] = uint16(4000 + slope*4000*dx/(2*math.Sqrt(45*15)))
				}
			}
		}
		if got := f.leanOf(labels, measureRegions(labels, 2, w, h, nil, f.crumb)); math.Abs(got-c.want) > 0.02 {
			t.Errorf("floors that slope by %.1f and %.1f of their depth: %.3f, want %.1f", c.left, c.right, got, c.want)
		}
	}
}

// measuredTrial measures a drawn slice.
func measuredTrial(t *testing.T, generator string, n uint64) (*Result, trial) {
	t.Helper()
	s, err := trialOf(generator, n)
	if err != nil {
		t.Fatal(err)
	}
	r, err := Measure(context.Background(), s.photo, 0, s.options)
	if err != nil {
		t.Fatal(err)
	}
	return r, s
}

// Slices that were measured wrong without a word: one with shallow bowls that are as bright as the wall,
// one whose crust shades into a pale crumb, one that is lit from one side, and two whose bowls are lit in half.
func TestWhatWasWrongWithoutAFlag(t *testing.T) {
	type wrong struct {
		generator string
		n         uint64
		id        MeasureID
		kind      FlagKind // "" where it is to be right
	}
	for _, c := range race.Few([]wrong{
		{"phantom", 2036, CellDensity, ""},
		{"foam", 2022, Porosity, PartSeen},
		{"phantom", 2058, Alignment, SideLit},
		{"foam", 2019, EdgeToMiddle, PartSeen},
		{"foam", 2048, EdgeToMiddle, PartSeen},
	}, 1) {
		r, s := measuredTrial(t, c.generator, c.n)
		f, said := r.Measured(c.id), c.kind == ""
		for _, fl := range r.Flags {
			said = said || fl.Kind == c.kind && fl.touches(c.id)
		}
		if good := f.Trust == Good; !said || good != (c.kind == "") || good && math.Abs(f.Value-s.truth[c.id]) > f.Off {
			t.Errorf("%s %d, %s: %.3f ± %.3f, %s, in truth %.3f; %+v", c.generator, c.n, c.id, f.Value, f.Off, f.Trust, s.truth[c.id], r.Flags)
		}
	}
}

// What makes a figure err more widens what is stated of it: round cells, blur, grain, and floors of which the
// light takes more at one place than at another.
func TestWhatMakesAFigureErrWidensIt(t *testing.T) {
	off := func(id MeasureID, values map[MeasureID]float64, p partition) float64 {
		return uncertainty(id, values, &p, false)
	}
	cells := func(elongation, alignment float64) map[MeasureID]float64 {
		return map[MeasureID]float64{Elongation: elongation, Alignment: alignment, CorrelationMM: 1, TextureWidth: 1, EdgeToMiddle: 1}
	}
	long := cells(2, 0.8)
	for _, c := range []struct {
		name       string
		less, more float64
		times      float64
	}{
		{"alignment of round cells", off(Alignment, long, partition{}), off(Alignment, cells(1.2, 0.8), partition{}), 5},
		{"direction of cells that lie apart", off(Direction, long, partition{}), off(Direction, cells(2, 0.4), partition{}), 2},
		{"elongation of long cells", off(Elongation, cells(1.5, 0.8), partition{}), off(Elongation, long, partition{}), 2},
		{"correlation length of a blurred photo", off(CorrelationMM, long, partition{blur: 0.02}), off(CorrelationMM, long, partition{blur: 0.17}), 4},
		{"texture width of a grainy wall", off(TextureWidth, long, partition{grain: 14}), off(TextureWidth, long, partition{grain: 7}), 2},
		{"edge against middle of half-lit bowls", off(EdgeToMiddle, long, partition{seen: inPart}),
			off(EdgeToMiddle, long, partition{seen: inPart, sway: map[MeasureID]float64{EdgeToMiddle: 0.1}}), 3},
	} {
		if math.Abs(c.more/c.less-c.times) > 1e-9 {
			t.Errorf("%s: off by %.3f, and by %.3f, want %.1f times as much", c.name, c.less, c.more, c.times)
		}
	}
}

// Two halves of a slice, the floors of one as bright as the line between wall and cell: how much is open above against below
// hangs on where the line is drawn.
func TestSwayIsWhatTheLineDecides(t *testing.T) {
	const w, h = 40, 40
	f := &Prepared{w: w, h: h, rel: make([]uint16, w*h), crumb: make([]bool, w*h), middle: make([]bool, w*h), crumbPx: w * h, levels: levels{wall: 8000, cell: 4000}}
	for i := range f.rel {
		x, y := i%w, i/w
		f.crumb[i], f.middle[i], f.rel[i] = true, x%2 == 0, 8000
		switch {
		case x/2%4 == 0:
			f.rel[i] = 4000
		case x/2%4 == 1 && y < h/2:
			f.rel[i] = 6000
		}
	}
	// By the low line a quarter of each half is open, by the high one half of the upper: 1 and 2.
	s := f.sway()
	if math.Abs(s[TopToBottom]-1) > 1e-9 || s[EdgeToMiddle] != 0 {
		t.Errorf("top against bottom sways by %.3f, edge against middle by %.3f, want 1 and 0", s[TopToBottom], s[EdgeToMiddle])
	}
}
