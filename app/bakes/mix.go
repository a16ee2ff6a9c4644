package bakes

import (
	"twinloaf/app/dough"
	"twinloaf/journal"
)

// Mix gives what went into the bake.
func (r *record) Mix() dough.Mix {
	b, _, err := r.get()
	if err != nil {
		return dough.Mix{} // the page says so when it shows the bake
	}
	return mixOf(b)
}

// Edit keeps what is typed of the dough.
func (r *record) Edit(label string, change func(*dough.Mix)) { r.edit(label, onMix(change)) }

// Do changes the dough at once.
func (r *record) Do(label string, change func(*dough.Mix)) bool { return r.do(label, onMix(change)) }

func mixOf(b *journal.Bake) dough.Mix {
	return dough.Mix{Loaves: b.Loaves, Ingredients: b.Ingredients, Levains: b.Levains}
}

// onMix makes a change of a dough one of the bake that it is in.
func onMix(change func(*dough.Mix)) func(*journal.Bake) {
	return func(b *journal.Bake) {
		m := mixOf(b)
		change(&m)
		b.Loaves, b.Ingredients, b.Levains = m.Loaves, m.Ingredients, m.Levains
	}
}
