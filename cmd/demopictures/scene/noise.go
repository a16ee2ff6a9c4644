package scene

import "math/rand/v2"

// tileSide is the side of a tile of noise, a power of two.
const tileSide = 512

// A tile is a square of noise between 0 and 1 that joins itself on all sides.
// Asking a tile is many times cheaper than making noise afresh at every pixel.
type tile [tileSide * tileSide]float32

// newTile adds up octaves of smooth noise, the first with the given number of
// lumps along a side, each finer and fainter than the one before.
func newTile(rng *rand.Rand, lumps int, octaves int) *tile {
	t := new(tile)
	var weight, sum float32 = 1, 0
	for range octaves {
		t.addOctave(rng, lumps, weight)
		sum += weight
		lumps, weight = min(2*lumps, tileSide), weight*0.55
	}
	t.stretch()
	return t
}

func (t *tile) addOctave(rng *rand.Rand, lumps int, weight float32) {
	at := make([]float32, lumps*lumps)
	for i := range at {
		at[i] = rng.Float32()
	}
	step := float32(lumps) / tileSide
	for y := range tileSide {
		j, v := split(float32(y) * step)
		r, q := at[j%lumps*lumps:], at[(j+1)%lumps*lumps:]
		for x := range tileSide {
			i, u := split(float32(x) * step)
			k := (i + 1) % lumps
			t[y*tileSide+x] += weight * mix(mix(r[i], r[k], u), mix(q[i], q[k], u), v)
		}
	}
}

// split parts a place into a whole number and a smoothed fraction.
func split(x float32) (whole int, part float32) {
	whole = int(x)
	part = x - float32(whole)
	return whole, part * part * (3 - 2*part)
}

// stretch spreads the tile over 0 to 1.
func (t *tile) stretch() {
	lo, hi := t[0], t[0]
	for _, v := range t {
		lo, hi = min(lo, v), max(hi, v)
	}
	for i := range t {
		t[i] = (t[i] - lo) / (hi - lo)
	}
}

// at reads the tile between its points.
func (t *tile) at(x, y float32) float32 {
	const far = 1 << 15 * tileSide // so that truncation rounds down
	x, y = x+1<<14, y+1<<14
	ix, iy := int(x), int(y)
	u, v := x-float32(ix), y-float32(iy)
	ix, iy = (ix+far)&(tileSide-1), (iy+far)&(tileSide-1)
	jx, jy := (ix+1)&(tileSide-1), (iy+1)&(tileSide-1)
	r, q := iy*tileSide, jy*tileSide
	return mix(mix(t[r+ix], t[r+jx], u), mix(t[q+ix], t[q+jx], u), v)
}
