package safekeeping

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
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
