package formula

import (
	"cmp"
	"slices"
)

// System is a national system that names flours by their ash.
type System string

// The systems.
const (
	German  System = "DIN 10355"
	French  System = "France, arrêté of 13 July 1963"
	Italian System = "Italy, DPR 187/2001" // decree of the President 187/2001
)

// FlourType is a type name and what it promises. Percentages are of dry matter.
type FlourType struct {
	System System
	Grain  string // wheat, rye, spelt
	Name   string
	// AshMin and AshMax bound the ash; 0 means that end is open.
	AshMin, AshMax Percent
	ProteinMin     Percent // 0: the system asks for none
	Source         string
	FromMemory     bool // the figures were not seen in print
	Note           string
}

const (
	gmf       = "DIN 10355, as seen in “Mahlerzeugnisse”, GMF"
	french    = "arrêté of 13 July 1963, as seen in “Les farines”, Cooking Test"
	frenchRye = "as seen in “Les farines”, Cooking Test"
	dpr187    = "DPR 187/2001, as seen in “La normativa italiana”, Info Farine"
)

var flourTypes = []FlourType{
	{System: German, Grain: "wheat", Name: "405", AshMax: 0.50, Source: gmf},
	{System: German, Grain: "wheat", Name: "550", AshMin: 0.51, AshMax: 0.63, Source: gmf},
	{System: German, Grain: "wheat", Name: "812", AshMin: 0.64, AshMax: 0.90, Source: gmf},
	{System: German, Grain: "wheat", Name: "1050", AshMin: 0.91, AshMax: 1.20, Source: gmf},
	{System: German, Grain: "wheat", Name: "1600", AshMin: 1.21, AshMax: 1.80, Source: gmf},
	{System: German, Grain: "wheat", Name: "1700 Backschrot", AshMax: 2.10, Source: gmf, Note: "a meal without the germ"},
	{System: German, Grain: "rye", Name: "815", AshMax: 0.90, FromMemory: true},
	{System: German, Grain: "rye", Name: "997", AshMin: 0.91, AshMax: 1.10, FromMemory: true},
	{System: German, Grain: "rye", Name: "1150", AshMin: 1.11, AshMax: 1.30, FromMemory: true},
	{System: German, Grain: "rye", Name: "1370", AshMin: 1.31, AshMax: 1.60, FromMemory: true},
	{System: German, Grain: "rye", Name: "1740", AshMin: 1.61, AshMax: 1.80, FromMemory: true},
	{System: German, Grain: "rye", Name: "1800 Backschrot", AshMax: 2.20, FromMemory: true, Note: "a meal without the germ"},
	{System: German, Grain: "spelt", Name: "630", AshMax: 0.70, FromMemory: true},
	{System: German, Grain: "spelt", Name: "812", AshMin: 0.71, AshMax: 0.90, FromMemory: true},
	{System: German, Grain: "spelt", Name: "1050", AshMin: 0.91, AshMax: 1.20, FromMemory: true},
	{System: French, Grain: "wheat", Name: "T45", AshMax: 0.50, Source: french},
	{System: French, Grain: "wheat", Name: "T55", AshMin: 0.50, AshMax: 0.60, Source: french},
	{System: French, Grain: "wheat", Name: "T65", AshMin: 0.62, AshMax: 0.75, Source: french},
	{System: French, Grain: "wheat", Name: "T80", AshMin: 0.75, AshMax: 0.90, Source: french},
	{System: French, Grain: "wheat", Name: "T110", AshMin: 1.00, AshMax: 1.20, Source: french},
	{System: French, Grain: "wheat", Name: "T150", AshMin: 1.40, Source: "arrêté of 13 July 1963, as seen in “Tout connaître sur les différentes farines”, Étréchy", Note: "other sources say more than 1.50"},
	{System: French, Grain: "rye", Name: "T70", AshMin: 0.60, AshMax: 1.00, Source: frenchRye},
	{System: French, Grain: "rye", Name: "T85", AshMin: 0.75, AshMax: 1.25, Source: frenchRye},
	{System: French, Grain: "rye", Name: "T130", AshMin: 1.20, AshMax: 1.50, Source: frenchRye},
	{System: French, Grain: "rye", Name: "T170", AshMin: 1.50, Source: frenchRye},
	{System: Italian, Grain: "wheat", Name: "00", AshMax: 0.55, ProteinMin: 9, Source: dpr187},
	{System: Italian, Grain: "wheat", Name: "0", AshMax: 0.65, ProteinMin: 11, Source: dpr187},
	{System: Italian, Grain: "wheat", Name: "1", AshMax: 0.80, ProteinMin: 12, Source: dpr187},
	{System: Italian, Grain: "wheat", Name: "2", AshMax: 0.95, ProteinMin: 12, Source: dpr187},
	{System: Italian, Grain: "wheat", Name: "integrale", AshMin: 1.30, AshMax: 1.70, ProteinMin: 12, Source: dpr187},
}

// FlourTypes lists every type, system by system, the palest first. Italian
// types are of soft wheat.
func FlourTypes() []FlourType { return slices.Clone(flourTypes) }

// TypesByAsh lists the types of a grain that a flour of that ash is nearest to:
// those whose range holds it, and for a system where none does, the one whose
// range is least far. In a system with open lower ends, as the Italian, only
// the palest type that still allows the ash is given.
func TypesByAsh(grain string, ash Percent) []FlourType {
	var out []FlourType
	for _, sys := range []System{German, French, Italian} {
		out = append(out, nearest(sys, grain, ash)...)
	}
	return out
}

// Neighbours lists the types of the other systems that are nearest to t, for a
// baker who has the bag of one country and the formula of another.
func (t FlourType) Neighbours() []FlourType {
	return slices.DeleteFunc(TypesByAsh(t.Grain, t.typicalAsh()), func(n FlourType) bool { return n.System == t.System })
}

// typicalAsh is the middle of the range, or the one bound there is.
func (t FlourType) typicalAsh() Percent {
	lo, hi := t.span()
	switch {
	case t.AshMax == 0:
		return lo
	case lo == 0:
		return hi
	}
	return (lo + hi) / 2
}

// span is the range with an open lower end closed by the next paler type of
// the system, so that a dark flour does not count as a pale one.
func (t FlourType) span() (lo, hi Percent) {
	lo, hi = t.AshMin, t.AshMax
	hi = cmp.Or(hi, 100)
	if lo > 0 {
		return lo, hi
	}
	for _, o := range flourTypes {
		if o.System == t.System && o.Grain == t.Grain && o.AshMax > 0 && o.AshMax < hi {
			lo = max(lo, o.AshMax)
		}
	}
	return lo, hi
}

func nearest(sys System, grain string, ash Percent) []FlourType {
	var out []FlourType
	best := Percent(101)
	for _, t := range flourTypes {
		if t.System != sys || t.Grain != grain {
			continue
		}
		lo, hi := t.span()
		far := max(0, lo-ash, ash-hi)
		switch c := cmp.Compare(far, best); {
		case c < 0:
			best, out = far, []FlourType{t}
		case c == 0:
			out = append(out, t)
		}
	}
	return out
}
