package jar

import (
	"math"
	"slices"
)

// A spread is how far the looks of one kind of cell lie apart.
type spread struct{ luma, blue, red, texture float64 }

// The least spread, of what should look the same in two pictures: from made-up series
// of the tests.
var glassSpread = spread{luma: 0.07, blue: 0.012, red: 0.012, texture: 0.25}

// cost is Cauchy's loss of a look against what is expected, over all that is seen.
func cost(seen, want cellLook, s spread) float64 {
	one := func(a, b float32, by float64) float64 { return math.Log1p(sq(float64(a-b) / by)) }
	return one(seen.Luma, want.Luma, s.luma) + one(seen.Blue, want.Blue, s.blue) + one(seen.Red, want.Red, s.red) + 0.7*one(seen.Texture, want.Texture, s.texture)
}

// How much one cell may say for dough or for glass: few must not outvote the others.
// A cell that looks as it did at first may be a label, with dough behind it; one that
// looks like dough has hardly another reason. Neighbours say much the same, so that
// all of it is tempered.
const (
	mostForDough = 5.0
	mostForGlass = 1.8
	temper       = 0.25
)

// A field is what one picture says of each height.
type field struct {
	// at is the cost of the surface standing below each row, 0 to rows; the least is 0.
	at []float64
	// says is, for each cell, how much more it costs to hold it for dough than for
	// what was seen there first.
	says []float32
	// misfit is the mean cost of cells at the best height in the part of the jar where
	// it is greatest: how little the picture is like dough below and the first above.
	misfit float64
	light  float64
}

// evened gives the cells of a strip in the light of the first picture, and how far
// cells that show the same lie apart in it: in the dark, by the camera's noise. What is
// beside the jar tells both.
func (t *Tracker) evened(s *Strip) ([]cellLook, spread) {
	out := slices.Clone(s.cells)
	const around = 12
	var rest [3][]float64
	var texture []float64
	for r := range t.rows {
		var d [3][]float64
		for k := max(0, r-around); k < min(t.rows, r+around+1); k += 2 {
			a, b := s.side[k], t.zero.side[k]
			d[0] = append(d[0], float64(a.Luma-b.Luma))
			d[1] = append(d[1], float64(a.Blue-b.Blue))
			d[2] = append(d[2], float64(a.Red-b.Red))
		}
		light := [3]float64{median(d[0]), median(d[1]), median(d[2])}
		a, b := s.side[r], t.zero.side[r]
		for i, v := range []float32{a.Luma - b.Luma, a.Blue - b.Blue, a.Red - b.Red} {
			rest[i] = append(rest[i], math.Abs(float64(v)-light[i]))
		}
		texture = append(texture, math.Abs(float64(a.Texture-b.Texture)))
		for c := range columns {
			k := &out[r*columns+c]
			k.Luma, k.Blue, k.Red = k.Luma-float32(light[0]), k.Blue-float32(light[1]), k.Red-float32(light[2])
		}
	}
	// A cell is a sixth of the jar's width, what is beside it almost one: its noise
	// is twice as large.
	apart := func(least float64, v []float64) float64 { return max(least, 2*1.48*median(v)) }
	return out, spread{
		luma: apart(glassSpread.luma, rest[0]), blue: apart(glassSpread.blue, rest[1]),
		red: apart(glassSpread.red, rest[2]), texture: max(glassSpread.texture, median(texture)),
	}
}

func median(v []float64) float64 {
	if len(v) == 0 {
		return 0
	}
	slices.Sort(v)
	return v[len(v)/2]
}

