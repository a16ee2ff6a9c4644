package tastings

import (
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/histories"
)

// beginTrialPage asks what the bakes of a trial follow and what is varied, and
// draws the lots.
type beginTrialPage struct {
	pages.Base
	env  *pages.Env
	page *kit.Page

	models   []model // what can be followed
	cultures []*journal.Culture

	chosen int // of models, -1 for none
	varied int // of variations
	other  string
	values []string
	at     time.Time

	begin  *kit.Button
	follow *kit.SuggestField
	tiles  map[journal.Ref]*kit.PhotoTile
	alike  *fyne.Container
	fields *fyne.Container
	loaves []*trialLoaf
	tells  *kit.Text
}

// variation is what a trial can vary.
type variation struct {
	word  string // shown
	store string // kept; "" for something else, in the baker's words
	hint  string // of a value
}

func variations() []variation {
	return []variation{
		{lang.L("the culture"), journal.VaryCulture, lang.L("a culture")},
		{lang.L("the flour"), journal.VaryFlour, lang.L("a flour")},
		{lang.L("the salt"), journal.VarySalt, lang.L("such as 1.8 %")},
		{lang.L("hours of cold proof"), journal.VaryColdRest, lang.L("such as 12 h")},
		{lang.L("something else"), "", lang.L("in your words")},
	}
}

func newBeginTrialPage(env *pages.Env, from journal.Ref) (*beginTrialPage, error) {
	p := &beginTrialPage{env: env, chosen: -1, values: []string{"", ""}, at: env.Now().Truncate(time.Minute),
		tiles: map[journal.Ref]*kit.PhotoTile{}, alike: kit.Stack(2), fields: kit.Stack(4), tells: kit.Body("")}
	var err error
	if p.models, err = modelsIn(env); err != nil {
		return nil, err
	}
	if p.cultures, err = journal.All[journal.Culture](env.Journal); err != nil {
		return nil, err
	}
	p.chosen = slices.IndexFunc(p.models, func(m model) bool { return m.ref == from })
	p.begin = kit.PrimaryButton(lang.L("Randomise and start"), p.draw)
	p.page = kit.NewPage(kit.PageOptions{
		Eyebrow: lang.L("A new trial"), Heading: lang.L("Two loaves, one difference"),
		Actions: []fyne.CanvasObject{p.begin},
	})
	p.Base = pages.Base{Body: p.page, Name: lang.L("A new trial")}
	p.build()
	return p, nil
}

func (p *beginTrialPage) build() {
	if len(p.models) == 0 {
		p.begin.Hide()
		p.page.SetHeading(lang.L("A formula or a bake is needed first"))
		p.page.SetBody(kit.Empty(kit.GoldenLoaf, lang.L("The bakes of a trial follow one formula, or one bake. Write it down, then come back."),
			kit.PrimaryButton(lang.L("Write down a bake"), func() { p.env.Go(pages.Route{Name: pages.Bake}) }),
			kit.NewLink(lang.L("Open the demo"), p.env.OpenDemo)))
		return
	}
	words := make([]string, len(p.models))
	for i, m := range p.models {
		words[i] = m.words
	}
	p.follow = kit.NewSuggestField(lang.L("Both follow"), lang.L("a formula or a bake"), func(text string) []string { return fitting(words, text) })
	p.follow.OnTaken = func(s string) { p.choose(slices.Index(words, s)) }
	when := kit.NewWhenField(kit.WhenOptions{Label: lang.L("Mixing begins"), Units: p.env.Units(), Now: p.env.Now,
		OnChanged: func(at time.Time) { p.at = at }})
	when.SetTime(p.at)
	var kinds []string
	for _, v := range variations() {
		kinds = append(kinds, v.word)
	}
	p.page.SetBody(kit.Stack(6,
		kit.Stack(4, kit.Columns(look.Space(60), p.follow, when), p.offered(), p.alike),
		kit.Rule(),
		kit.Stack(4, kit.Stack(2, kit.Section(lang.L("What differs?")), kit.NewSegments("", kinds, p.varied, func(i int) {
			p.varied, p.values = i, make([]string, len(p.values))
			p.ask()
		})), p.fields),
		kit.Rule(),
		kit.Columns(look.Space(70), kit.Stack(2, kit.Section(lang.L("What it will tell")), p.tells),
			kit.Stack(2, kit.Section(lang.L("What the lot decides")), kit.Body(lang.L("Which dough is mixed first, which bowl it gets and which is baked first are randomised, so the choice is not yours."))))))
	p.ask()
	p.choose(p.chosen)
}

