package journal

import (
	"time"

	"twinloaf/journal/formula"
)

// BakeLoss is the weight that went up in steam, in percent of the dough:
// (dough - cooled loaf) / dough. Nil unless both were weighed and the loaf is
// no heavier. Source: W. Gisslen, Professional Baking, where 10 to 13 % is
// usual.
func (o Outcome) BakeLoss() *formula.Percent {
	if o.DoughWeight == nil || o.LoafWeight == nil || *o.DoughWeight <= 0 || *o.LoafWeight <= 0 || *o.LoafWeight > *o.DoughWeight {
		return nil
	}
	return new((*o.DoughWeight - *o.LoafWeight).PercentOf(*o.DoughWeight))
}

// SpecificVolume is the loaf's volume by its weight after cooling, in
// millilitres per gram; nil unless both were measured. The method is seed
// displacement (AACC International Method 10-05, from memory).
func (o Outcome) SpecificVolume() *float64 {
	if o.VolumeML == nil || o.LoafWeight == nil || *o.VolumeML <= 0 || *o.LoafWeight <= 0 {
		return nil
	}
	return new(*o.VolumeML / float64(*o.LoafWeight))
}

// The kinds of step that the journal itself looks at; journal/plan has them all.
const (
	StepBulk  = "bulk"
	StepTurns = "turns"
	StepProof = "proof"
	StepCold  = "cold rest"
)

// Length is how long the step really took; zero while it has not ended.
func (s Step) Length() time.Duration {
	if s.At.IsZero() || s.End.IsZero() || s.End.Before(s.At) {
		return 0
	}
	return s.End.Sub(s.At)
}
