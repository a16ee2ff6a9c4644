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
	if total == 0 {
		return 0
	}
	return (wall - cell) / max(bin/2, (float64(quantile(hist[:], 0.683))+0.5)*bin-wall)
}
