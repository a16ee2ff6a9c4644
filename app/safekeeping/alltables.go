package safekeeping

import (
	"io"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/app/tables"
	"twinloaf/journal"
)

// allTables offers every table of the journal.
type allTables struct {
	env *pages.Env
	box *fyne.Container
}

func newAllTables(env *pages.Env) *allTables {
	t := &allTables{env: env}
	t.box = kit.Stack(2, kit.Section(lang.L("Tables for a spreadsheet")), kit.Small(tables.Note()),
		kit.Row(2, kit.NewButton(lang.L("Save as a table…"), t.save).WithKey("X")))
	return t
}

func (t *allTables) object() fyne.CanvasObject { return t.box }
func (t *allTables) shown()                    {}
func (t *allTables) left()                     {}
func (t *allTables) changed(journal.Changed)   {}

func (t *allTables) keys() []kit.Key {
	return []kit.Key{{Name: "X", Doc: lang.L("Save as a table…"), Do: t.save}}
}

func (t *allTables) save() {
	titles := []string{lang.L("All bakes, as a table (CSV)"), lang.L("All scores, as a table (CSV)"), lang.L("All feedings, as a table (CSV)"), lang.L("All readings, as a table (CSV)")}
	var savings []pages.Saving
	for i, one := range tables.All() {
		savings = append(savings, pages.Saving{Title: titles[i], Name: one.Name, Write: func(w io.Writer) error { return one.Write(w, t.env.Journal) }})
	}
	t.env.SaveOneOf(savings, tables.Note())
}
