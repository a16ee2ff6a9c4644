package ferment

import (
	"cmp"
	"slices"
)

// A collapse is a loss, never regained, of fallen of the rise and of at least
// leastFall over the mark. Our choice: a few times the error of reading a jar,
// and well before the dome has sunk.
const (
	fallen    = 0.08
	leastFall = 0.10
)

// splitCollapse parts readings, sorted by time, into those up to the collapse
// and those after it, which belong to no growth curve. The last reading close to
// the top stays in.
func splitCollapse(points []Point) (before, after []Point) {
	if len(points) == 0 {
		return nil, nil
	}
	lowest, top := points[0].Height, points[0].Height
	for _, p := range points {
		top = max(top, p.Height)
	}
	last := 0
	for i, p := range points {
		if p.Height == top {
			last = i
			break
		}
		lowest = min(lowest, p.Height)
	}
	line := top - max(leastFall, fallen*(top-lowest))
	for i := last; i < len(points); i++ {
		if points[i].Height >= line {
			last = i
		}
	}
	return points[:last+1], points[last+1:]
}

// sameTime is the time, a second in hours, within which readings are one reading.
const sameTime = 1.0 / 3600

// tidy sorts points by time and takes the mean of those at the same time.
func tidy(points []Point) []Point {
	sorted := slices.Clone(points)
	slices.SortStableFunc(sorted, func(a, b Point) int { return cmp.Compare(a.Hours, b.Hours) })
	out := sorted[:0]
	for i := 0; i < len(sorted); {
		at, k, sum, sd := sorted[i].Hours, i, 0.0, sorted[i].SD
		for ; k < len(sorted) && sorted[k].Hours-at < sameTime; k++ {
			sum += sorted[k].Height
			if sorted[k].SD == 0 {
				sd = 0 // one of them was read by eye
			}
		}
		out = append(out, Point{Hours: at, Height: sum / float64(k-i), SD: sd})
		i = k
	}
	return out
}