// choose has both follow a model; -1 for none.
func (p *beginTrialPage) choose(i int) {
	p.chosen = i
	for k, m := range p.models {
		if tile := p.tiles[m.ref]; tile != nil {
			tile.Set(m.item(k == i))
		}
	}
	if i >= 0 && !p.follow.Editing() {
		p.follow.SetText(p.models[i].words)
	}
	p.check()
}

// ask asks for the values of what is varied.
func (p *beginTrialPage) ask() {
	v := variations()[p.varied]
	p.fields.Objects = nil
	if v.store == "" {
		what := kit.NewTextField(lang.L("What differs"), lang.L("such as: the shaping"))
		what.SetText(p.other)
		what.OnChanged = func(s string) { p.other = strings.TrimSpace(s); p.check() }
		p.fields.Add(what)
	}
	p.loaves = nil
	var row []fyne.CanvasObject
	for i := range p.values {
		l := p.loaf(i, v)
		p.loaves = append(p.loaves, l)
		row = append(row, l.box)
	}
	p.fields.Add(kit.Columns(look.Space(90), row...))
	if len(p.offers(v)) < 2 && v.store == journal.VaryCulture {
		p.fields.Add(kit.Row(3, kit.Faint(lang.L("The journal has fewer than two cultures.")),
			kit.NewLink(lang.L("Begin a culture"), func() { p.env.Go(pages.Route{Name: pages.Culture}) })))
	}
	if len(p.values) < 4 {
		p.fields.Add(kit.Row(0, kit.NewLink(lang.L("One more bake"), func() { p.values = append(p.values, ""); p.ask() })))
	}
	p.fields.Refresh()
	p.page.Refresh()
	p.check()
}

// offers are the values that the journal knows of.
func (p *beginTrialPage) offers(v variation) []string {
	var out []string
	switch v.store {
	case journal.VaryCulture:
		for _, c := range p.cultures {
			if c.Ended.IsZero() {
				out = append(out, c.Name)
			}
		}
	case journal.VaryFlour:
		summaries, err := p.env.Journal.BakeSummaries()
		if err != nil {
			return nil
		}
		for _, c := range summaries {
			for _, f := range c.Flours {
				if !slices.Contains(out, f.Name) {
					out = append(out, f.Name)
				}
			}
		}
	case journal.VarySalt:
		return []string{"1.8 %", "2 %", "2.2 %"}
	case journal.VaryColdRest:
		return []string{"12 h", "24 h", "48 h"}
	}
	return out
}

// cultureIDs finds the cultures named; ok is false when one is not known.
func (p *beginTrialPage) cultureIDs() (ids []journal.ID, ok bool) {
	for _, name := range p.values {
		c := journal.CultureNamed(p.cultures, name)
		if c == nil {
			return nil, false
		}
		ids = append(ids, c.ID)
	}
	return ids, true
}

// ready says what is still missing, or nothing.
func (p *beginTrialPage) ready() string {
	v := variations()[p.varied]
	switch {
	case p.chosen < 0:
		return lang.L("Choose the formula or bake that both follow.")
	case slices.Contains(p.values, ""):
		return lang.L("Say what each of them has.")
	case v.store == "" && p.other == "":
		return lang.L("Say what differs.")
	}
	seen := map[string]bool{}
	for _, value := range p.values {
		low := strings.ToLower(value)
		if seen[low] {
			return lang.L("They must differ.")
		}
		seen[low] = true
	}
	if _, ok := p.cultureIDs(); v.store == journal.VaryCulture && !ok {
		return lang.L("Choose cultures that the journal has.")
	}
	return ""
}

func (p *beginTrialPage) check() {
	kit.SetEnabled(p.begin, p.ready() == "")
	p.page.SetActions(kit.Small(p.ready()), p.begin)
	p.showAlike()
	p.showLoaves()
	p.tells.SetText(p.telling())
}

func (p *beginTrialPage) draw() {
	v := variations()[p.varied]
	plan := journal.TrialPlan{
		From: p.models[p.chosen].ref, Varied: v.store, Values: p.values, Marks: pages.BowlMarks(), At: p.at,
		Name: lang.L("{{.One}} against {{.Other}}", map[string]any{"One": p.values[0], "Other": p.values[len(p.values)-1]}),
	}
	if v.store == "" {
		plan.Varied = p.other
	}
	if v.store == journal.VaryCulture {
		plan.Cultures, _ = p.cultureIDs()
	}
	var t *journal.Trial
	ok := p.env.Do(lang.L("beginning a trial"), func(tx *journal.Tx) (err error) {
		for _, id := range plan.Cultures {
			if err := histories.Barred(tx, id, p.env.Now()); err != nil {
				return err
			}
		}
		t, err = journal.NewTrial(tx, plan)
		return err
	})
	if ok {
		p.env.Go(pages.At(pages.Trial, t.ID))
	}
}
