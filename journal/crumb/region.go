package crumb

import (
	"math"
	"math/bits"
)

// A region is one cell as found, in working pixels until scaled.
type region struct {
	Area         int     // pixels
	X, Y         float64 // centroid; the middle of the first pixel is (0, 0)
	Major, Minor float64 // axes of the ellipse with the same second moments
	Angle        float64 // of the major axis, radians anticlockwise from the horizontal, -π/2 to π/2
	AtEdge       bool    // cut by the crumb's edge

	rgb [3]float64 // mean colour
}

// equivalentDiameter is the diameter of the circle with the same area.
func (r region) equivalentDiameter() float64 { return 2 * math.Sqrt(float64(r.Area)/math.Pi) }

// sums are the raw moments of a region, whole numbers so that they are exact.
type sums struct {
	n, x, y, xx, yy, xy int64
	r, g, b             int64
	edge                bool
}

// measureRegions takes the area, centroid and second central moments of each
// label (Hu 1962, IRE Transactions on Information Theory 8:179) and from them
// the ellipse of equal moments. rgb and crumb may be nil.
func measureRegions(labels []int32, n, w, h int, rgb []uint8, crumb []bool) []region {
	total := make([]sums, n+1)
	for y := range h {
		for x := range w {
			i := y*w + x
			if l := labels[i]; l != 0 {
				total[l].add(x, y, i, w, h, rgb, crumb)
			}
		}
	}
	out := make([]region, n)
	for l := 1; l <= n; l++ {
		out[l-1] = total[l].region()
	}
	return out
}

func (s *sums) add(x, y, i, w, h int, rgb []uint8, crumb []bool) {
	s.n++
	s.x += int64(x)
	s.y += int64(y)
	s.xx += int64(x) * int64(x)
	s.yy += int64(y) * int64(y)
	s.xy += int64(x) * int64(y)
	if rgb != nil {
		s.r += int64(rgb[3*i])
		s.g += int64(rgb[3*i+1])
		s.b += int64(rgb[3*i+2])
	}
	if crumb != nil && !s.edge {
		s.edge = x == 0 || y == 0 || x == w-1 || y == h-1 || !crumb[i-1] || !crumb[i+1] || !crumb[i-w] || !crumb[i+w]
	}
}

func (s sums) region() region {
	if s.n == 0 {
		return region{}
	}
	n := float64(s.n)
	r := region{Area: int(s.n), X: float64(s.x) / n, Y: float64(s.y) / n, AtEdge: s.edge}
	uxx := minus(s.n, s.xx, s.x, s.x) / n / n
	uyy := minus(s.n, s.yy, s.y, s.y) / n / n
	uxy := minus(s.n, s.xy, s.x, s.y) / n / n
	mid, half := (uxx+uyy)/2, math.Hypot((uxx-uyy)/2, uxy)
	r.Major, r.Minor = 4*math.Sqrt(math.Max(0, mid+half)), 4*math.Sqrt(math.Max(0, mid-half))
	r.Angle = -math.Atan2(2*uxy, uxx-uyy) / 2 // y runs down in the picture
	r.rgb = [3]float64{float64(s.r) / n, float64(s.g) / n, float64(s.b) / n}
	return r
}

// minus returns ab - cd for numbers that are not negative. The products are
// exact in 128 bits: taken as floats their difference would lose the small
// moments of a region far from the corner.
func minus(a, b, c, d int64) float64 {
	h1, l1 := bits.Mul64(uint64(a), uint64(b))
	h2, l2 := bits.Mul64(uint64(c), uint64(d))
	sign := 1.0
	if h1 < h2 || h1 == h2 && l1 < l2 {
		h1, l1, h2, l2, sign = h2, l2, h1, l1, -1
	}
	lo, borrow := bits.Sub64(l1, l2, 0)
	hi, _ := bits.Sub64(h1, h2, borrow)
	return sign * (float64(hi)*(1<<64) + float64(lo))
}
