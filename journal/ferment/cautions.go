package ferment

import (
	"slices"
	"time"

	"twinloaf/journal/say"
)

// ThrowAway is the caution that stands above all else.
func ThrowAway() say.Line {
	return say.Of("Mould, or pink or orange streaks: throw this culture away, all of it. Do not taste it, do not scrape it off. Warm the jar before you scald it: boiling water can crack cold glass.")
}

// RawFlour is the caution about raw flour, in the one wording that every page has.
func RawFlour() say.Line {
	return say.Of("Raw flour, dough and culture are not safe to eat: they can carry E. coli and Salmonella (FDA, CDC). Taste nothing before it is baked; wash hands, bowls and bench.")
}

// Standing are the cautions that go with every culture.
func Standing() []say.Line {
	return []say.Line{
		RawFlour(),
		say.Of("Never seal the jar tight: gas builds up (common practice, no source)."),
		say.Of("If it proves in an oven with its light on, mark the oven before someone heats it (common practice)."),
		say.Of("Local food law and professional advice come first."),
	}
}

// noteworthy are the cautions that the last days' readings call for.
func noteworthy(courses []Course, now time.Time, day int) []say.Line {
	var liquid, solvent, foul bool
	for _, c := range courses {
		for _, r := range c.Readings {
			if r.At.After(now) || now.Sub(r.At) > 48*time.Hour {
				continue
			}
			liquid = liquid || slices.Contains(r.Signs, SignGreyLiquid)
			solvent = solvent || r.Smell == SmellSolvent
			foul = foul || r.Smell == SmellFoul
		}
	}
	var out []say.Line
	if liquid {
		out = append(out, Hungry())
	}
	if solvent {
		out = append(out, say.Of("A smell of solvent is a sign of hunger or too much warmth: feed sooner, give it more flour, or find a cooler place (common practice)."))
	}
	if foul && day > 0 && day <= foulDay {
		out = append(out, say.Of("A foul smell is usual in the first days and goes as the acid rises (common practice, no source)."))
	}
	// Later it is the lead that speaks of it.
	return out
}

// Hungry says what grey liquid on a culture means.
func Hungry() say.Line {
	return say.Of("Grey liquid on top is a sign of hunger: stir it in or pour it off, and feed sooner (common practice).")
}
