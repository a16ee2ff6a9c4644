package journal

import (
	"fmt"

	"twinloaf/journal/blind"
)

// PlanTasting alters the plan of a tasting as it is typed; change may be called
// more than once, so it must only set. It is refused once the tasting is
// sealed, with an error that wraps [blind.ErrSealed].
func (j *Journal) PlanTasting(id ID, label string, change func(*blind.Plan)) error {
	t, err := Get[Tasting](j, id)
	if err != nil {
		return err
	}
	if !t.Sealed.IsZero() {
		return fmt.Errorf("%s: %w", label, blind.ErrSealed)
	}
	var failed error
	err = Edit(j, id, label, func(t *Tasting) {
		setting, err := t.Setting()
		if err != nil || !t.Sealed.IsZero() {
			failed = err
			return
		}
		change(&setting.Plan)
		failed = t.SetSetting(setting)
	})
	if err == nil {
		err = failed
	}
	return err
}

// A Plating is a tasting that was drawn and is not sealed yet: the short while
// in which the helper reads the card. It is in memory only. One that is let go
// unsealed is drawn afresh the next time, codes and all.
type Plating struct {
	j     *Journal
	id    ID
	plan  blind.Plan
	draft *blind.Draft
	// keep writes what was sealed; it is kept so that a full disk can be tried
	// again.
	keep func() error
}

// Plate draws a tasting. The error wraps [blind.ErrPlan] when its plan cannot be
// served, and [blind.ErrSealed] when it is sealed already.
func (j *Journal) Plate(id ID) (*Plating, error) {
	t, err := Get[Tasting](j, id)
	if err != nil {
		return nil, err
	}
	if !t.Sealed.IsZero() {
		return nil, fmt.Errorf("plating tasting %s: %w", id, blind.ErrSealed)
	}
	setting, err := t.Setting()
	if err != nil {
		return nil, err
	}
	plan := setting.Plan
	var bakes [2]*Bake
	for i, loaf := range plan.Loaves {
		if bakes[i], err = Get[Bake](j, ID(loaf.ID)); err != nil {
			return nil, fmt.Errorf("plating tasting %s: %w", id, err)
		}
	}
	// What the bakes are called, and hold, may have been set right since.
	if plan.Loaves, err = LoavesOf(j, bakes); err != nil {
		return nil, fmt.Errorf("plating tasting %s: %w", id, err)
	}
	draft, err := blind.Draw(plan, randomOf{j})
	if err != nil {
		return nil, fmt.Errorf("plating tasting %s: %w", id, err)
	}
	return &Plating{j: j, id: id, plan: plan, draft: draft}, nil
}

// randomOf reads from a journal's source of randomness.
type randomOf struct{ j *Journal }

func (r randomOf) Read(p []byte) (int, error) { return r.j.Random(p) }

// Plan is what is plated.
func (p *Plating) Plan() blind.Plan { return p.plan }

// Card gives out the plating card, once. It can be read until Seal.
func (p *Plating) Card() (blind.Card, error) { return p.draft.Card() }

// Seal closes the plating: the card goes blank, the assignment goes to the
// vault, and everybody may see the rest. It cannot be undone. After an error of
// the disk it may be called again.
func (p *Plating) Seal() error {
	if p.keep == nil {
		sealed, setting, err := p.draft.Seal()
		if err != nil {
			return err
		}
		p.keep = func() error { return p.j.keepPlating(p.id, sealed, setting) }
	}
	return p.keep()
}

func (j *Journal) keepPlating(id ID, sealed blind.Sealed, setting blind.Setting) error {
	return j.onTasting(id, "seal the tasting", func(tx *Tx, t *Tasting) error {
		if !t.Sealed.IsZero() {
			return blind.ErrSealed
		}
		t.Sealed = j.Now()
		if err := t.SetSetting(setting); err != nil {
			return err
		}
		if err := t.setProgress(blind.Begin(setting).Progress()); err != nil {
			return err
		}
		return keepSealed(tx, t, sealed)
	})
}
