package formula

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// FlourTraits are what tells how much water a flour wants. A nil figure is not known.
type FlourTraits struct {
	Key        string // by which doughs with the same flour are known
	Protein    *Percent
	Ash        *Percent // of dry matter
	Wholegrain Percent
	Rye        bool
}

// FlourPart is a flour and its share of all flour, 0 to 1.
type FlourPart struct {
	FlourTraits
	Share float64
}

// WetDough is a dough that was baked: how much water its flours were given.
type WetDough struct {
	Style     string // doughs of one formula are alike but for their flours
	Flours    []FlourPart
	Hydration Percent
	Score     int // of the bread, 1 to 9; 0 if it was not judged
}

// Absorption is what a baker's doughs tell of the water that flours want.
//
// A dough's hydration is taken as what its formula is like, and what its flours want by
// their shares: so much by protein, ash, whole grain and rye, and each flour something of
// its own. All of it is found together, by Bayesian linear regression with the beliefs
// below (ridge regression; Hoerl & Kennard 1970, Technometrics 12:55). What a formula is
// like drops out where one flour is put for another, and only that is told.
type Absorption struct {
	mean   *mat.VecDense
	chol   *mat.Cholesky
	own    map[string]int // place of a flour's own wish among the unknowns
	doughs map[string]int // with each flour
}

// The traits, by their place among the unknowns.
const (
	ofProtein = iota
	ofAsh
	ofBran
	ofRye
	traits
)

// What is believed before a dough was baked, in points of hydration. Protein: of 44 wheat
// flours of 10.6 to 14.8 % protein and nearly one ash a farinograph took up 55.7 to 63.2 %
// water (Sedláček & Švec 2023, Croat J Food Sci Technol 15, doi 10.17508/CJFST.2023.15.2.04),
// so a point of it wants at most 1.8. The others are common practice, no source: a wholegrain
// wheat wants some eight points more than a white one, rye a few more than wheat.
var thirst = [traits]struct{ mean, sd float64 }{
	ofProtein: {1.1, 0.5}, // per point of protein
	ofAsh:     {3, 2},     // per point of ash
	ofBran:    {4.5, 3},   // all wholegrain against none, beside its ash
	ofRye:     {4, 4},
}

// How far flours, formulas and doughs stray in points of hydration, and what is taken of
// a flour whose bag does not say (our own guesses, no source).
const (
	ownThirst    = 1.8  // sd of a flour about what its traits tell
	styleSpread  = 7.0  // sd of formulas
	doughThirst  = 2.0  // sd of a dough about what its flours want
	usualWet     = 68.0 // hydration of the usual formula
	usualProtein = 11.8
	whiteAsh     = 0.6
	branAsh      = 1.1 // more, all wholegrain
	proteinBy    = 1.2 // sd of a protein that is not known
	ashBy        = 0.2 // sd of an ash that is not known
)

// row gives a flour's traits, and the variance that comes of those not known.
func (f FlourTraits) row() (x [traits]float64, unknown float64) {
	bran := float64(f.Wholegrain) / 100
	ash := whiteAsh + branAsh*bran
	if f.Ash != nil {
		x[ofAsh] = float64(*f.Ash) - whiteAsh
	} else {
		x[ofAsh] = ash - whiteAsh
		unknown += ashBy * ashBy * thirst[ofAsh].mean * thirst[ofAsh].mean
	}
	switch {
	case f.Rye: // its protein binds little, what does is told by its ash
	case f.Protein != nil:
		x[ofProtein] = float64(*f.Protein) - usualProtein
	default:
		unknown += proteinBy * proteinBy * thirst[ofProtein].mean * thirst[ofProtein].mean
	}
	x[ofBran] = bran
	if f.Rye {
		x[ofRye] = 1
	}
	return x, unknown
}

// Worth is what a dough counts for, where something is learned from how it was made, by the
// score of its bread, 1 to 9: one with a poor bread is no good example. A dough of which
// nobody judged the bread, 0, counts 1 (our own choice).
func Worth(score int) float64 {
	if score == 0 {
		return 1
	}
	return min(max(float64(score)/6, 0.25), 1.5)
}

