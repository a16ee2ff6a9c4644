package crumb

import (
	"image"
	"image/color"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// maskOf reads a drawing: # is in the mask.
func maskOf(rows ...string) (mask []bool, w, h int) {
	w, h = len(rows[0]), len(rows)
	for _, r := range rows {
		for _, c := range r {
			mask = append(mask, c == '#')
		}
	}
	return mask, w, h
}

func randomMask(t *rapid.T) (mask []bool, w, h int) {
	w, h = rapid.IntRange(1, 24).Draw(t, "w"), rapid.IntRange(1, 24).Draw(t, "h")
	return rapid.SliceOfN(rapid.Bool(), w*h, w*h).Draw(t, "mask"), w, h
}

func TestDistanceIsExact(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mask, w, h := randomMask(t)
		got := distanceSquared(mask, w, h)
		for i := range mask {
			want := math.MaxInt32
			for j := range mask {
				if !mask[j] {
					dx, dy := i%w-j%w, i/w-j/w
					want = min(want, dx*dx+dy*dy)
				}
			}
			if want != math.MaxInt32 && int(got[i]) != want {
				t.Fatalf("pixel %d: squared distance %d, want %d", i, got[i], want)
			}
			if want == math.MaxInt32 && got[i] < far {
				t.Fatalf("pixel %d: squared distance %d with no background at all", i, got[i])
			}
		}
	})
}

func TestDistanceWithinAReach(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mask, w, h := randomMask(t)
		reach := rapid.OneOf(rapid.IntRange(1, 12), rapid.Just(mostReach+1)).Draw(t, "reach")
		whole := distanceSquared(mask, w, h)
		for i, got := range distanceWithin(mask, w, h, reach) {
			if want := min(whole[i], int32(reach*reach), mostReach*mostReach); int32(got) != want {
				t.Fatalf("pixel %d within %d: squared distance %d, want %d", i, reach, got, want)
			}
		}
	})
}

func TestOtsuParts(t *testing.T) {
	for _, c := range []struct {
		name string
		hist map[int]int
		want int
	}{
		{"two peaks: the first level that parts them", map[int]int{10: 5, 200: 5}, 10},
		{"one level", map[int]int{77: 9}, 77},
		{"nothing", nil, 0},
		{"three levels, the middle nearer the dark one", map[int]int{0: 10, 50: 10, 255: 10}, 50},
	} {
		hist := make([]int, 256)
		for v, n := range c.hist {
			hist[v] = n
		}
		if got := otsu(hist); got != c.want {
			t.Errorf("%s: %d, want %d", c.name, got, c.want)
		}
	}
}

func TestComponentsByConnectivity(t *testing.T) {
	mask, w, h := maskOf(
		"#..##",
		".#.#.",
		"..#..",
		"##..#")
	if c := componentsOf(mask, w, h, true, false); len(c.size)-1 != 6 {
		t.Errorf("4-connected: %d components, want 6", len(c.size)-1)
	}
	c := componentsOf(mask, w, h, true, true)
	labels, n := labelsOf(c), len(c.size)-1
	if n != 2 {
		t.Errorf("8-connected: %d components, want 2", n)
	}
	if labels[0] != 1 || labels[19] != 2 {
		t.Errorf("labels run in reading order: got %v", labels)
	}
}

// labelsOf gives each pixel the number of its component, 0 outside them all.
func labelsOf(c components) []int32 {
	out := make([]int32, c.w*c.h)
	for _, r := range c.runs {
		for x := r.from; x < r.to; x++ {
			out[int(r.y)*c.w+int(x)] = r.label
		}
	}
	return out
}

func TestHolesAreFilledUpToASize(t *testing.T) {
	mask, w, h := maskOf(
		"#########",
		"#.##...##",
		"####...##",
		"####...#.",
		"#########")
	fillHoles(mask, w, h, 4)
	if !mask[10] {
		t.Error("a one-pixel glint was left")
	}
	if mask[14] {
		t.Error("a hole of nine pixels was filled though only less than four were asked for")
	}
	if mask[35] {
		t.Error("a bay open to the border is no hole")
	}
}

func TestSpecksGo(t *testing.T) {
	mask, w, h := maskOf(
		"#..##",
		"...##",
		"##...")
	removeSpecks(mask, w, h, 3)
	if count(mask) != 4 || !mask[3] {
		t.Errorf("want only the four pixels at the top right, got %v", mask)
	}
}

