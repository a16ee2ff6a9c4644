package crumb

// openMask is the morphological opening by a disc (Serra 1982): it removes
// what is narrower than the disc.
func openMask(mask []bool, w, h int, radius float64) []bool {
	return dilateMask(erodeMask(mask, w, h, radius), w, h, radius)
}

func erodeMask(mask []bool, w, h int, radius float64) []bool {
	d := distanceWithin(mask, w, h, int(radius)+2)
	r2 := uint16(radius * radius)
	out := make([]bool, len(mask))
	for i, v := range d {
		out[i] = v > r2
	}
	return out
}

func dilateMask(mask []bool, w, h int, radius float64) []bool {
	return complement(erodeMask(complement(mask), w, h, radius))
}

func complement(mask []bool) []bool {
	out := make([]bool, len(mask))
	for i, m := range mask {
		out[i] = !m
	}
	return out
}
