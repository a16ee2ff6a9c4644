package formula

import (
	"math"

	"twinloaf/journal/say"
)

// Line says what a flour wants where it takes the place of another, by that one's name.
func (w Wish) Line(instead string) say.Line {
	with := say.With{"Flour": instead, "More": points(w.More), "Low": points(w.Low), "High": points(w.High), "N": w.Doughs}
	line := say.Of("A dough of this flour alone should need {{.More}} points of hydration compared with one of {{.Flour}} alone ({{.Low}} to {{.High}}, eight times in ten).", with)
	if w.Doughs == 0 {
		return say.Join(line, say.Of("No dough was made with it yet: this is from its bag and your other doughs. Hold some of the water back at first."))
	}
	return say.Join(line, say.N("From one dough with it.", "From {{.N}} doughs with it.", w.Doughs))
}

// WaterLine says what other flours want in a dough with so much flour.
func (w Wish) WaterLine(flour Grams) say.Line {
	g := func(p Percent) say.Line {
		return signed(say.Grams(math.Abs(math.Round(float64(p.Of(flour))/5)*5), 0), float64(p))
	}
	return say.Of("Because of its flours this dough should need {{.More}} of water compared with the one before ({{.Low}} to {{.High}}, eight times in ten).",
		say.With{"More": g(w.More), "Low": g(w.Low), "High": g(w.High)})
}

// points is a difference of hydrations with its sign.
func points(p Percent) say.Line {
	return signed(say.Round(math.Abs(float64(p)), 1), math.Round(10*float64(p)))
}

func signed(size any, of float64) say.Line {
	with := say.With{"Size": size}
	if of < 0 {
		return say.Of("−{{.Size}}", with)
	}
	return say.Of("+{{.Size}}", with)
}