// discs marks every pixel within r of one of the middles.
func discs(w, h int, r float64, at ...Point) []bool {
	mask := make([]bool, w*h)
	for i := range mask {
		for _, p := range at {
			if math.Hypot(float64(i%w)-p.X, float64(i/w)-p.Y) < r {
				mask[i] = true
			}
		}
	}
	return mask
}

func TestMomentsOfKnownShapes(t *testing.T) {
	const w, h = 200, 160
	ellipse := make([]int32, w*h)
	// Half axes 60 and 25, the long one raised by 30° from the level.
	sin, cos := math.Sincos(30 * math.Pi / 180)
	for i := range ellipse {
		x, y := float64(i%w)-100, -(float64(i/w) - 80)
		if math.Pow((x*cos+y*sin)/60, 2)+math.Pow((y*cos-x*sin)/25, 2) < 1 {
			ellipse[i] = 1
		}
	}
	r := measureRegions(ellipse, 1, w, h, nil, nil)[0]
	for _, v := range []struct {
		what           string
		got, want, tol float64
	}{
		{"major axis", r.Major, 120, 0.3},
		{"minor axis", r.Minor, 50, 0.3},
		{"angle", r.Angle * 180 / math.Pi, 30, 0.2},
		{"x", r.X, 100, 0.05},
		{"y", r.Y, 80, 0.05},
		{"area", float64(r.Area), math.Pi * 60 * 25, 15},
	} {
		if math.Abs(v.got-v.want) > v.tol {
			t.Errorf("%s of an ellipse: %.3f, want %.3f", v.what, v.got, v.want)
		}
	}
}

func TestWallChordOfAGrid(t *testing.T) {
	// Cells 4 wide, walls 3 wide, along rows and columns alike.
	const w = 31
	labels, crumb := make([]int32, w*w), make([]bool, w*w)
	for i := range labels {
		crumb[i] = true
		if i%w%7 < 4 && i/w%7 < 4 {
			labels[i] = 1
		}
	}
	if got := wallChord(labels, crumb, w, w); math.Abs(got-3) > 1e-9 {
		t.Errorf("wall of 3 pixels measured as %g", got)
	}
	clear(labels)
	if got := wallChord(labels, crumb, w, w); got != 0 {
		t.Errorf("no cells, yet a wall between them of %g", got)
	}
}

func TestOutlineFillAndTraceAreInverse(t *testing.T) {
	const w, h = 80, 60
	mask := discs(w, h, 20, Point{35, 30}, Point{50, 25})
	first := 0
	for !mask[first] {
		first++
	}
	back := trace(mask, w, h, first).fill(frame{step: 1}, w, h)
	for i := range mask {
		if mask[i] != back[i] {
			t.Fatalf("pixel %d: %v after tracing and filling, was %v", i, back[i], mask[i])
		}
	}
}

func TestTraceEndsOnAnyMask(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mask, w, h := randomMask(t)
		px, first := largest(mask, w, h)
		if px == 0 {
			return
		}
		o := trace(mask, w, h, first)
		if a := math.Abs(o.area()); a < float64(px) {
			t.Fatalf("the outline of %d pixels encloses %g", px, a)
		}
	})
}

func TestMedianDepthHalvesTheArea(t *testing.T) {
	const w, h = 120, 120
	mask := discs(w, h, 50, Point{60, 60})
	d := distanceSquared(mask, w, h)
	mid := medianDepth(d, mask)
	inner := 0
	for i := range mask {
		if mask[i] && d[i] >= mid {
			inner++
		}
	}
	if share := float64(inner) / float64(count(mask)); math.Abs(share-0.5) > 0.02 {
		t.Errorf("the middle holds %.3f of the area, want half", share)
	}
}

func TestFlattenEvensTheLight(t *testing.T) {
	const w, h = 200, 150
	rgb, crumb := make([]uint8, 3*w*h), make([]bool, w*h)
	for i := range crumb {
		x, y := i%w, i/w
		crumb[i] = true
		v := 210 * (1 - 0.4*float64(x)/w)
		if x%20 < 8 && y%20 < 8 {
			v *= 0.5
		}
		for k := range 3 {
			rgb[3*i+k] = uint8(v)
		}
	}
	rel, light := flatten(rgb, crumb, w, h, 5)
	for i, v := range rel {
		// Towards the picture's sides the blur sees the light on one side only.
		want := 1.0
		if i%w%20 < 8 && i/w%20 < 8 {
			want = 0.5
		}
		if got := float64(v) / wallLevel; math.Abs(got-want) > 0.1*want {
			t.Fatalf("pixel %d,%d: %.3f of the wall's brightness, want %.1f", i%w, i/w, got, want)
		}
	}
	if light.ratio < 1.4 || light.ratio > 1.75 {
		t.Errorf("light falls to 0.6 across the picture, the ratio was taken as %.2f", light.ratio)
	}
}

