package crumb

import (
	"math"
	"slices"
)

// wallLevel is the flattened brightness of a wall; cells lie below it.
const wallLevel = 1 << 13

// A lighting tells how the face was lit, for the quality flags.
type lighting struct {
	wallGrey float64    // median brightness of the walls, 0 to 255
	wall     [3]float64 // mean colour of the walls
	blown    float64    // share of wall pixels at the top of the scale
	ratio    float64    // brightest over darkest part of the crumb
	step     float64    // largest relative change of light within 6 mm
	field    *field     // the brightness of the walls across the face
}

// A field is the brightness of the walls across the face, on a coarse grid.
type field struct {
	w, h  int
	block float64
	v     []float32
}

// row reads the field bilinearly along a row of working pixels. The two rows of blocks
// are blended once; between two blocks the light then changes evenly, so it is walked in
// straight pieces.
func (f *field) row(dst []float32, y int) {
	gy := math.Min(math.Max((float64(y)+0.5)/f.block-0.5, 0), float64(f.h-1))
	j := min(int(gy), max(0, f.h-2))
	v := float32(gy - float64(j))
	a, b := f.v[j*f.w:(j+1)*f.w], f.v[min(j+1, f.h-1)*f.w:][:f.w]
	before := a[0] + (b[0]-a[0])*v
	x := min(len(dst), int(math.Ceil(0.5*f.block-0.5)))
	for k := range dst[:x] {
		dst[k] = before // as far as the middle of the first block
	}
	for i := 1; i < f.w && x < len(dst); i++ {
		next := a[i] + (b[i]-a[i])*v
		end := min(len(dst), int(math.Ceil((float64(i)+0.5)*f.block-0.5)))
		step := (next - before) / float32(f.block)
		at := before + step*float32(float64(x)+0.5-(float64(i)-0.5)*f.block)
		piece := dst[x:max(x, end)]
		for k := range piece {
			piece[k] = at
			at += step
		}
		before, x = next, max(x, end)
	}
	for k := range dst[x:] {
		dst[x+k] = before
	}
}

// Widths of the blur that makes the light field, in mm.
const (
	lightSigmaMM = 8.0
	lightBlockMM = 1.0
	lightPerMM   = 5.0 // as many pixels to the mm say as much of the light as all
)

// flatten divides the brightness of every pixel by that of the walls around
// it, so that light that falls off across the slice does not pass for cells.
// The field is a wide Gaussian of wall pixels alone (normalised convolution,
// Knutsson & Westin 1993): an average over everything would follow the cells.
func flatten(rgb []uint8, crumb []bool, w, h int, pxPerMM float64) ([]uint16, lighting) {
	luma := make([]uint16, w*h) // 64 steps to a grey level
	bands(h, func(from, to int) {
		for i := from * w; i < to*w; i++ {
			luma[i] = uint16((19136*uint32(rgb[3*i]) + 37568*uint32(rgb[3*i+1]) + 7296*uint32(rgb[3*i+2])) / 1000)
		}
	})
	block := max(1, int(math.Round(pxPerMM*lightBlockMM)))
	step := max(1, int(pxPerMM/lightPerMM))
	sigma := lightSigmaMM * pxPerMM / float64(block)
	above := float32(0)
	var f *field
	for range 4 {
		f = wallField(luma, crumb, w, h, block, step, sigma, f, above)
		above = halfway(luma, crumb, w, h, step, f)
	}
	light := f.lighting(rgb, luma, crumb, w, h, above, pxPerMM)
	bands(h, func(from, to int) {
		line := make([]float32, w)
		for y := from; y < to; y++ {
			f.row(line, y)
			for x, wall := range line {
				i := y*w + x
				luma[i] = uint16(min(65535, float32(luma[i])*wallLevel/max(wall, 64)))
			}
		}
	})
	return luma, light
}

// wallField blurs the pixels that are brighter than a share of the field
// before it; the first time, of all pixels. It looks at one pixel of step, either way.
func wallField(luma []uint16, crumb []bool, w, h, block, step int, sigma float64, prev *field, above float32) *field {
	f := &field{w: (w + block - 1) / block, h: (h + block - 1) / block, block: float64(block)}
	sum := make([]float32, f.w*f.h)
	num := make([]float32, f.w*f.h)
	bands(f.h, func(from, to int) {
		line := make([]float32, w)
		for b := from; b < to; b++ {
			sums, nums := sum[b*f.w:(b+1)*f.w], num[b*f.w:(b+1)*f.w]
			for y := b * block; y < min(h, (b+1)*block); y += step {
				if prev != nil {
					prev.row(line, y)
				}
				row, in := luma[y*w:(y+1)*w], crumb[y*w:(y+1)*w]
				for c := range sums {
					var s, n float32
					for x := c * block; x < min(w, (c+1)*block); x += step {
						if v := float32(row[x]); in[x] && v >= above*line[x] {
							s += v
							n++
						}
					}
					sums[c] += s
					nums[c] += n
				}
			}
		}
	})
	gaussian(sum, f.w, f.h, sigma)
	gaussian(num, f.w, f.h, sigma)
	last := float32(64)
	f.v = sum
	for i := range sum {
		if num[i] > 1e-6 {
			last = sum[i] / num[i]
		}
		f.v[i] = last
	}
	return f
}

