package formula

import (
	"cmp"
	"fmt"
	"math"
)

// Tin is the inside of what a loaf is baked in, in millimetres at its rim and at its
// base. A base of zero is as large as the rim. A round tin has its diameters for lengths.
type Tin struct {
	Length, Width         float64
	BaseLength, BaseWidth float64
	Depth                 float64
	Round                 bool
}

// Volume is what the tin holds to its rim. It is exact for walls that slope evenly, by
// the prismoidal rule of solid geometry: a sixth of the depth, times the area of the rim,
// that of the base and four times that half-way between them. The grams of water that fill
// the tin are the same figure without measuring.
func (t Tin) Volume() (Millilitres, error) {
	if t.Round {
		t.Width, t.BaseWidth = t.Length, t.BaseLength
	}
	for _, v := range []float64{t.Length, t.Width, t.Depth, t.BaseLength, t.BaseWidth} {
		if !usable(v) {
			return 0, fmt.Errorf("a tin with a measure of %g mm: %w", v, ErrNotAWeight)
		}
	}
	t.BaseLength = cmp.Or(t.BaseLength, t.Length)
	t.BaseWidth = cmp.Or(t.BaseWidth, t.Width)
	half := (t.Length + t.BaseLength) * (t.Width + t.BaseWidth) / 4
	area := (t.Length*t.Width + t.BaseLength*t.BaseWidth + 4*half) / 6
	if t.Round {
		area *= math.Pi / 4
	}
	if ml := area * t.Depth / 1000; usable(ml) && ml > 0 {
		return Millilitres(ml), nil
	}
	return 0, fmt.Errorf("a tin of %g by %g by %g mm: %w", t.Length, t.Width, t.Depth, ErrNotAWeight)
}

// TinBread is a kind of bread that is baked in a tin.
type TinBread string

// The kinds of bread, from the lightest to the heaviest.
const (
	TinLidded    TinBread = "white, lid on"
	TinWhite     TinBread = "white, open"
	TinSourdough TinBread = "white sourdough"
	TinWhole     TinBread = "wholegrain wheat"
	TinMixed     TinBread = "half rye"
	TinRye       TinBread = "rye"
)

// TinBreads lists the kinds in that order.
func TinBreads() []TinBread {
	return []TinBread{TinLidded, TinWhite, TinSourdough, TinWhole, TinMixed, TinRye}
}

// Space is the room in the tin that a gram of dough wants, in millilitres: the tin's
// factor, its volume over the weight of the dough. Common practice, no source, all six: bakers
// give from 2.6 to 3 for white bread of yeast, less the less a dough rises, and let dense
// rye fill two thirds of the tin. A kind that is none of [TinBreads] has 0.
func (b TinBread) Space() float64 { return tinSpace[b] }

var tinSpace = map[TinBread]float64{TinLidded: 3, TinWhite: 2.8, TinSourdough: 2.3, TinWhole: 2.1, TinMixed: 1.8, TinRye: 1.4}

// tinSlack is how far bakers differ in it, either way (common practice, no source).
const tinSlack = 0.1

// TinDough is the dough for a tin: a weight, and from what to what bakers would give it.
type TinDough struct{ Grams, Least, Most Grams }

// DoughFor is the dough for a tin of a volume when a gram wants so many millilitres.
func DoughFor(volume Millilitres, space float64) (TinDough, error) {
	if !usable(float64(volume)) || volume <= 0 || !usable(space) || space <= 0 {
		return TinDough{}, fmt.Errorf("dough for a tin of %g ml at %g ml a gram: %w", float64(volume), space, ErrNotAWeight)
	}
	g := Grams(float64(volume) / space)
	return TinDough{Grams: g, Least: g / (1 + tinSlack), Most: g / (1 - tinSlack)}, nil
}
