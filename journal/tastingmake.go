package journal

import (
	"fmt"
	"time"

	"twinloaf/journal/blind"
)

// A TastingPlan says how a tasting of two bakes is planned.
type TastingPlan struct {
	Name  string
	At    time.Time
	Trial ID // found by the bakes where it is empty and both are of one trial
	Bakes [2]ID
	// Plan is how it is asked; what the loaves are called and hold is filled in.
	// Without a method it asks whether they can be told apart.
	Plan  blind.Plan
	Again ID // the tasting whose question this one asks once more
}

// NewTasting plans a tasting.
func NewTasting(tx *Tx, p TastingPlan) (*Tasting, error) {
	t := &Tasting{Name: p.Name, At: p.At, Trial: p.Trial, Bakes: p.Bakes[:], Again: p.Again}
	var bakes [2]*Bake
	var err error
	for i, id := range p.Bakes {
		if bakes[i], err = Get[Bake](tx, id); err != nil {
			return nil, fmt.Errorf("planning a tasting: %w", err)
		}
	}
	if p.Plan.Loaves, err = LoavesOf(tx, bakes); err != nil {
		return nil, fmt.Errorf("planning a tasting: %w", err)
	}
	if t.Trial == "" && bakes[0].Trial == bakes[1].Trial {
		t.Trial = bakes[0].Trial
	}
	if p.Plan.Method == "" {
		p.Plan.Method, p.Plan.Mode, p.Plan.Rounds = blind.Triangle, blind.WithHelper, 6
	}
	if err := t.SetSetting(blind.Setting{Plan: p.Plan}); err != nil {
		return nil, err
	}
	return t, Put(tx, t)
}