// doughOf is what dough looks like in a picture: the middle of the lower part of the
// jar, where there is always dough, and how far it lies apart.
func (t *Tracker) doughOf(cells []cellLook, dead []bool, same spread) (cellLook, spread) {
	top := max(3, t.level*7/10)
	var f [4][]float64
	for r := 1; r < top; r++ {
		for c := range columns {
			if dead != nil && dead[r*columns+c] {
				continue
			}
			k := cells[r*columns+c]
			for i, v := range []float32{k.Luma, k.Blue, k.Red, k.Texture} {
				f[i] = append(f[i], float64(v))
			}
		}
	}
	var mid, apart [4]float64
	for i := range f {
		mid[i] = median(f[i])
		for k := range f[i] {
			f[i][k] = math.Abs(f[i][k] - mid[i])
		}
		apart[i] = 1.48 * median(f[i]) // of a normal distribution that is its standard deviation
	}
	return cellLook{float32(mid[0]), float32(mid[1]), float32(mid[2]), float32(mid[3])}, spread{
		luma: max(apart[0], same.luma), blue: max(apart[1], same.blue),
		red: max(apart[2], same.red), texture: max(apart[3], same.texture),
	}
}

// glassAt is what a cell looks like with no dough behind it: as in the first picture,
// and below the level, where there was dough then, as just above it.
func (t *Tracker) glassAt(row, column int) cellLook {
	if row > t.level+1 {
		return t.zero.at(min(row, t.rows-1), column)
	}
	return t.zero.at(min(t.level+3, t.rows-1), column)
}

// films are how much more it costs to hold a cell for glass with so thick a film of dough
// on it than for clean glass. It looks like something between both, and is only where
// dough has been.
var films = []struct {
	thick float32
	cost  float64
}{{0.3, 0.6}, {0.55, 0.7}, {0.75, 1.3}}

func mixed(a, b cellLook, of float32) cellLook {
	return cellLook{a.Luma + of*(b.Luma-a.Luma), a.Blue + of*(b.Blue-a.Blue), a.Red + of*(b.Red-a.Red), a.Texture + of*(b.Texture-a.Texture)}
}

// fieldOf works out what one picture says. Cells that are dead say nothing; wetted is the
// highest row that dough has been at before.
func (t *Tracker) fieldOf(s *Strip, dead []bool, wetted int) field {
	cells, same := t.evened(s)
	dough, apart := t.doughOf(cells, dead, same)
	f := field{at: make([]float64, t.rows+1), says: make([]float32, len(cells)), light: s.Light}
	fits := make([][2]float64, t.rows) // the cost of a row as dough, and as glass
	alive := make([]int, t.rows)
	for r := range t.rows {
		row := 0.0
		for c := range columns {
			i := r*columns + c
			if dead != nil && dead[i] {
				continue
			}
			alive[r]++
			asDough := cost(cells[i], dough, apart)
			asGlass := math.Inf(1)
			for k := max(0, r-1); k <= min(t.rows-1, r+1); k++ {
				asGlass = min(asGlass, cost(cells[i], t.glassAt(k, c), same))
			}
			if r <= wetted {
				glass := t.glassAt(r, c)
				for _, f := range films {
					asGlass = min(asGlass, f.cost+cost(cells[i], mixed(glass, dough, f.thick), same))
				}
			}
			says := max(-mostForDough, min(mostForGlass, asDough-asGlass))
			f.says[i] = float32(says)
			row += says
			fits[r][0] += asDough
			fits[r][1] += asGlass
		}
		f.at[r+1] = f.at[r] + temper*row
	}
	best := 0
	for h := range f.at {
		if f.at[h] < f.at[best] {
			best = h
		}
	}
	least := f.at[best]
	for h := range f.at {
		f.at[h] -= least
	}
	fit := make([]float64, t.rows)
	for r := range t.rows {
		fit[r] = fits[r][1]
		if r < best {
			fit[r] = fits[r][0]
		}
		if n := alive[r]; n > 0 {
			fit[r] /= float64(n)
		}
	}
	f.misfit = worstRun(fit, t.rows/6)
	return f
}

// worstRun is the largest mean of n neighbours.
func worstRun(v []float64, n int) float64 {
	most, sum := 0.0, 0.0
	for i, x := range v {
		sum += x
		if i >= n {
			sum -= v[i-n]
		}
		if i >= n-1 {
			most = max(most, sum/float64(n))
		}
	}
	return most
}
