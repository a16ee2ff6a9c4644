package bakes

import (
	"io"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/dough"
	"twinloaf/app/pages"
	"twinloaf/app/tables"
	"twinloaf/journal"
)

// save asks as what the bake is to be saved.
func (p *bakePage) save() {
	b, exists, err := p.rec.get()
	if err != nil || !exists {
		p.env.Fail(err)
		if err == nil {
			p.env.Say(lang.L("Write something down first."), false)
		}
		return
	}
	photos, err := journal.Photos(p.env.Journal, b.ID)
	if p.env.Failed(err) {
		return
	}
	out := bakePages{env: p.env, units: p.units, bake: b, photos: photos, now: p.env.Now(), style: p.env.Paper()}
	name := func(ending string) string { return pages.FileName(b.Name, lang.L("bake"), ending) }
	p.env.SaveOneOf([]pages.Saving{
		{Title: lang.L("As pages to print (PDF)"), Name: name(".pdf"), Write: out.write, Show: true},
		{Title: lang.L("Its dough and steps, as a recipe for other programs (JSON-LD)"), Name: name(".jsonld"), Write: func(w io.Writer) error {
			return dough.WriteRecipe(w, b.Name, b.Notes, dough.SideOf(b), p.units)
		}},
	}, lang.L("Photos on the pages no longer tell where they were taken, or with what."))
}

// save asks which table of the bakes that are listed is wanted.
func (p *listPage) save() {
	ids := make([]journal.ID, len(p.shown.past))
	for i, c := range p.shown.past {
		ids[i] = c.ID
	}
	tables.AskBakes(p.env, tables.ByID(p.env.Journal, ids))
}
