package formulas

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/dough"
	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/histories"
	"twinloaf/journal/measure"
)

// page is one version of a formula. A version that bakes follow is not altered:
// the first change to it makes the next version, and the page goes on with that.
type page struct {
	pages.Base
	env   *pages.Env
	id    journal.ID
	units measure.Units
	page  *kit.Page

	followed int // how many bakes follow this version
	baked    int // how many of them are more than a plan
	versions []*journal.Formula

	name     *kit.TextField
	change   *kit.TextField
	notes    *kit.TextField
	wanted   *kit.QuantityField
	frozen   *kit.Text
	history  *fyne.Container
	editor   *dough.Editor
	steps    *dough.Steps
	apart    *fyne.Container
	crumb    *pages.CrumbSection
	against  journal.ID // the version it is told apart from, or none
	shownAs  []dough.Difference
	pastSeen string
	fresh    bool // it was made by opening this page: it wants a name first
}

// Start puts the keyboard in the name of a formula that was just made.
func (p *page) Start() fyne.Focusable {
	if p.fresh {
		return p.name.Entry()
	}
	return p.Base.Start()
}

func newPage(env *pages.Env, id journal.ID) (*page, error) {
	p := &page{env: env, id: id, units: env.Units()}
	f, err := p.read()
	if err != nil {
		return nil, fmt.Errorf("showing a formula: %w", err)
	}
	holder := holder{p}
	if p.editor, err = dough.NewEditor(env, holder); err != nil {
		return nil, err
	}
	p.steps = dough.NewSteps(env, holder)
	p.build()
	p.Base = pages.Base{Body: p.page, Read: p.reread, Of: []journal.Kind{journal.KindFormula, journal.KindBake, journal.KindSettings}}
	p.show(f)
	return p, nil
}

// read asks the journal for the version, and for what else there is of it.
func (p *page) read() (*journal.Formula, error) {
	f, err := journal.Get[journal.Formula](p.env.Journal, p.id)
	if err != nil {
		return nil, err
	}
	bakes, err := journal.Followed(p.env.Journal, p.id)
	if err != nil {
		return nil, err
	}
	p.followed, p.baked = len(bakes), 0
	for _, b := range bakes {
		if b.State.Over() {
			p.baked++
		}
	}
	p.versions, err = journal.Linked[journal.Formula](p.env.Journal, f.Family)
	return f, err
}

func (p *page) build() {
	p.name = kit.NewTextField(lang.L("Name"), lang.L("what it is called"))
	p.name.OnChanged = func(text string) {
		p.edit(lang.L("name of the formula"), func(f *journal.Formula) { f.Name = text })
	}
	p.change = kit.NewTextField("", lang.L("what this version does differently"))
	p.change.OnChanged = func(text string) {
		// What was different is a remark about the version, and no change of it.
		p.env.Fail(journal.Edit(p.env.Journal, p.id, lang.L("what the version does differently"), func(f *journal.Formula) { f.Change = text }))
	}
	p.notes = kit.NewNoteField(lang.L("Notes"), lang.L("what to watch for, what to try next"))
	p.notes.OnChanged = func(text string) {
		p.edit(lang.L("notes on the formula"), func(f *journal.Formula) { f.Notes = text })
	}
	wanted := kit.Optional(func(f *journal.Formula) **formula.Celsius { return &f.Wanted })
	p.wanted = kit.NewQuantityField(kit.QuantityOptions{
		Label: lang.L("Target dough temperature"), Measure: p.units.Temperature(),
		Derived: lang.L("How warm the dough should be right after mixing. Usual: 24 to 27 °C, 75 to 80 °F, for wheat (common practice, no source)."),
		Keep: func(v *float64) {
			p.edit(lang.L("dough temperature"), func(f *journal.Formula) { wanted.Set(f, v) })
		},
	})
	p.frozen = kit.Faint("")
	p.history = kit.Flow(2)
	p.apart = kit.Stack(2)
	p.crumb = pages.NewCrumbSection(p.env)
	dough := kit.Stack(6, kit.Stack(1, p.name, p.change, p.frozen, p.history), p.apart, p.editor.Object)
	day := kit.Stack(6, p.wanted, kit.Stack(2, kit.Section(lang.L("Timeline")), p.steps.Object), p.crumb.Object(), kit.Rule(), p.notes)
	body := kit.WeightedColumns(look.Space(144), []float32{7, 5}, dough, day)
	p.page = kit.NewPage(kit.PageOptions{Body: body, Actions: []fyne.CanvasObject{
		kit.PrimaryButton(lang.L("Plan a bake"), p.plan).WithKey("G"),
		kit.QuietButton(lang.L("Save as a recipe…"), p.save).WithKey("W"),
	}})
}

