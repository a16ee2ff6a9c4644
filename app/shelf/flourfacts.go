package shelf

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/ferment"
	"twinloaf/journal/formula"
	"twinloaf/journal/limit"
)

// flourFacts are the facts of a flour, read first and edited in place.
type flourFacts struct {
	p     *flourPage
	box   *fyne.Container
	name  *kit.TextField
	grain *kit.SuggestField
	kind  *kit.TextField // the type on the bag
	notes *kit.TextField
	ash   *kit.QuantityField
	fill  []func(*journal.FlourFacts)
}

func newFlourFacts(p *flourPage) *flourFacts {
	f := &flourFacts{p: p}
	f.name = kit.NewTextField(lang.L("Name"), lang.L("a name"))
	f.name.OnDone = f.rename
	f.grain = kit.NewSuggestField(lang.L("Grain"), lang.L("wheat, rye, spelt…"), func(text string) []string {
		var out []string
		for _, g := range pages.Grains() {
			if strings.HasPrefix(strings.ToLower(g.Word), strings.ToLower(strings.TrimSpace(text))) {
				out = append(out, g.Word)
			}
		}
		return out
	})
	f.grain.OnChanged = func(text string) {
		p.edit(lang.L("grain of a flour"), func(x *journal.Flour) { x.Facts.Grain = pages.GrainOf(text) })
	}
	f.kind = kit.NewTextField(lang.L("Type on the bag"), lang.L("550, T65, 00…"))
	f.kind.OnChanged = func(text string) {
		p.edit(lang.L("type of a flour"), func(x *journal.Flour) { x.Facts.Type = strings.TrimSpace(text) })
	}
	percent := p.env.Units().Percent(2).In(limit.Share)
	figure := func(label, origin, what string, bound kit.Bound[journal.FlourFacts]) *kit.QuantityField {
		field := kit.NewQuantityField(kit.QuantityOptions{Label: label, Measure: percent, Hint: lang.L("not known"), Origin: origin,
			Keep: func(v *float64) { p.edit(what, func(x *journal.Flour) { bound.Set(&x.Facts, v) }) }})
		f.fill = append(f.fill, func(x *journal.FlourFacts) { field.Set(bound.Get(x)) })
		return field
	}
	protein := figure(lang.L("Protein"), lang.L("as on the bag"), lang.L("protein of a flour"), kit.Optional(func(x *journal.FlourFacts) **formula.Percent { return &x.Protein }))
	f.ash = figure(lang.L("Ash"), lang.L("of dry matter"), lang.L("ash of a flour"), kit.Optional(func(x *journal.FlourFacts) **formula.Percent { return &x.Ash }))
	whole := figure(lang.L("Wholegrain"), "", lang.L("wholegrain share of a flour"), kit.NonZero(func(x *journal.FlourFacts) *formula.Percent { return &x.Wholegrain }, 1))
	f.notes = kit.NewNoteField(lang.L("Notes"), lang.L("how it takes water, who mills it"))
	f.notes.OnChanged = func(text string) {
		p.edit(lang.L("notes on a flour"), func(x *journal.Flour) { x.Notes = text })
	}
	f.box = kit.Stack(3, f.name, kit.Columns(look.Space(28), f.grain, f.kind), kit.Columns(look.Space(28), protein, f.ash), whole, f.notes,
		kit.Small(p.env.Units().Say(ferment.RawFlour())))
	return f
}

func (f *flourFacts) focus() { f.grain.Focus() }

func (f *flourFacts) show(s *flourState) {
	f.name.SetText(s.name)
	f.grain.SetText(pages.GrainWord(s.facts.Grain))
	f.kind.SetText(s.facts.Type)
	for _, fill := range f.fill {
		fill(&s.facts)
	}
	notes := ""
	if s.record != nil {
		notes = s.record.Notes
	}
	f.notes.SetText(notes)
}

// rename asks before a name is changed in every bake, and says so when that makes
// one flour of two.
func (f *flourFacts) rename(text string) {
	s := f.p.state
	name := strings.Join(strings.Fields(text), " ")
	if s == nil || name == s.name {
		return
	}
	if name == "" {
		f.name.SetText(s.name)
		return
	}
	data := map[string]any{"Old": s.name, "New": name}
	title, sentence := lang.L("Rename it everywhere?"), lang.L("{{.Old}} becomes {{.New}} everywhere: in bakes, formulas, cultures, the larder and saved views. It can be undone.", data)
	other := journal.FlourKey(name)
	bought, err := journal.FlourNamed(f.p.env.Journal, other)
	f.p.env.Fail(err)
	if other != s.key && (s.past.Flours[other] != "" || bought != nil) {
		title, sentence = lang.L("Make one flour of the two?"), lang.L("There is a flour called {{.New}} already: all bakes with {{.Old}} are counted with it from now on. It can be undone.", data)
	}
	f.name.SetText(s.name) // until it is agreed to
	kit.Confirm(f.p.env.Window, title, sentence, lang.L("Rename"), func() {
		if f.p.env.Do(lang.L("renaming a flour"), func(tx *journal.Tx) error {
			if _, err := journal.RenameFlour(tx, s.key, name); err != nil {
				return err
			}
			return renameInViews(tx, s.key, other)
		}) {
			f.p.id, f.p.key = "", journal.FlourKey(name)
			f.p.load()
			f.p.env.Say(lang.L("{{.Old}} is {{.New}} now.", data), true)
		}
	})
}
