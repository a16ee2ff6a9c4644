package histories

import (
	"twinloaf/journal"
	"twinloaf/journal/ferment"
)

// reading turns one record into what the arithmetic reads; the feeding, which may
// be nil, has the height of the start.
func reading(r *journal.Reading, f *journal.Feeding) ferment.Reading {
	out := ferment.Reading{ID: string(r.ID), At: r.At, Told: r.ID.Made(), Smell: smell(r.Smells), Trend: ferment.Trend(r.Trend)}
	if rise, ok := Rise(r, f); ok {
		out.Rise = ferment.Rise(rise)
	}
	if r.Temp != nil {
		out.Temp = ferment.Measured(*r.Temp)
	}
	if r.PH != nil {
		out.PH = *r.PH
	}
	if r.TTA != nil {
		out.Acid.ML = *r.TTA
		if r.TTASampleG != nil {
			out.Acid.Sample = *r.TTASampleG
		}
		if r.TTAEndPH != nil {
			out.Acid.EndPoint = *r.TTAEndPH
		}
	}
	for _, s := range []struct {
		seen bool
		sign ferment.Sign
	}{{r.Mould, ferment.SignMould}, {r.Tint, ferment.SignPinkOrange}, {r.Liquid, ferment.SignGreyLiquid}} {
		if s.seen {
			out.Signs = append(out.Signs, s.sign)
		}
	}
	return out
}

// Rise is the height of a reading over the height at the start of its feeding (2
// is doubled): as it was noted, from three lines on a photo, or from millimetres
// if the feeding's own are known. f may be nil.
func Rise(r *journal.Reading, f *journal.Feeding) (ratio float64, ok bool) {
	switch {
	case r.Rise != nil:
		return *r.Rise, true
	case r.Lines != nil && r.Lines.Bottom > r.Lines.Start:
		return (r.Lines.Bottom - r.Lines.Now) / (r.Lines.Bottom - r.Lines.Start), true
	case r.HeightMM != nil && f != nil && f.StartMM != nil && *f.StartMM > 0:
		return *r.HeightMM / *f.StartMM, true
	}
	return 0, false
}

// worstFirst settles which of two smells counts if both are as strong.
var worstFirst = [...]ferment.Smell{
	ferment.SmellFoul, ferment.SmellSolvent, ferment.SmellSour, ferment.SmellFruity, ferment.SmellMilky, ferment.SmellNone,
}

// smell is the strongest of the smells noted.
func smell(scores map[string]int) ferment.Smell {
	var out ferment.Smell
	best := 0
	for _, s := range worstFirst {
		if n := scores[string(s)]; n > best {
			out, best = s, n
		}
	}
	return out
}
