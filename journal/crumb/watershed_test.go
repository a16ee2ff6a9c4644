package crumb

import (
	"cmp"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func TestWatershedSplitsAtNecks(t *testing.T) {
	const w, h = 90, 50
	for _, c := range []struct {
		name string
		mask []bool
		want int
	}{
		{"one disc", discs(w, h, 14, Point{40, 25}), 1},
		{"two discs with a narrow neck", discs(w, h, 14, Point{28, 25}, Point{53, 25}), 2},
		{"two discs almost one", discs(w, h, 14, Point{35, 25}, Point{45, 25}), 1},
		{"three in a row", discs(w, h, 10, Point{20, 25}, Point{38, 25}, Point{56, 25}), 3},
		{"two apart", discs(w, h, 8, Point{20, 20}, Point{60, 30}), 2},
		{"nothing", make([]bool, w*h), 0},
	} {
		labels, n := watershed(distanceWithin(c.mask, w, h, mostReach), w, h)
		if n != c.want {
			t.Errorf("%s: %d cells, want %d", c.name, n, c.want)
		}
		for i, l := range labels {
			if (l != 0) != c.mask[i] {
				t.Fatalf("%s: label %d at pixel %d, mask %v", c.name, l, i, c.mask[i])
			}
		}
	}
}

// Whatever the depths, what comes out is that of a flooding pixel by pixel, from the deepest
// outwards, like ones in reading order.
func TestWatershedFloods(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.IntRange(1, 16).Draw(t, "w"), rapid.IntRange(1, 16).Draw(t, "h")
		d2 := rapid.SliceOfN(rapid.Uint16Range(0, rapid.SampledFrom([]uint16{2, 9, 400, math.MaxUint16}).Draw(t, "deepest")), w*h, w*h).Draw(t, "depths")
		got, n := watershed(d2, w, h)
		want, m := flooded(d2, w, h)
		if n != m || !slices.Equal(got, want) {
			t.Fatalf("%d by %d: %d cells %v, flooding gives %d: %v", w, h, n, got, m, want)
		}
	})
}

func flooded(d2 []uint16, w, h int) ([]int32, int) {
	var order []int
	for i, d := range d2 {
		if d > 0 {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(d2[b], d2[a]) })
	labels, set, peak := make([]int32, w*h), disjoint{0}, []uint16{0}
	for _, i := range order {
		var near []int32
		steepest := -1
		for _, o := range [8][2]int{{-1, 0}, {1, 0}, {0, -1}, {0, 1}, {-1, -1}, {1, -1}, {-1, 1}, {1, 1}} {
			x, y := i%w+o[0], i/w+o[1]
			if x < 0 || y < 0 || x >= w || y >= h || labels[y*w+x] == 0 {
				continue
			}
			j := y*w + x
			near = append(near, labels[j])
			if int(d2[j]) > steepest {
				labels[i], steepest = labels[j], int(d2[j])
			}
		}
		if near == nil {
			labels[i] = int32(len(set))
			set, peak = append(set, labels[i]), append(peak, d2[i])
		} else {
			joinBasins(set, peak, near, d2[i])
		}
	}
	to := map[int32]int32{0: 0}
	for i, l := range labels {
		r := set.find(l)
		if _, known := to[r]; !known {
			to[r] = int32(len(to))
		}
		labels[i] = to[r]
	}
	return labels, len(to) - 1
}

func TestWatershedSplitsTouchingDiscsEvenly(t *testing.T) {
	const w, h = 90, 50
	labels, n := watershed(distanceWithin(discs(w, h, 14, Point{28, 25}, Point{53, 25}), w, h, mostReach), w, h)
	r := measureRegions(labels, n, w, h, nil, nil)
	if n != 2 || math.Abs(float64(r[0].Area-r[1].Area)) > 0.04*float64(r[0].Area) {
		t.Fatalf("two like discs came out as %+v", r)
	}
}