// halfway returns the share of the field that lies half-way between the medians
// of wall and cell, parted by Otsu's threshold.
func halfway(luma []uint16, crumb []bool, w, h, step int, f *field) float32 {
	hist := make([]int, 2*histOne)
	line := make([]float32, w)
	for y := 0; y < h; y += 2 { // every other row says as much
		f.row(line, y)
		for x := 0; x < w; x += step {
			if i := y*w + x; crumb[i] {
				hist[min(2*histOne-1, int(float32(luma[i])*histOne/max(line[x], 64)))]++
			}
		}
	}
	lo, hi := classMedians(hist, otsu(hist))
	return float32(lo+hi) / 2 / float32(histOne)
}

const histOne = 256 // histogram bin of a pixel as bright as the field

// classMedians returns the median levels at or below t and above it.
func classMedians(hist []int, t int) (lo, hi float64) {
	return histMedian(hist[:t+1], 0), histMedian(hist[t+1:], t+1)
}

func histMedian(hist []int, offset int) float64 {
	total := 0
	for _, n := range hist {
		total += n
	}
	seen := 0
	for v, n := range hist {
		if n > 0 && 2*(seen+n) >= total {
			return float64(offset+v) + (float64(total)/2-float64(seen))/float64(n)
		}
		seen += n
	}
	return float64(offset)
}

// quantile is the first level of a histogram up to which a share of it lies.
func quantile(hist []int, share float64) int {
	total, seen := 0, 0
	for _, n := range hist {
		total += n
	}
	for v, n := range hist {
		if seen += n; float64(seen) >= share*float64(total) {
			return v
		}
	}
	return len(hist) - 1
}

func (f *field) lighting(rgb []uint8, luma []uint16, crumb []bool, w, h int, above float32, pxPerMM float64) lighting {
	var l lighting
	var hist [256]int
	blown, walls := 0, 0
	var sum [3]float64
	line := make([]float32, w)
	for y := 0; y < h; y += 2 {
		f.row(line, y)
		for x := range w {
			i := y*w + x
			if !crumb[i] || float32(luma[i]) < above*line[x] {
				continue
			}
			walls++
			hist[luma[i]>>6]++
			if rgb[3*i] >= 252 && rgb[3*i+1] >= 252 || luma[i] >= 250<<6 {
				blown++
			}
			for k := range 3 {
				sum[k] += float64(rgb[3*i+k])
			}
		}
	}
	if walls == 0 {
		return l
	}
	l.wallGrey = histMedian(hist[:], 0)
	l.blown = float64(blown) / float64(walls)
	for k := range sum {
		l.wall[k] = sum[k] / float64(walls)
	}
	l.field = f
	l.ratio, l.step = f.unevenness(crumb, w, h, pxPerMM)
	return l
}

// unevenness compares the field within the crumb: its 98th percentile over its
// 2nd, and its largest relative change over 6 mm.
func (f *field) unevenness(crumb []bool, w, h int, pxPerMM float64) (ratio, step float64) {
	inside := func(i, j int) bool {
		x, y := int((float64(i)+0.5)*f.block), int((float64(j)+0.5)*f.block)
		return x < w && y < h && crumb[y*w+x]
	}
	var all []float32
	d := max(1, int(math.Round(6*pxPerMM/f.block)))
	for j := range f.h {
		for i := range f.w {
			if !inside(i, j) {
				continue
			}
			v := f.v[j*f.w+i]
			all = append(all, v)
			for _, q := range [2][2]int{{i + d, j}, {i, j + d}} {
				if q[0] < f.w && q[1] < f.h && inside(q[0], q[1]) {
					u := f.v[q[1]*f.w+q[0]]
					step = math.Max(step, math.Abs(float64(u-v))/float64(max(u, v, 1)))
				}
			}
		}
	}
	if len(all) == 0 {
		return 1, 0
	}
	slices.Sort(all)
	return float64(all[len(all)*98/100]) / math.Max(1, float64(all[len(all)*2/100])), step
}

// median puts the values of v into another order.
func median(v []float32) float32 { return ranked(v, len(v)/2) }

// ranked returns the value that would stand at place k if v were in order, and puts v into
// another order for it: quickselect (Hoare 1961, Communications of the ACM 4:321).
func ranked[T float32 | float64](v []T, k int) T {
	lo, hi := 0, len(v)-1
	for lo < hi {
		pivot := max(min(v[lo], v[hi]), min(max(v[lo], v[hi]), v[(lo+hi)/2]))
		i, j := lo, hi
		for i <= j {
			for v[i] < pivot {
				i++
			}
			for v[j] > pivot {
				j--
			}
			if i <= j {
				v[i], v[j] = v[j], v[i]
				i++
				j--
			}
		}
		switch {
		case k <= j:
			hi = j
		case k >= i:
			lo = i
		default:
			return v[k]
		}
	}
	return v[k]
}
