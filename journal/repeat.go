package journal

import (
	"fmt"
	"slices"

	"twinloaf/journal/plan"
)

// PlanBake is a new bake, planned but not begun, that follows a version of a
// formula. It is not in the journal until it is put there.
func PlanBake(f *Formula) *Bake {
	b := &Bake{
		Name: f.Name, State: Planned, Formula: f.ID, Loaves: f.Loaves,
		Ingredients: cloneLines(f.Ingredients), Levains: cloneLevains(f.Levains), Steps: afresh(f.Steps),
	}
	b.Water.Wanted = f.Wanted
	return b
}

// Again is a new bake, planned but not begun, that repeats another.
func (b *Bake) Again() *Bake {
	out := &Bake{
		Name: b.Name, State: Planned, From: b.ID, Formula: b.Formula, Culture: b.Culture, Loaves: b.Loaves,
		Ingredients: cloneLines(b.Ingredients), Levains: cloneLevains(b.Levains), Steps: afresh(b.Steps),
	}
	out.Water.Wanted, out.Water.Friction = b.Water.Wanted, b.Water.Friction
	return out
}

// AsFormula is the first version of a new formula with what a bake was made
// of. Its family is named when it is put into the journal with [NewFormula].
func (b *Bake) AsFormula() *Formula {
	return &Formula{
		Name: b.Name, Number: 1, Loaves: b.Loaves, Wanted: b.Water.Wanted,
		Ingredients: cloneLines(b.Ingredients), Levains: cloneLevains(b.Levains), Steps: afresh(b.Steps),
	}
}

// NewFormula puts the first version of a formula into the journal.
func NewFormula(tx *Tx, f *Formula) error {
	id, err := tx.j.NewID()
	if err != nil {
		return fmt.Errorf("naming a new formula: %w", err)
	}
	f.Family, f.Number = id, 1
	return Put(tx, f)
}

// NextVersion puts a further version of a formula into the journal: as the
// version id is, with the next free number.
func NextVersion(tx *Tx, id ID) (*Formula, error) {
	f, err := Get[Formula](tx, id)
	if err != nil {
		return nil, err
	}
	versions, err := Linked[Formula](tx, f.Family)
	if err != nil {
		return nil, err
	}
	next := *f
	next.ID, next.Change = "", ""
	for _, v := range versions {
		next.Number = max(next.Number, v.Number)
	}
	next.Number++
	return &next, Put(tx, &next)
}

// Followed lists the bakes that follow a version of a formula, oldest first.
// While there is one, the version is not to be altered.
func Followed(r Reader, version ID) ([]*Bake, error) { return Linked[Bake](r, version) }

// afresh gives steps for another dough: without what was noted or measured of this one.
func afresh(steps []Step) []Step {
	out := Wishes(steps)
	for i := range out {
		s := &out[i]
		s.Dough, s.Air, s.Rise, s.Readings, s.Note = nil, nil, nil, nil, ""
	}
	return out
}

func cloneLines(in []Ingredient) []Ingredient {
	out := slices.Clone(in)
	for i := range out {
		if out[i].Flour != nil {
			out[i].Flour = new(*out[i].Flour)
		}
	}
	return out
}

func cloneLevains(in []LevainBuild) []LevainBuild {
	out := slices.Clone(in)
	for i := range out {
		out[i].Lines = cloneLines(out[i].Lines)
	}
	return out
}

// TemplateSteps gives the steps of a plan as those of a record, each under an
// ID of its own.
func (j *Journal) TemplateSteps(steps []plan.Step) ([]Step, error) {
	out := make([]Step, len(steps))
	for i, s := range steps {
		id, err := j.NewID()
		if err != nil {
			return nil, fmt.Errorf("naming a new step: %w", err)
		}
		out[i] = Step{
			ID: id, Kind: string(s.Kind), Name: s.Name, Advice: s.Note,
			Planned: s.Length.Duration(), Min: s.Min.Duration(), Max: s.Max.Duration(),
			Every: s.Every.Duration(), Times: s.Turns,
		}
	}
	return out, nil
}
