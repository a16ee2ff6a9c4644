package crumb

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Spread by rows is what looking at each neighbour gives.
func TestSpreadTakesTheNeighbours(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.IntRange(1, 12).Draw(t, "w"), rapid.IntRange(1, 12).Draw(t, "h")
		tx := &texture{w: w, h: h, in: rapid.SliceOfN(rapid.SampledFrom([]uint16{0, math.MaxUint16}), w*h, w*h).Draw(t, "in")}
		src := rapid.SliceOfN(rapid.Uint16(), w*h, w*h).Draw(t, "src")
		corners := rapid.Bool().Draw(t, "corners")
		for i, in := range tx.in {
			src[i] &= in
		}
		got := make([]uint16, w*h)
		tx.spread(got, src, corners)
		for y := range h {
			for x := range w {
				want := src[y*w+x]
				for dy := -1; dy <= 1; dy++ {
					for dx := -1; dx <= 1; dx++ {
						xx, yy := x+dx, y+dy
						if xx < 0 || yy < 0 || xx >= w || yy >= h || !corners && dx != 0 && dy != 0 {
							continue
						}
						want = max(want, src[yy*w+xx])
					}
				}
				if tx.in[y*w+x] == 0 {
					want = 0
				}
				if got[y*w+x] != want {
					t.Fatalf("at (%d, %d) %d, want %d", x, y, got[y*w+x], want)
				}
			}
		}
	})
}

// Stripes are as wide as they are, whatever their depth; the brightness of stripes is
// as unlike after a third of them as theory says.
func TestTextureOfStripes(t *testing.T) {
	const w, h, perMM = 200, 160, 4
	for _, wide := range []int{4, 8, 12} { // pixels, a quarter of a millimetre each
		for _, depth := range []uint16{800, 4000} {
			rel, in := make([]uint16, w*h), make([]bool, w*h)
			for i := range rel {
				in[i], rel[i] = true, wallLevel
				if i%w/wide%2 == 0 {
					rel[i] -= depth
				}
			}
			tx := newTexture(rel, in, levels{cell: wallLevel - float64(depth), wall: wallLevel}, w, h, perMM)
			if got, want := tx.width(), float64(wide)/perMM; math.Abs(got/want-1) > 0.35 {
				t.Errorf("stripes of %.2f mm, %d deep, are %.2f mm wide", want, depth, got)
			}
			// Along the stripes nothing changes, across them likeness falls evenly from 1
			// to -1 in a stripe's width: the mean of both is 1/e after 0.63 of it.
			if got, want := tx.correlation(), (1-1/math.E)*float64(wide)/perMM; math.Abs(got/want-1) > 0.1 {
				t.Errorf("stripes of %.2f mm: correlation length %.3f mm, want %.3f", float64(wide)/perMM, got, want)
			}
		}
	}
}

// A wide dark place is a sure void; a narrow one is not, nor is one that is shallow beside the grain or
// beside the cells.
func TestSureVoids(t *testing.T) {
	const w, h, perMM = 160, 120, 4
	for _, c := range []struct {
		radius float64
		deep   uint16
		cells  float64 // how deep most are
		want   bool
	}{{10, 4000, 4000, true}, {3, 4000, 4000, false}, {10, 350, 300, false}, {10, 450, 300, true}, {10, 1500, 4000, false}} {
		rel, in := make([]uint16, w*h), make([]bool, w*h)
		for i := range rel {
			in[i], rel[i] = true, wallLevel
			if math.Hypot(float64(i%w)-80, float64(i/w)-60) < c.radius {
				rel[i] -= c.deep
			}
		}
		l := levels{cell: wallLevel - c.cells, wall: wallLevel}
		got := newTexture(rel, in, l, w, h, perMM).sure(l, 100, sureWidthMM)
		want := 0.0
		if c.want {
			want = math.Pi * c.radius * c.radius / (w * h)
		}
		if math.Abs(got-want) > 0.1*want {
			t.Errorf("a place of radius %.1f mm, %d deep: %.4f of the crumb is sure, want %.4f", c.radius/perMM, c.deep, got, want)
		}
	}
}
