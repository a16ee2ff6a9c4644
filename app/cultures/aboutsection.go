package cultures

import (
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/limit"
)

// The figures of a culture, each or not.
var (
	cultureHydration = kit.Optional(func(c *journal.Culture) **formula.Percent { return &c.Hydration })
	cultureUsual     = kit.Optional(func(c *journal.Culture) **formula.Celsius { return &c.Usual })
	cultureRhythm    = kit.NonZero(func(c *journal.Culture) *time.Duration { return &c.FeedEvery }, time.Hour)
)

// aboutSection is what the culture is: each figure is altered in place. Its family line
// stands beneath.
type aboutSection struct {
	page   *culturePage
	box    *fyne.Container
	family *fyne.Container
	acts   *fyne.Container
	ended  bool // as the acts are shown

	name, flours, notes *kit.TextField
	born                *kit.WhenField
	hydration, usual    *kit.QuantityField
	every               *kit.QuantityField
	home                *kit.ChoiceField
	colour, shape       *kit.MarkField
}

func newAboutSection(p *culturePage, c *journal.Culture) *aboutSection {
	a := &aboutSection{page: p, family: kit.Flow(2), acts: kit.Flow(2)}
	u := p.env.Units()
	edit := func(label string, change func(*journal.Culture)) {
		p.env.Fail(journal.Edit(p.env.Journal, p.id, label, change))
	}
	a.name = kit.NewTextField(lang.L("Name"), lang.L("what you call it"))
	a.name.OnChanged = func(t string) { edit(lang.L("name of the culture"), func(c *journal.Culture) { c.Name = t }) }
	a.flours = kit.NewTextField(lang.L("Flours, with their shares"), lang.L("strong white 80, whole rye 20"))
	a.flours.OnChanged = func(t string) {
		edit(lang.L("flours of the culture"), func(c *journal.Culture) { c.Flours = parseFlours(t) })
	}
	a.notes = kit.NewNoteField(lang.L("Notes"), lang.L("where it comes from, what it likes"))
	a.notes.OnChanged = func(t string) { edit(lang.L("notes on the culture"), func(c *journal.Culture) { c.Notes = t }) }
	a.born = kit.NewWhenField(kit.WhenOptions{Label: lang.L("Begun"), Hint: lang.L("not known"), Units: u, Now: p.env.Now,
		OnChanged: func(t time.Time) {
			edit(lang.L("birth of the culture"), func(c *journal.Culture) { c.Born, c.BornAbout = t, false })
		},
		OnCleared: func() { edit(lang.L("birth of the culture"), func(c *journal.Culture) { c.Born = time.Time{} }) }})
	a.hydration = kit.NewQuantityField(kit.QuantityOptions{Label: lang.L("Hydration"), Measure: u.Percent(0), Keep: func(v *float64) {
		if v != nil && *v <= 0 {
			v = nil
		}
		edit(lang.L("hydration of the culture"), func(c *journal.Culture) { cultureHydration.Set(c, v) })
	}})
	a.usual = kit.NewQuantityField(kit.QuantityOptions{Label: lang.L("Usual temperature"), Measure: u.Temperature(), Keep: func(v *float64) {
		edit(lang.L("temperature of the culture"), func(c *journal.Culture) { cultureUsual.Set(c, v) })
	}})
	a.every = kit.NewQuantityField(kit.QuantityOptions{Label: lang.L("Feed every"), Measure: u.Number("h", 1).In(limit.Hours), Hint: lang.L("as it ripens"), Keep: func(v *float64) {
		if v != nil && *v <= 0 {
			v = nil
		}
		edit(lang.L("rhythm of feeding"), func(c *journal.Culture) { cultureRhythm.Set(c, v) })
	}})
	a.home = kit.NewChoiceField(lang.L("Place"), lang.L("choose"), homeLabels(), func(i int) {
		edit(lang.L("home of the culture"), func(c *journal.Culture) { c.Home = homes()[i] })
	})
	mark := func(set func(*journal.Mark)) {
		edit(lang.L("mark of the culture"), func(c *journal.Culture) {
			m := c.Mark()
			set(&m)
			c.SetMark(m)
		})
	}
	a.colour = kit.NewMarkField(lang.L("Colour"), pages.MarkColours(), func(i int) { mark(func(m *journal.Mark) { m.Colour = i }) })
	a.shape = kit.NewMarkField(lang.L("Shape"), pages.MarkShapes(), func(i int) { mark(func(m *journal.Mark) { m.Shape = i }) })
	a.fill(c)
	a.box = kit.Stack(4, kit.Section(lang.L("Details")),
		kit.Columns(look.Space(40), a.name, a.flours, a.born),
		kit.Columns(look.Space(24), a.hydration, a.home, a.usual, a.every),
		kit.Flow(9, a.colour, a.shape, kit.NewLine(kit.Span{Text: lang.L("Its mark, wherever it is shown."), Size: look.TextSmall, Color: look.ColorFaint})),
		a.notes, a.family, a.acts)
	return a
}

