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

// takeaway offers to take the journal to another computer, and to bring in what comes
// from one.
type takeaway struct {
	env    *pages.Env
	column *fyne.Container
}

func newTakeaway(env *pages.Env) *takeaway {
	t := &takeaway{env: env}
	t.column = kit.Stack(3,
		kit.Section(lang.L("Take away and bring in")),
		kit.Body(lang.L("An archive is one file with records and photos, for another computer or another baker. It can be read without Twinloaf: a description is in it.")),
		kit.Flow(3,
			kit.NewButton(lang.L("Take the journal away…"), t.takeAway).WithKey("T"),
			kit.NewButton(lang.L("Bring an archive in…"), t.pick).WithKey("I")),
		kit.Small(lang.L("A single bake or culture is taken away from its own page, several bakes from the shelf. An archive dropped on the window is looked at, too; nothing comes in before you say so.")),
	)
	return t
}

func (t *takeaway) takeAway() { t.env.TakeAway(lang.L("Bread journal")) }

// pick asks for an archive and shows what it would bring.
func (t *takeaway) pick() {
	kit.PickFiles(t.env.Main, t.env.Window, kit.PickOptions{
		Title: lang.L("Bring an archive in"), Yes: lang.L("Look at it"), Endings: []string{pages.ArchiveEnding},
		OnChosen: func(paths []string) {
			if len(paths) > 0 {
				t.env.Go(pages.Route{Name: pages.BringIn, More: paths[0]})
			}
		},
	})
}

func (t *takeaway) object() fyne.CanvasObject { return t.column }

func (t *takeaway) keys() []kit.Key {
	return []kit.Key{
		{Name: "T", Doc: lang.L("take the journal away"), Do: t.takeAway},
		{Name: "I", Doc: lang.L("bring an archive in"), Do: t.pick},
	}
}

func (t *takeaway) shown()                  {}
func (t *takeaway) left()                   {}
func (t *takeaway) changed(journal.Changed) {}

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
