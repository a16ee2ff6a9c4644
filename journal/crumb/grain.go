package crumb

// contrastOverGrain is how far the cells lie below the walls in brightness, in
// standard deviations of the walls' own grain: what decides whether a hollow can be
// told from a speck of bran. The grain is taken above the walls' middle level alone,
// where no cell's edge can reach: the spread that holds 68.3 % of that half, as one
// standard deviation does. It is 0 where there is no wall to judge by. Contrast to
// noise is a common measure of imaging; taking the wall's upper half is our own.
func contrastOverGrain(labels []int32, rel []uint16, crumb []bool, wall, cell float64) float64 {
	const bin = 16
	var hist [4 * wallLevel / bin]int
	total := 0
	for i, l := range labels {
		if l == 0 && crumb[i] && float64(rel[i]) >= wall {
			hist[min(len(hist)-1, int(rel[i])/bin)]++
			total++
		}
	}
	seen := 0
	for v, n := range hist {
		if seen += n; n > 0 && float64(seen) >= 0.683*float64(total) {
			return (wall - cell) / max(bin/2, (float64(v)+0.5)*bin-wall)
		}
	}
	return 0
}
