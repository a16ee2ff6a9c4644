package crumb

import "math"

// edgeBlur is how soft the sharpest edges of a photo are, working pixels: over all
// of them, and over those of the one direction, of four, in which they are softest.
type edgeBlur struct{ all, worst float64 }

// leastEdges is how many edge pixels tell anything; of one direction half as many.
const leastEdges = 200

// sharpestEdge estimates the blur of the photo: the standard deviation, in
// pixels, of the Gaussian that would make a step as soft as the sharpest tenth
// of cell edges are. Cells with sloping sides have soft edges in the sharpest
// photo, so the mean edge would say nothing; but in a blurred photo no edge is
// sharp. A camera that moved softens the edges across its way alone, hence the
// worst of four directions. Both are 0 when there are too few edges to tell. The edge
// as a measure of blur: Marziliano et al. 2002, IEEE International Conference on Image
// Processing 3:57, from memory; the directions are our own.
func sharpestEdge(labels []int32, rel []uint16, wall float64, w, h int) edgeBlur {
	height := wall - float64(deepLevel(labels, rel))
	if height <= 0 {
		return edgeBlur{}
	}
	var slopes [blurDirections][slopeSteps]int
	var n [blurDirections]int
	for y := 1; y < h-1; y++ {
		for i := y*w + 1; i < (y+1)*w-1; i++ {
			l := labels[i]
			if l == 0 || !atRim(labels, i, w) {
				continue
			}
			gx, gy := sobel(rel, i, w)
			k := axisOf(gx, gy)
			slopes[k][slopeSteps-1-min(slopeSteps-1, int(slopeSteps*math.Sqrt(gx*gx+gy*gy)/height))]++
			n[k]++
		}
	}
	var all [slopeSteps]int
	var out edgeBlur
	edges := 0
	for k := range slopes {
		if n[k] >= leastEdges/2 {
			out.worst = math.Max(out.worst, blurOf(slopes[k][:]))
		}
		for s, n := range slopes[k] {
			all[s] += n
		}
		edges += n[k]
	}
	if edges < leastEdges {
		return edgeBlur{}
	}
	out.all = blurOf(all[:])
	return out
}

const (
	blurDirections = 4
	slopeSteps     = 512
)

// axisOf is which of the four axes (across, down, and the two diagonals) a slope
// lies along.
func axisOf(gx, gy float64) int {
	const eighth = math.Sqrt2 - 1 // tan 22.5°
	switch x, y := math.Abs(gx), math.Abs(gy); {
	case y <= eighth*x:
		return 0
	case x <= eighth*y:
		return 2
	case (gx > 0) == (gy > 0):
		return 1
	}
	return 3
}

// blurOf is the standard deviation that the steepest tenth of edges has, counted by their steepest change a
// pixel over their height, the steepest first.
func blurOf(slopes []int) float64 {
	sigma := slopeSteps / ((float64(slopeSteps-1-quantile(slopes, 0.1)) + 0.5) * math.Sqrt(2*math.Pi))
	return math.Sqrt(math.Max(0, sigma*sigma-slopeBlur*slopeBlur))
}

// slopeBlur is what the operator's own width makes of a perfect step, pixels.
const slopeBlur = 0.8

// sobel is the change of brightness a pixel, across and down, by Sobel's operator.
func sobel(rel []uint16, i, w int) (gx, gy float64) {
	v := func(j int) int { return int(rel[j]) }
	x := 2*(v(i+1)-v(i-1)) + v(i+1-w) - v(i-1-w) + v(i+1+w) - v(i-1+w)
	y := 2*(v(i+w)-v(i-w)) + v(i+w-1) - v(i-w-1) + v(i+w+1) - v(i-w+1)
	return float64(x) / 8, float64(y) / 8
}

// deepLevel is the brightness that a tenth of all cell pixels do not reach: the
// floor of the deep cells, whose edges are the steepest.
func deepLevel(labels []int32, rel []uint16) uint16 {
	const shift = 4
	var hist [65536 >> shift]int
	for i, l := range labels {
		if l != 0 {
			hist[rel[i]>>shift]++
		}
	}
	return uint16(quantile(hist[:], 0.1) << shift)
}