// Walked in straight pieces, the light is what reading it pixel by pixel between the
// blocks gives.
func TestTheLightFieldIsReadBilinearly(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 4))
	for _, size := range [][3]int{{7, 5, 8}, {1, 1, 8}, {1, 4, 3}, {4, 1, 3}, {9, 6, 1}, {12, 3, 7}, {3, 3, 10}} {
		f := &field{w: size[0], h: size[1], block: float64(size[2])}
		for range f.w * f.h {
			f.v = append(f.v, 64+16000*random.Float32())
		}
		// The picture may end anywhere in the last block.
		for _, short := range []int{0, 1, size[2] - 1} {
			line := make([]float32, f.w*size[2]-short)
			for y := range f.h * size[2] {
				f.row(line, y)
				for x, got := range line {
					if want := bilinear(f, x, y); math.Abs(float64(got)-want) > 1e-4*want+0.01 {
						t.Fatalf("%d by %d blocks of %d: at (%d, %d) %v, want %v", f.w, f.h, size[2], x, y, got, want)
					}
				}
			}
		}
	}
}

func bilinear(f *field, x, y int) float64 {
	at := func(v int, n int) (int, int, float64) {
		g := math.Min(math.Max((float64(v)+0.5)/f.block-0.5, 0), float64(n-1))
		i := int(g)
		return i, min(i+1, n-1), g - float64(i)
	}
	i, i2, u := at(x, f.w)
	j, j2, v := at(y, f.h)
	top := float64(f.v[j*f.w+i])*(1-u) + float64(f.v[j*f.w+i2])*u
	low := float64(f.v[j2*f.w+i])*(1-u) + float64(f.v[j2*f.w+i2])*u
	return top*(1-v) + low*v
}

// A video picture's colours are averaged at their own resolution: that is the mean over the
// photo's pixels as they show.
func TestVideoPicturesAreReducedAsTheyShow(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 5))
	for _, ratio := range []image.YCbCrSubsampleRatio{image.YCbCrSubsampleRatio444, image.YCbCrSubsampleRatio422, image.YCbCrSubsampleRatio420,
		image.YCbCrSubsampleRatio440, image.YCbCrSubsampleRatio411, image.YCbCrSubsampleRatio410} {
		m := image.NewYCbCr(image.Rect(3, 5, 64, 52), ratio)
		for _, plane := range [][]uint8{m.Y, m.Cb, m.Cr} {
			for i := range plane {
				plane[i] = uint8(80 + rng.IntN(90))
			}
		}
		f := frame{x0: 4.3, y0: 6.1, step: 3.7}
		const w, h = 14, 11
		got := reduce(m, f, w, h, math.MaxInt32)
		for y := range h {
			for x := range w {
				// A fine grid over the working pixel's ground.
				const fine = 37
				var sum [3]float64
				for j := range fine {
					for i := range fine {
						p := f.toPhoto(float64(x)+(float64(i)+0.5)/fine, float64(y)+(float64(j)+0.5)/fine)
						c := m.YCbCrAt(int(p.X), int(p.Y))
						for k, v := range [3]uint8{c.Y, c.Cb, c.Cr} {
							sum[k] += float64(v) / (fine * fine)
						}
					}
				}
				var want [3]uint8
				want[0], want[1], want[2] = color.YCbCrToRGB(uint8(sum[0]+0.5), uint8(sum[1]+0.5), uint8(sum[2]+0.5))
				for k, v := range want {
					if d := int(got[3*(y*w+x)+k]) - int(v); d < -3 || d > 3 {
						t.Fatalf("%v: at (%d, %d) %v, want %v", ratio, x, y, got[3*(y*w+x):3*(y*w+x)+3], want)
					}
				}
			}
		}
	}
}

func TestRankedIsWhatSortingGives(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.SliceOfN(rapid.Map(rapid.IntRange(-5, 20), func(i int) float64 { return float64(i) / 3 }), 1, 60).Draw(t, "v")
		k := rapid.IntRange(0, len(v)-1).Draw(t, "k")
		want := slices.Sorted(slices.Values(v))[k]
		if got := ranked(v, k); got != want {
			t.Fatalf("place %d holds %v, want %v", k, got, want)
		}
	})
}
