package bakeday

import (
	"twinloaf/app/dough"
	"twinloaf/journal"
)

// bakeHolder lends a planned bake to the editors of its dough and its steps.
type bakeHolder struct{ f *planStage }

func (h bakeHolder) bake() *journal.Bake {
	b, err := journal.Get[journal.Bake](h.f.env.Journal, h.f.id)
	if err != nil {
		return new(journal.Bake) // gone: the page is about to be left
	}
	return b
}

// Mix gives the dough.
func (h bakeHolder) Mix() dough.Mix { return dough.SideOf(h.bake()).Mix }

// Edit alters the dough as it is typed.
func (h bakeHolder) Edit(label string, change func(*dough.Mix)) {
	h.f.edit(label, dough.OfBake(change))
}

// Do alters the dough at once.
func (h bakeHolder) Do(label string, change func(*dough.Mix)) bool {
	return h.f.do(label, dough.OfBake(change))
}

// Steps gives the steps as the baker would have them.
func (h bakeHolder) Steps() []journal.Step { return journal.Wishes(h.bake().Steps) }

func wished(change func(*[]journal.Step)) func(*journal.Bake) {
	return func(b *journal.Bake) {
		steps := journal.Wishes(b.Steps)
		change(&steps)
		b.Steps = steps
	}
}

// EditSteps alters the steps as they are typed, and plans anew.
func (h bakeHolder) EditSteps(label string, change func(*[]journal.Step)) {
	h.f.edit(label, wished(change))
	h.f.plan()
}

// DoSteps alters the steps at once, and plans anew.
func (h bakeHolder) DoSteps(label string, change func(*[]journal.Step)) bool {
	done := h.f.do(label, wished(change))
	h.f.plan()
	return done
}
