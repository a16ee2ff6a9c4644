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
// one whose crust shades into a pale crumb, and one that is lit from one side.
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

// Nearly round cells point nowhere for sure.
func TestRoundCellsPointLessSurely(t *testing.T) {
	off := func(id MeasureID, elongation, alignment float64) float64 {
		return uncertainty(id, map[MeasureID]float64{Elongation: elongation, Alignment: alignment}, clearly, false)
	}
	if long, round := off(Alignment, 2, 0.8), off(Alignment, 1.2, 0.8); math.Abs(round/long-5) > 1e-9 {
		t.Errorf("the alignment of round cells is off by %.3f, of long ones by %.3f", round, long)
	}
	if together, apart := off(Direction, 2, 0.8), off(Direction, 2, 0.4); math.Abs(apart/together-2) > 1e-9 {
		t.Errorf("the direction of cells that lie apart is off by %.2f°, of such that lie together by %.2f°", apart, together)
	}
}
