package jar

import (
	"math"
	"slices"
)

// A spread is how far the looks of one kind of cell lie apart.
type spread struct{ luma, blue, red, texture float64 }

// The least spread, of what should look the same in two pictures: from made-up series
// of the tests.
var glassSpread = spread{luma: 0.07, blue: 0.025, red: 0.025, texture: 0.25}

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

// A mute is what a cell may not say.
type mute uint8

// The mutes.
const (
	neverGlass mute = 1 + iota // that there is no dough
	silent                     // anything
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

// across is how far each column lies on the way from the middle of what is looked at beside
// the jar at its left to that at its right.
var across = func() (out [columns]float64) {
	for c := range out {
		in := inset + (1-2*inset)*(float64(c)+0.5)/columns
		out[c] = (in + besideAt) / (1 + 2*besideAt)
	}
	return out
}()

// unevenLight is how much brighter light may have become in one part of the height than in the
// whole, in logarithms, and how much bluer and redder: more than that is an arm, or another
// thing.
var unevenLight = [3]float64{0.3, 0.05, 0.05}

// A lit is a strip in the light of the first picture.
type lit struct {
	cells []cellLook
	same  spread // how far cells that show the same lie apart: in the dark, by the camera's noise
	light float64
}

// evened puts a strip into the light of the first picture: what is beside the jar tells how.
func (t *Tracker) evened(s *Strip) lit {
	out := slices.Clone(s.cells)
	const around = 12
	var rest [3][]float64
	var texture []float64
	var whole [2][3]float64
	for side := range whole {
		for i, get := range []func(cellLook) float32{(cellLook).luma, (cellLook).blue, (cellLook).red} {
			v := make([]float64, t.rows)
			for r := range v {
				v[r] = float64(get(s.sides[side][r]) - get(t.zero.sides[side][r]))
			}
			whole[side][i] = median(v)
		}
	}
	for r := range t.rows {
		var light [2][3]float64 // at either side
		for side := range light {
			now, then := s.sides[side], t.zero.sides[side]
			var d [3][]float64
			for k := max(0, r-around); k < min(t.rows, r+around+1); k += 2 {
				a, b := now[k], then[k]
				d[0] = append(d[0], float64(a.Luma-b.Luma))
				d[1] = append(d[1], float64(a.Blue-b.Blue))
				d[2] = append(d[2], float64(a.Red-b.Red))
			}
			a, b := now[r], then[r]
			for i, v := range []float32{a.Luma - b.Luma, a.Blue - b.Blue, a.Red - b.Red} {
				here := median(d[i])
				light[side][i] = whole[side][i] + max(-unevenLight[i], min(unevenLight[i], here-whole[side][i]))
				rest[i] = append(rest[i], math.Abs(float64(v)-here))
			}
			texture = append(texture, math.Abs(float64(a.Texture-b.Texture)))
		}
		for c := range columns {
			k := &out[r*columns+c]
			at := across[c]
			k.Luma -= float32(light[0][0] + at*(light[1][0]-light[0][0]))
			k.Blue -= float32(light[0][1] + at*(light[1][1]-light[0][1]))
			k.Red -= float32(light[0][2] + at*(light[1][2]-light[0][2]))
		}
	}
	// A cell is an eighth of the jar's width, what is beside it almost half of one: its noise
	// is almost twice as large. An arm that reaches in is beside the jar, too, so that less than
	// half of it may be what it was: of a normal distribution three tenths lie within 0.385
	// standard deviations.
	apart := func(least float64, v []float64) float64 {
		slices.Sort(v)
		return max(least, 1.9/0.385*v[len(v)*3/10])
	}
	return lit{cells: out, light: s.Light, same: spread{
		luma: apart(glassSpread.luma, rest[0]), blue: apart(glassSpread.blue, rest[1]),
		red: apart(glassSpread.red, rest[2]), texture: max(glassSpread.texture, median(texture)),
	}}
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
func (t *Tracker) doughOf(cells []cellLook, dead []mute, same spread) (cellLook, spread) {
	top := max(3, t.level*7/10)
	var f [4][]float64
	for r := 1; r < top; r++ {
		for c := range columns {
			if dead != nil && dead[r*columns+c] == silent {
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

// learntCost is how much more it costs to hold a cell for what it looked like later than for what
// the first picture shows.
const learntCost = 0.3

func mixed(a, b cellLook, of float32) cellLook {
	return cellLook{a.Luma + of*(b.Luma-a.Luma), a.Blue + of*(b.Blue-a.Blue), a.Red + of*(b.Red-a.Red), a.Texture + of*(b.Texture-a.Texture)}
}

// fieldOf works out what one picture says. Cells that are dead say nothing; wetted is the
// highest row that dough has been at before; bares, once there are any, is what cells looked
// like without dough not long before or after.
func (t *Tracker) fieldOf(l *lit, dead []mute, wetted int, bares []bare) field {
	cells, same := l.cells, l.same
	dough, apart := t.doughOf(cells, dead, same)
	f := field{at: make([]float64, t.rows+1), says: make([]float32, len(cells)), light: l.light}
	fits := make([][2]float64, t.rows) // the cost of a row as dough, and as glass
	alive := make([]int, t.rows)
	for r := range t.rows {
		row := 0.0
		for c := range columns {
			i := r*columns + c
			if dead != nil && dead[i] == silent {
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
			if bares != nil && bares[i].from >= 0 {
				asGlass = min(asGlass, learntCost+cost(cells[i], bares[i].look, same))
			}
			says := max(-mostForDough, min(mostForGlass, asDough-asGlass))
			if dead != nil && dead[i] == neverGlass {
				says = min(0, says)
			}
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
