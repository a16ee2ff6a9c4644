package bakes

import (
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/app/past"
	"twinloaf/journal"
	"twinloaf/journal/histories"
	"twinloaf/journal/limit"
	"twinloaf/journal/measure"
)

// bakeHead is the top of the page: the name, the day, the culture, the loaves.
type bakeHead struct {
	page    *bakePage
	box     *fyne.Container
	name    *kit.TextField
	at      *kit.WhenField
	culture *kit.ChoiceField
	ids     []journal.ID   // of the cultures offered; the first is none, the last a new one
	fresh   *kit.TextField // the name of a new culture
	// freshBox holds it, and hides it until it is asked for.
	freshBox fyne.CanvasObject
	loaves   *kit.QuantityField
	follows  *fyne.Container
}

func newBakeHead(p *bakePage) *bakeHead {
	h := &bakeHead{page: p, follows: kit.Flow(4)}
	h.name = kit.NewHeadingField(lang.L("Name this bake"))
	h.name.OnChanged = func(text string) {
		p.rec.edit(lang.L("name of the bake"), func(b *journal.Bake) { b.Name = text })
	}
	h.at = kit.NewWhenField(kit.WhenOptions{Label: lang.L("Begun"), Units: p.units, Now: p.env.Now,
		OnChanged: func(t time.Time) {
			if _, exists, err := p.rec.get(); err == nil && !exists {
				p.rec.at = t // a day alone makes no bake
				return
			}
			p.rec.edit(lang.L("day of the bake"), func(b *journal.Bake) { b.At = t })
		}})
	h.culture = kit.NewChoiceField(lang.L("Culture"), lang.L("no culture"), nil, h.choose)
	h.fresh = kit.NewTextField(lang.L("New culture"), lang.L("its name, then Enter"))
	h.fresh.OnDone = h.makeCulture
	h.freshBox = kit.Width(look.Space(40), h.fresh)
	h.freshBox.Hide()
	loaves := kit.NonZero(func(b *journal.Bake) *int { return &b.Loaves }, 1)
	h.loaves = kit.NewQuantityField(kit.QuantityOptions{Label: lang.L("Loaves"), Measure: p.units.Number("", 0).In(limit.Count),
		Keep: func(v *float64) {
			p.rec.edit(lang.L("number of loaves"), func(b *journal.Bake) { loaves.Set(b, v) })
		}})
	h.box = kit.Stack(3, h.name, kit.Flow(9, h.at, h.culture, h.freshBox, h.loaves), h.follows)
	return h
}

// sync shows the head of a bake.
func (h *bakeHead) sync(b *journal.Bake, empty bool) {
	p := h.page
	now := p.env.Now()
	p.page.SetEyebrow(bakeEyebrow(b, p.units, now))
	if p.reads {
		p.page.SetHeading(readHeading(b))
	} else {
		p.page.SetHeading(bakeHeading(b, empty, p.units, now))
	}
	h.name.SetText(b.Name)
	showTime(h.at, b.At)
	h.syncCulture(b.Culture)
	if b.Loaves == 0 {
		h.loaves.Set(nil)
	} else {
		h.loaves.Set(new(float64(b.Loaves)))
	}
	h.syncFollows(b)
	kit.SetVisible(p.more, !empty)
	h.syncActions(b, empty)
}

// syncCulture offers the cultures that there are.
func (h *bakeHead) syncCulture(id journal.ID) {
	ids, words := []journal.ID{""}, []string{lang.L("no culture")}
	cultures, err := journal.All[journal.Culture](h.page.env.Journal)
	h.page.env.Fail(err)
	for _, c := range cultures {
		if c.Ended.IsZero() || c.ID == id {
			ids, words = append(ids, c.ID), append(words, c.Name)
		}
	}
	if id != "" && !slices.Contains(ids, id) {
		name := lang.L("a culture that is gone")
		if c, err := journal.Get[journal.Culture](h.page.env.Journal, id); err == nil {
			name = c.Name
		}
		ids, words = append(ids, id), append(words, name)
	}
	ids, words = append(ids, ""), append(words, lang.L("a new one …"))
	if !slices.Equal(ids, h.ids) || len(ids) == 2 {
		h.ids = ids
		h.culture.SetOptions(words)
	}
	if i := slices.Index(h.ids, id); h.culture.Chosen() != i {
		h.culture.SetChosen(i)
	}
}

// choose takes the culture that was chosen; the last of the choices asks for the
// name of a new one.
func (h *bakeHead) choose(i int) {
	p := h.page
	if i == len(h.ids)-1 {
		h.freshBox.Show()
		h.box.Refresh()
		p.focus(h.fresh)
		return
	}
	id := h.ids[i]
	if err := histories.Barred(p.env.Journal, id, p.env.Now()); err != nil {
		p.env.Fail(err)
		p.refreshSoon()
		return
	}
	if _, exists, err := p.rec.get(); err == nil && !exists {
		p.rec.culture = id
		return
	}
	p.rec.do(lang.L("culture of the bake"), func(b *journal.Bake) { b.Culture = id })
}