func (p *page) Title() string { return p.name.Text() }

func (p *page) Keys() []kit.Key {
	return []kit.Key{
		{Name: "G", Doc: lang.L("plan a bake of it"), Do: p.plan},
		{Name: "E", Doc: lang.L("to its name"), Do: func() { p.name.Focus() }},
		{Name: "V", Doc: lang.L("make the next version"), Do: p.makeNext},
		{Name: "W", Doc: lang.L("Save as a recipe…"), Do: p.save},
		{Name: "X", Doc: lang.L("move this version to the bin"), Do: p.bin},
	}
}

// reread shows the version anew. One that is gone, such as one whose making was
// undone, gives way to the latest that is left, or else the page is left.
func (p *page) reread() {
	versions := p.versions
	f, err := p.read()
	if errors.Is(err, journal.ErrNotFound) {
		for _, v := range slices.Backward(versions) {
			if v.ID == p.id {
				continue
			}
			if left, err := journal.Get[journal.Formula](p.env.Journal, v.ID); err == nil && !left.InBin() {
				p.id = v.ID
				p.reread()
				return
			}
		}
		p.env.Back()
		return
	}
	if p.env.Failed(err) {
		return
	}
	p.show(f)
}

// show shows the version as it is in the journal.
func (p *page) show(f *journal.Formula) {
	p.page.SetEyebrow(lang.L("Formula, version {{.N}}", map[string]any{"N": f.Number}))
	p.page.SetHeading(heading(f, p.baked))
	p.name.SetText(f.Name)
	p.change.SetText(f.Change)
	p.notes.SetText(f.Notes)
	p.wanted.Set(kit.Number(f.Wanted))
	p.frozen.SetText(frozenWords(f, p.followed, p.baked, p.versions))
	p.editor.Show()
	p.steps.Show()
	p.showVersions(f)
	p.showApart(f)
	versions := p.versions
	if p.baked == 0 {
		versions = nil // what is shown has no crumb yet
	}
	p.crumb.Show(charts.SeriesStyle{Hue: charts.Ink}, func(r journal.Reader) (bakes []*journal.Bake, err error) {
		for _, v := range versions {
			followed, err := journal.Followed(r, v.ID)
			if err != nil {
				return nil, err
			}
			bakes = append(bakes, followed...)
		}
		return bakes, nil
	})
}

// heading says what the formula makes, and how often this version of it was baked.
func heading(f *journal.Formula, baked int) string {
	name := cmp.Or(f.Name, lang.L("A formula without a name"))
	data := map[string]any{"Name": name, "N": baked, "Version": f.Number}
	switch {
	case baked == 0 && f.Number > 1: // those before it may have been
		return lang.L("{{.Name}}, version {{.Version}} not baked yet", data)
	case baked == 0:
		return lang.L("{{.Name}}, not baked yet", data)
	case baked == 1:
		return lang.L("{{.Name}}, baked once", data)
	}
	return lang.L("{{.Name}}, baked {{.N}} times", data)
}

func (p *page) edit(label string, change func(*journal.Formula)) {
	if id, ok := p.thaw(); ok {
		p.env.Fail(journal.Edit(p.env.Journal, id, label, change))
	}
}

func (p *page) do(label string, change func(*journal.Formula)) bool {
	id, ok := p.thaw()
	return ok && p.env.Do(label, func(tx *journal.Tx) error { return journal.Change(tx, id, change) })
}

// plan puts a bake that follows this version into the journal and goes there.
func (p *page) plan() {
	f, err := p.read()
	if p.env.Failed(err) {
		return
	}
	cultures, err := journal.All[journal.Culture](p.env.Journal)
	if p.env.Failed(err) {
		return
	}
	b := journal.PlanBake(f)
	b.At = p.env.Now()
	b.Culture = dough.CultureNamed(cultures, dough.SideOf(b).Mix)
	if err := histories.Barred(p.env.Journal, b.Culture, p.env.Now()); err != nil {
		p.env.Fail(err) // the bake is planned, to be raised with another
		b.Culture = ""
	}
	if p.env.Do(lang.L("planning a bake"), func(tx *journal.Tx) error { return journal.Put(tx, b) }) {
		p.env.Go(pages.At(pages.BakeDay, b.ID))
	}
}

func (p *page) bin() {
	if p.env.Do(lang.L("moving a version to the bin"), func(tx *journal.Tx) error { return journal.MoveToBin[journal.Formula](tx, p.id) }) {
		p.env.Say(lang.L("The version is in the bin."), true)
		p.env.Back()
	}
}
