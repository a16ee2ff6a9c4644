package crumb

import "math"

// sharpestEdge estimates the blur of the photo: the standard deviation, in
// pixels, of the Gaussian that would make a step as soft as the sharpest tenth
// of cell edges are. Cells with sloping sides have soft edges in the sharpest
// photo, so the mean edge would say nothing; but in a blurred photo no edge is
// sharp. It returns 0 when there are too few edges to tell. The edge as a measure
// of blur: Marziliano et al. 2002, IEEE International Conference on Image
// Processing 3:57, from memory.
func sharpestEdge(labels []int32, rel []uint16, wall float64, w, h int) float64 {
	height := wall - float64(deepLevel(labels, rel))
	if height <= 0 {
		return 0
	}
	const steps = 512
	var slopes [steps]int // of edges, by their steepest change a pixel over their height
	n := 0
	for y := 1; y < h-1; y++ {
		for i := y*w + 1; i < (y+1)*w-1; i++ {
			l := labels[i]
			if l == 0 || !atRim(labels, i, w) {
				continue
			}
			slopes[min(steps-1, int(steps*slope(rel, i, w)/height))]++
			n++
		}
	}
	if n < 200 {
		return 0
	}
	seen := 0
	for s := steps - 1; s > 0; s-- {
		seen += slopes[s]
		if 10*seen >= n {
			sigma := steps / ((float64(s) + 0.5) * math.Sqrt(2*math.Pi))
			return math.Sqrt(math.Max(0, sigma*sigma-slopeBlur*slopeBlur))
		}
	}
	return 0
}

// slopeBlur is what slope's own width makes of a perfect step, pixels.
const slopeBlur = 0.8

// slope is the change of brightness a pixel, by Sobel's operator.
func slope(rel []uint16, i, w int) float64 {
	v := func(j int) int { return int(rel[j]) }
	gx := 2*(v(i+1)-v(i-1)) + v(i+1-w) - v(i-1-w) + v(i+1+w) - v(i-1+w)
	gy := 2*(v(i+w)-v(i-w)) + v(i+w-1) - v(i-w-1) + v(i+w+1) - v(i-w+1)
	return math.Hypot(float64(gx), float64(gy)) / 8
}

// deepLevel is the brightness that a tenth of all cell pixels do not reach: the
// floor of the deep cells, whose edges are the steepest.
func deepLevel(labels []int32, rel []uint16) uint16 {
	const shift = 4
	var hist [65536 >> shift]int
	n := 0
	for i, l := range labels {
		if l != 0 {
			hist[rel[i]>>shift]++
			n++
		}
	}
	seen := 0
	for v, k := range hist {
		if seen += k; 10*seen >= n {
			return uint16(v << shift)
		}
	}
	return 0
}
