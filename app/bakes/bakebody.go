package bakes

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/dough"
	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/app/past"
	"twinloaf/journal"
	"twinloaf/journal/ferment"
	"twinloaf/journal/plan"
)

func newBakeTitle() string { return lang.L("New bake") }
func tidyLabel() string    { return lang.L("tidying the dough") }

// build makes the widgets of the page anew.
func (p *bakePage) build() {
	offset := p.page.Offset()
	p.head = newBakeHead(p)
	p.photos = newPhotoRow(p)
	p.figures = newFigurePanel(p.units)
	p.dough = dough.NewParts(p.env, p.rec, p.names)
	p.dough.Final().WeightsFirst()
	p.steps = newStepList(p)
	if p.bulk == nil {
		p.bulk, p.rows = newBulkNote(p), newBulkRows(p)
	}
	p.outcome = newOutcome(p)
	p.notes = kit.NewNoteField("", lang.L("anything else worth knowing next time"))
	p.notes.OnChanged = func(text string) {
		p.rec.edit(lang.L("notes on the bake"), func(b *journal.Bake) { b.Notes = text })
	}
	went := kit.Stack(2, kit.Section(lang.L("What went in")), p.dough.Object,
		kit.Small(p.env.Units().Say(ferment.RawFlour())))
	p.more = kit.Stack(7, kit.Rule(), p.foot())
	p.fields = kit.Stack(7, p.head.box, p.photos.box,
		kit.Rule(), kit.WeightedColumns(look.Space(71), []float32{8, 4}, went, p.figures.box),
		kit.Rule(), kit.Section(lang.L("Timeline")), p.steps.box, p.bulk.text, p.rows.box,
		kit.Rule(), kit.Section(lang.L("How it came out")), p.outcome.box,
		kit.Rule(), kit.Section(lang.L("Notes")), p.notes, p.more)
	p.page.SetBody(p.fields)
	p.page.ScrollTo(offset)
}

// foot offers what else can be done with a bake.
func (p *bakePage) foot() fyne.CanvasObject {
	return kit.QuietRow(2,
		kit.QuietButton(lang.L("Compare with others"), p.compare).WithKey("C"),
		kit.QuietButton(lang.L("Measure the crumb"), p.crumb).WithKey("M"),
		kit.QuietButton(lang.L("Take it away…"), p.takeAway).WithKey("W"),
		kit.QuietButton(lang.L("Move to the bin"), p.bin).WithKey("B"))
}

func (p *bakePage) Keys() []kit.Key {
	keys := []kit.Key{
		{Name: "P", Doc: lang.L("Add photos"), Do: p.pick},
		{Name: "D", Doc: lang.L("The bake day"), Do: p.day},
		{Name: "A", Doc: lang.L("Bake it again"), Do: p.again},
		{Name: "E", Doc: lang.L("Edit, or read again"), Do: p.turn},
		{Name: "I", Doc: lang.L("To the next line of the dough"), Do: func() { p.write(); p.focus(p.dough.Final().Next()) }},
		{Name: "S", Doc: lang.L("Another step"), Do: func() { p.write(); p.steps.append(plan.Other) }},
		{Name: "R", Doc: lang.L("Follow the bulk in a row of pictures"), Do: p.rows.pick},
		{Name: "O", Doc: lang.L("To how it came out"), Do: p.toOutcome},
		{Name: "Ctrl+D", Doc: lang.L("Delete this line"), Do: func() { p.onLine((*dough.Table).RemoveEdited) }},
		{Name: "Ctrl+E", Doc: lang.L("More about this line"), Do: func() { p.onLine((*dough.Table).OpenEdited) }},
		{Name: "C", Doc: lang.L("Compare with others"), Do: p.compare},
		{Name: "X", Doc: lang.L("Print or save…"), Do: p.save},
		{Name: "M", Doc: lang.L("Measure the crumb"), Do: p.crumb},
		{Name: "W", Doc: lang.L("Take it away, for another computer or baker"), Do: p.takeAway},
		{Name: "B", Doc: lang.L("Move to the bin"), Do: p.bin},
	}
	if p.gone {
		return nil
	}
	return keys
}

func (p *bakePage) pick()  { p.env.PickPictures(p.photos.add) }
func (p *bakePage) day()   { p.goTo(pages.At(pages.BakeDay, p.rec.id)) }
func (p *bakePage) again() { p.goTo(pages.Route{Name: pages.BakeDay, ID: p.rec.id, More: "again"}) }
func (p *bakePage) compare() {
	p.goTo(pages.Route{Name: pages.Compare, More: string(p.rec.id)})
}

// goTo goes to a page about the bake, which must be in the journal for that.
func (p *bakePage) goTo(place pages.Route) {
	if _, exists, err := p.rec.get(); err != nil || !exists {
		p.env.Say(lang.L("Write something down first."), false)
		return
	}
	p.env.Go(place)
}

// crumb goes to the measuring of the first photo of a crumb.
func (p *bakePage) crumb() {
	photos, err := journal.Photos(p.env.Journal, p.rec.id)
	if p.env.Failed(err) {
		return
	}
	i := slices.IndexFunc(photos, func(ph *journal.Photo) bool { return ph.Role == journal.RoleCrumb })
	if i < 0 {
		p.env.Say(lang.L("Mark a photo as one of the crumb first: the word stands below it."), false)
		return
	}
	p.env.Go(pages.At(pages.Crumb, photos[i].ID))
}

// takeAway makes an archive of the bake and what belongs to it.
func (p *bakePage) takeAway() {
	b, exists, err := p.rec.get()
	switch {
	case err != nil:
		p.env.Fail(err)
	case exists:
		p.env.TakeAway(past.Name(b.Name), journal.RefOf(b))
	}
}

// bin puts the bake in the bin and goes back, or brings it back out.
func (p *bakePage) bin() {
	b, exists, err := p.rec.get()
	switch {
	case err != nil:
		p.env.Fail(err)
	case !exists:
		p.env.Back()
	case b.InBin():
		p.restore()
	case binBake(p.env, b.ID, b.Name):
		p.env.Back()
	}
}

func (p *bakePage) restore() {
	p.env.Do(lang.L("restoring a bake"), func(tx *journal.Tx) error { return journal.Restore[journal.Bake](tx, p.rec.id) })
}

// onLine does what can be done with the line of the dough that has the cursor.
func (p *bakePage) onLine(do func(*dough.Table) bool) {
	for _, t := range p.dough.Tables() {
		if do(t) {
			return
		}
	}
	p.env.Say(lang.L("Put the cursor in a line of the dough first."), false)
}

// showGone says that the bake is no longer in the journal: its making was undone.
func (p *bakePage) showGone() {
	if p.gone {
		return
	}
	p.gone = true
	p.page.SetEyebrow("")
	p.page.SetHeading(lang.L("This bake is no longer in the journal"))
	p.page.SetActions(nil)
	p.page.SetBody(kit.Empty(kit.GoldenLoaf, lang.L("Ctrl+Z or Shift+Ctrl+Z may bring it back."),
		kit.PrimaryButton(lang.L("To the bakes"), func() { p.env.Go(pages.Route{Name: pages.Bakes}) }), nil))
	p.retitle()
}