// fill writes the record into the fields; what is being typed stays.
func (a *aboutSection) fill(c *journal.Culture) {
	a.name.SetText(c.Name)
	a.flours.SetText(floursText(c.Flours))
	a.notes.SetText(c.Notes)
	a.born.SetTime(c.Born)
	a.hydration.Set(cultureHydration.Get(c))
	a.usual.Set(cultureUsual.Get(c))
	a.every.Set(cultureRhythm.Get(c))
	a.home.SetChosen(slices.Index(homes(), c.Home))
	a.showMark(c.Mark())
}

// showMark shows every colour in the culture's shape, and every shape in its colour.
func (a *aboutSection) showMark(m journal.Mark) {
	var colours, shapes []charts.SeriesStyle
	for i := range journal.MarkColours {
		colours = append(colours, pages.LookOfMark(journal.Mark{Colour: i, Shape: m.Shape}))
	}
	for i := range journal.MarkShapes {
		shapes = append(shapes, pages.LookOfMark(journal.Mark{Colour: m.Colour, Shape: i}))
	}
	a.colour.Set(colours, m.Colour)
	a.shape.Set(shapes, m.Shape)
}

func (a *aboutSection) show(p *portrait) {
	c := p.life.Culture
	a.fill(c)
	env := a.page.env
	a.family.Objects = nil
	if p.parent != nil {
		a.family.Add(kit.NewLine(kit.Span{Text: lang.L("Family"), Color: look.ColorFaint}))
		a.family.Add(kit.NewLink(nameOf(p.parent), func() { env.Go(pages.At(pages.Culture, c.Parent)) }))
		a.family.Add(kit.NewLine(kit.Span{Text: "→ " + nameOf(c), Bold: true}))
	}
	for i, child := range p.children {
		if i == 0 && p.parent == nil {
			a.family.Add(kit.NewLine(kit.Span{Text: lang.L("Family"), Color: look.ColorFaint}))
			a.family.Add(kit.NewLine(kit.Span{Text: nameOf(c), Bold: true}))
		}
		mark := "→"
		if i > 0 {
			mark = "·"
		}
		a.family.Add(kit.NewLine(kit.Span{Text: mark}))
		a.family.Add(kit.NewLink(nameOf(child), func() { env.Go(pages.At(pages.Culture, child.ID)) }))
	}
	a.family.Hidden = len(a.family.Objects) == 0
	a.showActs(c)
	a.box.Refresh()
}

// showActs shows what can be done with the culture. The buttons are made anew only
// when it has ended, or lives again: they keep the keyboard's place.
func (a *aboutSection) showActs(c *journal.Culture) {
	ended := !c.Ended.IsZero()
	if len(a.acts.Objects) > 0 && ended == a.ended {
		return
	}
	a.ended = ended
	env := a.page.env
	a.acts.Objects = []fyne.CanvasObject{
		kit.NewButton(lang.L("Move"), a.page.move).WithKey("M"),
		kit.NewButton(lang.L("Take some out"), a.page.take).WithKey("T"),
		kit.NewButton(lang.L("Split off a new culture"), a.page.split).WithKey("S"),
		kit.NewButton(lang.L("Temperature log"), func() { pickLog(env, c) }).WithKey("L"),
		kit.NewButton(lang.L("Take it away…"), a.page.takeAway).WithKey("W"),
		a.endButton(c),
		kit.QuietButton(lang.L("Delete"), func() { a.bin(c) }),
	}
	a.acts.Refresh()
}

func (a *aboutSection) endButton(c *journal.Culture) fyne.CanvasObject {
	env := a.page.env
	if !c.Ended.IsZero() {
		return kit.QuietButton(lang.L("It is alive after all"), func() {
			env.Do(lang.L("restoring {{.Name}}", map[string]any{"Name": nameOf(c)}), func(tx *journal.Tx) error {
				return journal.Change(tx, c.ID, func(c *journal.Culture) { c.Ended = time.Time{} })
			})
		})
	}
	return kit.QuietButton(lang.L("Retire it"), func() {
		now := env.Now()
		if env.Do(lang.L("ending {{.Name}}", map[string]any{"Name": nameOf(c)}), func(tx *journal.Tx) error {
			return journal.Change(tx, c.ID, func(c *journal.Culture) { c.Ended = now })
		}) {
			env.Say(lang.L("{{.Name}} is retired; its record stays.", map[string]any{"Name": nameOf(c)}), true)
		}
	})
}

// bin throws the culture away, to be brought back from the bin.
func (a *aboutSection) bin(c *journal.Culture) {
	env := a.page.env
	if env.Do(lang.L("deleting {{.Name}}", map[string]any{"Name": nameOf(c)}), func(tx *journal.Tx) error { return journal.MoveToBin[journal.Culture](tx, c.ID) }) {
		env.Go(pages.Route{Name: pages.Cultures})
		env.Say(lang.L("{{.Name}} was deleted.", map[string]any{"Name": nameOf(c)}), true)
	}
}
