// Package formulas is the room of formulas: the list of them, and one version of
// a formula with its tables, its figures, its steps, and what is different from
// the versions before it.
package formulas

import (
	"fmt"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/pages"
	"twinloaf/journal"
)

// fromBake is the [pages.Route.More] that makes a formula of a bake.
const fromBake = "from bake"

// Routes gives the pages of the room.
func Routes() map[string]pages.Opener {
	return map[string]pages.Opener{pages.Formulas: openList, pages.Formula: openOne}
}

func openList(env *pages.Env, _ pages.Route) (pages.Page, error) { return newListPage(env), nil }

func openOne(env *pages.Env, p pages.Route) (pages.Page, error) {
	switch {
	case p.More == fromBake:
		b, err := journal.Get[journal.Bake](env.Journal, p.ID)
		if err != nil {
			return nil, fmt.Errorf("making a formula of a bake: %w", err)
		}
		f := b.AsFormula()
		if err := add(env, f); err != nil {
			return nil, err
		}
		p.ID = f.ID
	case p.ID == "":
		f, err := starting(env.Journal)
		if err != nil {
			return nil, err
		}
		if err := add(env, f); err != nil {
			return nil, err
		}
		made, err := newPage(env, f.ID)
		if err != nil {
			return nil, err
		}
		made.fresh = true
		made.name.SelectWhole()
		return made, nil
	}
	return newPage(env, p.ID)
}

// add puts a new formula into the journal.
func add(env *pages.Env, f *journal.Formula) error {
	return env.Journal.Do(lang.L("a new formula"), func(tx *journal.Tx) error { return journal.NewFormula(tx, f) })
}