// LearnAbsorption learns from doughs. With none it is the beliefs.
func LearnAbsorption(doughs []WetDough) *Absorption {
	a := &Absorption{own: map[string]int{}, doughs: map[string]int{}}
	styles := map[string]int{}
	var traitsOf []FlourTraits // of each flour, as the last dough has it
	doughs = slices.DeleteFunc(slices.Clone(doughs), func(d WetDough) bool {
		return len(d.Flours) == 0 || !usable(float64(d.Hydration)) || d.Hydration <= 0
	})
	for _, d := range doughs {
		if _, ok := styles[d.Style]; !ok {
			styles[d.Style] = len(styles)
		}
		for _, f := range d.Flours {
			if _, ok := a.own[f.Key]; !ok {
				a.own[f.Key] = len(a.own)
				traitsOf = append(traitsOf, f.FlourTraits)
			}
			traitsOf[a.own[f.Key]] = f.FlourTraits
			a.doughs[f.Key]++
		}
	}
	for k := range a.own {
		a.own[k] += traits
	}
	n := traits + len(a.own) + len(styles)
	prec, rhs := mat.NewSymDense(n, nil), mat.NewVecDense(n, nil)
	for i, b := range thirst {
		prec.SetSym(i, i, 1/(b.sd*b.sd))
		rhs.SetVec(i, b.mean/(b.sd*b.sd))
	}
	for i, f := range traitsOf {
		_, unknown := f.row()
		prec.SetSym(traits+i, traits+i, 1/(ownThirst*ownThirst+unknown))
	}
	for i := traits + len(a.own); i < n; i++ {
		prec.SetSym(i, i, 1/(styleSpread*styleSpread))
	}
	for _, d := range doughs {
		row := a.parts(d.Flours, n)
		row.SetVec(traits+len(a.own)+styles[d.Style], 1)
		w := Worth(d.Score) / (doughThirst * doughThirst)
		prec.SymRankOne(prec, w, row)
		rhs.AddScaledVec(rhs, w*(float64(d.Hydration)-usualWet), row)
	}
	a.mean, a.chol = mat.NewVecDense(n, nil), new(mat.Cholesky)
	if a.chol.Factorize(prec) {
		// The precision holds the beliefs, so this cannot fail on finite figures.
		_ = a.chol.SolveVecTo(a.mean, rhs)
	}
	return a
}

// parts is what flours want, as a sum of the unknowns.
func (a *Absorption) parts(flours []FlourPart, n int) *mat.VecDense {
	row := mat.NewVecDense(n, nil)
	for _, f := range flours {
		x, _ := f.row()
		for i, v := range x {
			row.SetVec(i, row.AtVec(i)+f.Share*v)
		}
		if i, ok := a.own[f.Key]; ok {
			row.SetVec(i, row.AtVec(i)+f.Share)
		}
	}
	return row
}

// Wish is how much more water flours want than others, in points of hydration, with an
// interval that should hold the truth eight times in ten.
type Wish struct {
	More, Low, High Percent
	// Doughs is how many were baked with the flour that is least known of the new ones.
	Doughs int
}

// Instead is how much more water the new flours want than the old ones.
func (a *Absorption) Instead(old, now []FlourPart) Wish {
	n := a.mean.Len()
	row := a.parts(now, n)
	row.SubVec(row, a.parts(old, n))
	w := Wish{Doughs: math.MaxInt}
	variance := 0.0
	strange := map[string]float64{} // what is told of flours that no dough had, by their share
	unknown := map[string]float64{}
	count := func(flours []FlourPart, sign float64, fresh bool) {
		for _, f := range flours {
			if f.Share <= 0 {
				continue
			}
			if _, ok := a.own[f.Key]; !ok {
				strange[f.Key] += sign * f.Share
				_, unknown[f.Key] = f.row()
			}
			if fresh {
				w.Doughs = min(w.Doughs, a.doughs[f.Key])
			}
		}
	}
	count(old, -1, false)
	count(now, 1, true)
	for k, share := range strange {
		variance += share * share * (ownThirst*ownThirst + unknown[k])
	}
	if w.Doughs == math.MaxInt {
		w.Doughs = 0
	}
	var back mat.VecDense
	if a.chol.SolveVecTo(&back, row) == nil {
		variance += mat.Dot(row, &back)
	}
	more, sd := mat.Dot(row, a.mean), math.Sqrt(variance)
	w.More, w.Low, w.High = Percent(more), Percent(more-1.2816*sd), Percent(more+1.2816*sd)
	return w
}
