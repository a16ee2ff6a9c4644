package formula

import "slices"

// Formula is what goes into a dough. The zero value is an empty formula.
type Formula struct {
	// Lines are weighed for the final dough, beside the levains.
	Lines []Ingredient `json:"lines,omitzero"`
	// Levains are built beforehand and go into the final dough when ripe.
	Levains []Levain `json:"levains,omitzero"`
}

// Levain is a part of a formula that is built beforehand: a seed culture with
// the flour and water it is fed.
type Levain struct {
	Name  string       `json:"name,omitzero"`
	Lines []Ingredient `json:"lines,omitzero"`
	// KeptBack stays out of the dough, to carry the culture on.
	KeptBack Grams `json:"keptBack,omitzero"`
}

// Built is the weight of the whole levain.
func (l Levain) Built() Grams {
	var sum Grams
	for _, in := range l.Lines {
		sum += in.Grams
	}
	return sum
}

// Used is the weight that goes into the dough.
func (l Levain) Used() Grams {
	return max(0, l.Built()-l.KeptBack)
}

// usedShare is the part of every line of the levain that reaches the dough.
func (l Levain) usedShare() Grams {
	if built := l.Built(); built > 0 {
		return l.Used() / built
	}
	return 0
}

// Clone copies the formula so deeply that the copy shares nothing with it.
func (f Formula) Clone() Formula {
	out := Formula{Lines: slices.Clone(f.Lines), Levains: slices.Clone(f.Levains)}
	for i := range out.Lines {
		out.Lines[i] = out.Lines[i].clone()
	}
	for i := range out.Levains {
		out.Levains[i].Lines = slices.Clone(out.Levains[i].Lines)
		for j := range out.Levains[i].Lines {
			out.Levains[i].Lines[j] = out.Levains[i].Lines[j].clone()
		}
	}
	return out
}

func (in Ingredient) clone() Ingredient {
	in.Allergens.Add = slices.Clone(in.Allergens.Add)
	in.Allergens.Remove = slices.Clone(in.Allergens.Remove)
	return in
}

// inDough calls yield for every line with the weight of it that reaches the
// dough; levain is -1 for the lines of the final dough.
func (f Formula) inDough(yield func(levain int, in Ingredient)) {
	for i, l := range f.Levains {
		share := l.usedShare()
		for _, in := range l.Lines {
			in.Grams *= share
			yield(i, in)
		}
	}
	for _, in := range f.Lines {
		yield(-1, in)
	}
}

// flourIn is all the flour in the dough by the basis asked for.
func (f Formula) flourIn(b Basis) Grams {
	var sum Grams
	f.inDough(func(_ int, in Ingredient) { sum += in.flourIn(b) })
	return sum
}

// CultureIn is the weight of all cultures the formula asks for, those that the
// levains are built from included.
func (f Formula) CultureIn() Grams {
	var sum Grams
	for _, l := range f.Levains {
		sum += weigh(l.Lines, Culture)
	}
	return sum + weigh(f.Lines, Culture)
}

func weigh(lines []Ingredient, role Role) Grams {
	var sum Grams
	for _, in := range lines {
		if in.Role == role {
			sum += in.Grams
		}
	}
	return sum
}