// makeCulture writes a new culture down and takes it for the bake.
func (h *bakeHead) makeCulture(name string) {
	h.freshBox.Hide()
	h.box.Refresh()
	p := h.page
	if name = strings.TrimSpace(name); name == "" || !p.rec.put() {
		p.refreshSoon()
		return
	}
	h.fresh.SetText("")
	p.env.Do(lang.L("a new culture"), func(tx *journal.Tx) error {
		c := &journal.Culture{Name: name, Born: p.env.Now(), BornAbout: true, Hydration: nil}
		if err := journal.Put(tx, c); err != nil {
			return err
		}
		return journal.Change(tx, p.rec.id, func(b *journal.Bake) { b.Culture = c.ID })
	})
}

// syncFollows says which culture, formula, bake and trial the bake goes back to.
func (h *bakeHead) syncFollows(b *journal.Bake) {
	h.follows.Objects = nil
	j, env := h.page.env.Journal, h.page.env
	if c, err := journal.Get[journal.Culture](j, b.Culture); b.Culture != "" && err == nil {
		h.follows.Add(kit.Marked(pages.LookOf(c), kit.NewLink(lang.L("leavened with {{.What}}", map[string]any{"What": c.Name}),
			func() { env.Go(pages.At(pages.Culture, c.ID)) })))
	}
	if f, err := journal.Get[journal.Formula](j, b.Formula); b.Formula != "" && err == nil {
		h.follows.Add(kit.NewLink(lang.L("from formula {{.Name}}, version {{.N}}", map[string]any{"Name": f.Name, "N": f.Number}),
			func() { env.Go(pages.At(pages.Formula, f.ID)) }))
	}
	if from, err := journal.Get[journal.Bake](j, b.From); b.From != "" && err == nil {
		h.follows.Add(kit.NewLink(lang.L("as {{.Name}} of {{.Day}}", map[string]any{"Name": past.Name(from.Name), "Day": h.page.units.Day(from.At, env.Now())}),
			func() { env.Go(pages.At(pages.Bake, from.ID)) }))
	}
	if t, err := journal.Get[journal.Trial](j, b.Trial); b.Trial != "" && err == nil {
		words := lang.L("part of the trial {{.Name}}", map[string]any{"Name": t.Name})
		if b.Mark != "" {
			words = lang.L("{{.Mark}} bowl, trial {{.Name}}", map[string]any{"Mark": lang.L(b.Mark), "Name": t.Name})
		}
		h.follows.Add(kit.NewLink(words, func() { env.Go(pages.At(pages.Trial, t.ID)) }))
	}
	kit.SetVisible(h.follows, len(h.follows.Objects) > 0)
	h.follows.Refresh()
}

// syncActions offers the main thing to do; with a bake that says nothing yet that is to write.
func (h *bakeHead) syncActions(b *journal.Bake, empty bool) {
	p := h.page
	photos := func(make func(string, func()) *kit.Button) *kit.Button {
		return make(lang.L("Add photos"), p.pick).WithKey("P")
	}
	again := kit.QuietButton(lang.L("Bake it again"), p.again).WithKey("A")
	turn := kit.NewButton(lang.L("Edit"), p.turn).WithKey("E")
	if !p.reads {
		turn.SetLabel(lang.L("Read"))
		kit.SetVisible(turn, p.readable())
	}
	switch {
	case b.InBin():
		p.page.SetActions(nil, kit.PrimaryButton(lang.L("Restore"), p.restore))
	case !b.State.Over():
		p.page.SetActions(nil, kit.PrimaryButton(lang.L("To the bake day"), p.day).WithKey("D"), photos(kit.QuietButton))
	case empty:
		p.page.SetActions(nil, photos(kit.PrimaryButton))
	default:
		p.page.SetActions(nil, photos(kit.PrimaryButton), turn, again, kit.QuietButton(lang.L("Print or save…"), p.save).WithKey("X"))
	}
}

// readHeading says which bake it is that is read, and how it came out: what is read has no
// field for its name.
func readHeading(b *journal.Bake) string {
	data := map[string]any{"Name": past.Name(b.Name), "Score": b.Overall()}
	if b.Overall() > 0 {
		return lang.L("{{.Name}}: {{.Score}} out of 9", data)
	}
	return lang.L("{{.Name}}: how did it come out?", data)
}

// bakeHeading says how far a bake has come, which is what to do next.
func bakeHeading(b *journal.Bake, empty bool, u measure.Units, now time.Time) string {
	when := map[string]any{"When": u.When(b.At, now)}
	score, loss := b.Overall(), b.Outcome.BakeLoss()
	switch {
	case b.InBin():
		return lang.L("This bake is in the bin")
	case b.State == journal.Planned:
		return lang.L("Planned: {{.When}}", when)
	case b.State == journal.Running:
		return lang.L("Under way since {{.When}}", when)
	case empty:
		return lang.L("What goes in?")
	case score > 0 && loss != nil:
		return lang.L("{{.Score}} out of 9, bake loss {{.Loss}} %", map[string]any{
			"Score": score, "Loss": u.FormatNumber(float64(*loss), 1)})
	case score > 0:
		return lang.L("{{.Score}} out of 9", map[string]any{"Score": score})
	case len(b.Ingredients) == 0 && len(b.Levains) == 0:
		return lang.L("What went in?")
	}
	return lang.L("How did it come out?")
}

// bakeEyebrow stands above the heading: the day of the bake.
func bakeEyebrow(b *journal.Bake, u measure.Units, now time.Time) string {
	at := b.At.In(now.Location())
	return lang.L("Bake, {{.Weekday}} {{.Day}}", map[string]any{"Weekday": lang.L(at.Weekday().String()), "Day": u.Day(at, now)})
}
