package tastings

import (
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/dough"
	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/formula"
)

// model is a formula or a bake that the bakes of a trial can follow.
type model struct {
	words, name, sub string
	ref              journal.Ref
	cover            string // the picture of it, or of the last bake by it
	tone             kit.LoafTone
	at               time.Time // when it was last baked
	toCome           bool      // a bake that is not over yet
}

func (m model) item(chosen bool) kit.PhotoItem {
	return kit.PhotoItem{Key: m.cover, Title: m.name, Sub: m.sub, Chosen: chosen, Choosable: true, Loaf: m.tone}
}

// modelsIn lists the newest version of each formula, the one baked last before the others,
// then the bakes, newest first.
func modelsIn(env *pages.Env) ([]model, error) {
	formulas, err := journal.All[journal.Formula](env.Journal)
	if err != nil {
		return nil, err
	}
	summaries, err := env.Journal.BakeSummaries()
	if err != nil {
		return nil, err
	}
	slices.SortStableFunc(summaries, func(a, b *journal.BakeSummary) int { return b.At.Compare(a.At) })
	newest, familyOf := map[journal.ID]*journal.Formula{}, map[journal.ID]journal.ID{}
	var families []journal.ID
	for _, f := range formulas {
		familyOf[f.ID] = f.Family
		if newest[f.Family] == nil {
			families = append(families, f.Family)
		}
		if was := newest[f.Family]; was == nil || f.Number > was.Number {
			newest[f.Family] = f
		}
	}
	last := map[journal.ID]*journal.BakeSummary{} // of a family, one with a picture before one without
	for _, c := range summaries {
		if f := familyOf[c.Formula]; !c.Binned && c.State.Over() && (last[f] == nil || last[f].Cover == "" && c.Cover != "") {
			last[f] = c
		}
	}
	u, now := env.Units(), env.Now()
	var out []model
	for _, id := range families {
		f := newest[id]
		name := named(f.Name, lang.L("a formula"))
		m := model{words: lang.L("{{.Name}}, formula, version {{.N}}", map[string]any{"Name": name, "N": f.Number}), name: name,
			sub: lang.L("formula, version {{.N}}", map[string]any{"N": f.Number}), ref: journal.RefOf(f), tone: kit.GoldenLoaf}
		if c := last[id]; c != nil {
			m.cover, m.at = c.Cover, c.At
		}
		out = append(out, m)
	}
	slices.SortStableFunc(out, func(a, b model) int { return b.at.Compare(a.at) })
	summaries = slices.DeleteFunc(slices.Clone(summaries), func(c *journal.BakeSummary) bool { return c.Binned })
	words, whens := bakeNames(summaries, u, now)
	for i, c := range summaries {
		out = append(out, model{words: words[i], name: named(c.Name, lang.L("a bake")), sub: whens[i],
			ref: journal.Ref{Kind: journal.KindBake, ID: c.ID}, cover: c.Cover, tone: pages.LoafTone(c), at: c.At, toCome: !c.State.Over()})
	}
	return out, nil
}

// offeredModels is how many models are offered by their pictures, and offeredFormulas how many
// of those are formulas at most; the others are found by name.
const (
	offeredFormulas = 4
	offeredModels   = 6
)

// offered are the formulas and bakes made last, to be chosen by their pictures.
func (p *beginTrialPage) offered() fyne.CanvasObject {
	grid := kit.Tiles(loafSize.Width, 4)
	formulas := 0
	for i, m := range p.models {
		if m.ref.Kind == journal.KindFormula {
			formulas++
		}
		if m.toCome || m.ref.Kind == journal.KindFormula && formulas > offeredFormulas {
			continue
		}
		if len(grid.Objects) == offeredModels {
			break
		}
		tile := kit.NewPhotoTile(p.env.Thumbs, loafSize, 2, func() { p.choose(i) }).Filling()
		p.tiles[m.ref] = tile
		grid.Add(tile)
	}
	return grid
}

// showAlike tells what the loaves have in common, apart from what is varied.
func (p *beginTrialPage) showAlike() {
	p.alike.Objects = nil
	p.alike.Hide()
	if p.chosen < 0 {
		return
	}
	b, err := journal.PlannedFrom(p.env.Journal, p.models[p.chosen].ref)
	if p.env.Failed(err) {
		return
	}
	u, varied := p.env.Units(), variations()[p.varied].store
	row := kit.Columns(look.Space(25))
	add := func(label, figure, unit string) {
		r := kit.NewReadout(label, true)
		r.Set(figure, unit, "", "")
		row.Add(r)
	}
	if m := b.Dough().Metrics(); m.Defined() {
		weights := dough.Weights(b.Dough(), u)
		add(lang.L("Dough"), weights.Format(float64(m.Dough)), weights.Unit)
		add(lang.L("Hydration"), u.FixedNumber(float64(m.Hydration), 1), "%")
		if varied != journal.VarySalt {
			add(lang.L("Salt"), u.FixedNumber(float64(m.Salt), 1), "%")
		}
	}
	for _, s := range b.Steps {
		if s.Kind == journal.StepCold && s.Planned > 0 && varied != journal.VaryColdRest {
			add(lang.L(s.Title()), u.Span(s.Planned), "")
		}
	}
	if len(row.Objects) == 0 {
		return
	}
	p.alike.Show()
	p.alike.Add(kit.Section(lang.L("Alike in all of them")))
	p.alike.Add(row)
	var flours []string
	for _, in := range b.Ingredients {
		if in.Role == formula.Flour && in.Name != "" {
			flours = append(flours, in.Name)
		}
	}
	if varied != journal.VaryFlour && len(flours) > 0 {
		p.alike.Add(kit.Faint(listed(flours)))
	}
}
