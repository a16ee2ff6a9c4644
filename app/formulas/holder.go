package formulas

import (
	"twinloaf/app/dough"
	"twinloaf/journal"
)

// holder lends the version to the editors of its dough and its steps.
type holder struct{ p *page }

func (h holder) version() *journal.Formula {
	f, err := journal.Get[journal.Formula](h.p.env.Journal, h.p.id)
	if err != nil {
		return new(journal.Formula) // gone: the page is about to say so
	}
	return f
}

// Mix gives the dough.
func (h holder) Mix() dough.Mix { return dough.SideOfFormula(h.version()).Mix }

func mixed(change func(*dough.Mix)) func(*journal.Formula) {
	return func(f *journal.Formula) {
		m := dough.SideOfFormula(f).Mix
		change(&m)
		f.Loaves, f.Ingredients, f.Levains = m.Loaves, m.Ingredients, m.Levains
	}
}

// Edit alters the dough as it is typed.
func (h holder) Edit(label string, change func(*dough.Mix)) { h.p.edit(label, mixed(change)) }

// Do alters the dough at once.
func (h holder) Do(label string, change func(*dough.Mix)) bool { return h.p.do(label, mixed(change)) }

// Steps gives the template of the day.
func (h holder) Steps() []journal.Step { return h.version().Steps }

// EditSteps alters the template as it is typed.
func (h holder) EditSteps(label string, change func(*[]journal.Step)) {
	h.p.edit(label, func(f *journal.Formula) { change(&f.Steps) })
}

// DoSteps alters the template at once.
func (h holder) DoSteps(label string, change func(*[]journal.Step)) bool {
	return h.p.do(label, func(f *journal.Formula) { change(&f.Steps) })
}
