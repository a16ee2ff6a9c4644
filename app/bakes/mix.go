package bakes

import (
	"twinloaf/app/dough"
)

// Mix gives what went into the bake.
func (r *record) Mix() dough.Mix {
	b, _, err := r.get()
	if err != nil {
		return dough.Mix{} // the page says so when it shows the bake
	}
	return dough.SideOf(b).Mix
}

// Edit keeps what is typed of the dough.
func (r *record) Edit(label string, change func(*dough.Mix)) { r.edit(label, dough.OfBake(change)) }

// Do changes the dough at once.
func (r *record) Do(label string, change func(*dough.Mix)) bool {
	return r.do(label, dough.OfBake(change))
}
