// Package settings is the page on which a baker says how the journal is shown
// and run.
package settings

import (
	"cmp"
	"context"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/assets/words"
	"twinloaf/journal"
	"twinloaf/journal/formula"
)

// Routes gives the pages of the room.
func Routes() map[string]pages.Opener {
	return map[string]pages.Opener{
		pages.Settings: func(env *pages.Env, _ pages.Route) (pages.Page, error) { return newPage(env), nil },
	}
}

// page shows the settings; each is kept as it is chosen.
type page struct {
	pages.Base
	env  *pages.Env
	page *kit.Page
	held *fyne.Container // how much of what is in the journal
	// typing tells of each field whether it is being typed in.
	typing []func() bool
}

func newPage(env *pages.Env) *page {
	p := &page{env: env, held: kit.Tiles(look.Space(50), 3)}
	p.page = kit.NewPage(kit.PageOptions{Eyebrow: lang.L("Settings"), Heading: lang.L("As you like it")})
	p.Base = pages.Base{Body: p.page, Name: lang.L("Settings"), Read: p.read}
	return p
}

func (p *page) read() {
	p.build()
	pages.Fetch(p.env, func(ctx context.Context) ([]string, error) { return heldIn(p.env.Journal.Until(ctx)) }, func(held []string, err error) {
		p.env.Fail(err)
		p.held.Objects = nil
		for _, words := range held {
			p.held.Add(kit.Body(words))
		}
		p.page.Refresh()
	})
}

// heldIn says how much of what is in a journal.
func heldIn(r journal.Reader) (words []string, err error) {
	for _, kind := range journal.Kinds() {
		n := 0
		if err := journal.EachRaw(r, kind, func(journal.Raw, error) error { n++; return nil }); err != nil {
			return nil, err
		}
		if n > 0 && kind != journal.KindSettings {
			words = append(words, pages.Counted(kind, n))
		}
	}
	return words, nil
}

func (p *page) Changed(c journal.Changed) {
	if !p.Here() || !c.TouchesKind(journal.KindSettings) {
		return
	}
	for _, busy := range p.typing {
		if busy() { // it is this field that has changed the settings
			return
		}
	}
	p.build()
}

// A choice is a setting of a few words, the first of which follows the computer.
type choice struct {
	label  string
	words  []string
	values []string
	field  func(*journal.Settings) *string
}

// written are the choices of how things are written, and shown that of the look of the window.
func choices() (written []choice, shown choice) {
	follow := lang.L("same as this computer")
	names, tags := []string{follow}, []string{""}
	for _, l := range words.Languages() {
		names, tags = append(names, l.Name), append(tags, l.Tag)
	}
	written = []choice{
		{lang.L("Language"), names, tags, func(s *journal.Settings) *string { return &s.Language }},
		{lang.L("Temperature"), []string{follow, "°C", "°F"}, []string{"", "C", "F"}, func(s *journal.Settings) *string { return &s.Temperature }},
		{lang.L("Weight"), []string{follow, lang.L("grams"), lang.L("ounces")}, []string{"", "g", "oz"}, func(s *journal.Settings) *string { return &s.Weight }},
		{lang.L("Time format"), []string{follow, lang.L("24 hours"), lang.L("am and pm")}, []string{"", "24", "12"}, func(s *journal.Settings) *string { return &s.Clock }},
		{lang.L("Paper"), []string{follow, lang.L("A4"), lang.L("US Letter")}, []string{"", "a4", "letter"}, func(s *journal.Settings) *string { return &s.Paper }},
	}
	return written, choice{lang.L("Appearance"), []string{follow, lang.L("light"), lang.L("dark")}, []string{"", "light", "dark"}, func(s *journal.Settings) *string { return &s.Look }}
}

func (p *page) build() {
	s, err := p.env.Journal.Settings()
	if p.env.Failed(err) {
		return
	}
	written, shown := choices()
	words := p.section(lang.L("Words and units"))
	for _, c := range written {
		words.Add(p.segments(s, c))
	}
	window := p.section(lang.L("Window"), p.segments(s, shown), p.textSize(s))
	sound, motion := 0, 0
	if s.Silent {
		sound = 1
	}
	if s.Still {
		motion = 1
	}
	window.Add(labelled(lang.L("Motion"), kit.NewSegments("", []string{lang.L("short, where it shows what changed"), lang.L("none")}, motion, func(i int) {
		p.set(lang.L("motion"), func(s *journal.Settings) { s.Still = i == 1 })
	})))
	window.Add(labelled(lang.L("When a step is due"), kit.NewSegments("", []string{lang.L("sound and message"), lang.L("message only")}, sound, func(i int) {
		p.set(lang.L("sound"), func(s *journal.Settings) { s.Silent = i == 1 })
	})))
	journal := p.section(lang.L("Where the journal is"), kit.Stack(1, kit.Body(p.env.Journal.Dir()),
		kit.NewLink(lang.L("Backups and safekeeping"), func() { p.env.Go(pages.Route{Name: pages.Safekeeping}) })),
		kit.Stack(2, kit.Section(lang.L("What is in it, the bin included")), p.held))
	p.page.SetBody(kit.Stack(6, kit.Columns(columnLeast, words, window), kit.Rule(),
		kit.Columns(columnLeast, p.section(lang.L("Kitchen"), p.kitchen(s)), journal)))
}

// columnLeast is the least width of either column.
var columnLeast = look.Space(108)

// section is a part of the page, its settings further apart where the window is high.
func (p *page) section(title string, settings ...fyne.CanvasObject) *fyne.Container {
	return p.page.Stack(5, 12, append([]fyne.CanvasObject{kit.Section(title)}, settings...)...)
}

// segments offers the words of a choice.
func (p *page) segments(s *journal.Settings, c choice) fyne.CanvasObject {
	return labelled(c.label, kit.NewSegments("", c.words, max(0, slices.Index(c.values, *c.field(s))), func(i int) {
		p.set(c.label, func(s *journal.Settings) { *c.field(s) = c.values[i] })
	}))
}

// labelled puts the choices of every setting in one column, their labels before them.
func labelled(label string, choices fyne.CanvasObject) fyne.CanvasObject {
	return kit.AfterLabel(look.Space(45), label, choices)
}

// textSize offers the sizes of everything in the window.
func (p *page) textSize(s *journal.Settings) fyne.CanvasObject {
	sizes := pages.TextSizes()
	words := make([]string, len(sizes))
	for i, n := range sizes {
		words[i] = p.env.Units().Percent(0).Write(float64(n))
	}
	chosen := slices.Index(sizes, s.TextSize)
	if chosen < 0 {
		chosen = slices.Index(sizes, 100)
	}
	return labelled(lang.L("Text size"), kit.NewSegments("", words, chosen, func(i int) {
		p.set(lang.L("text size"), func(s *journal.Settings) { s.TextSize = sizes[i] })
	}))
}

// kitchen asks for what plans and forecasts go by when nothing else is known.
func (p *page) kitchen(s *journal.Settings) fyne.CanvasObject {
	units := p.env.Units()
	kitchen := kit.Optional(func(s *journal.Settings) **formula.Celsius { return &s.Kitchen })
	temp := kit.NewQuantityField(kit.QuantityOptions{
		Label: lang.L("Usual kitchen temperature"), Measure: units.Temperature(),
		Keep: func(v *float64) {
			p.typed(lang.L("kitchen temperature"), func(s *journal.Settings) { kitchen.Set(s, v) })
		},
	})
	temp.Set(kitchen.Get(s))
	night, morning := s.Sleep()
	from := p.hourField(lang.L("Bedtime"), night, func(s *journal.Settings, d time.Duration) { s.SleepFrom = new(d) })
	to := p.hourField(lang.L("Wake-up time"), morning, func(s *journal.Settings, d time.Duration) { s.SleepTo = new(d) })
	money := p.currency(s)
	p.typing = []func() bool{temp.Editing, from.Editing, to.Editing, money.Editing}
	return kit.Tiles(look.Space(38), 6, temp, from, to, money)
}

// currency asks in what money flour is bought; empty, it is the computer's.
func (p *page) currency(s *journal.Settings) *kit.TextField {
	hint := cmp.Or(p.env.Units().Currency, lang.L("£, €, kr…"))
	f := kit.NewTextField(lang.L("Currency"), hint)
	f.SetText(s.Currency)
	f.OnChanged = func(text string) {
		p.typed(lang.L("currency"), func(s *journal.Settings) { s.Currency = strings.TrimSpace(text) })
	}
	return f
}

// set keeps a setting as it is chosen.
func (p *page) set(label string, fn func(*journal.Settings)) {
	p.env.Fail(p.env.Journal.Set(label, fn))
}

// typed keeps a setting as it is typed.
func (p *page) typed(label string, fn func(*journal.Settings)) {
	p.env.Fail(p.env.Journal.SetTyped(label, fn))
}

// hourField is an hour of the day, kept while it can be read.
func (p *page) hourField(label string, at time.Duration, set func(*journal.Settings, time.Duration)) *kit.TextField {
	units := p.env.Units()
	midnight := func() time.Time {
		now := p.env.Now()
		return time.Date(now.Year(), now.Month(), now.Day(), 0, 0, 0, 0, time.UTC)
	}
	f := kit.NewTextField(label, lang.L("an hour"))
	f.SetText(units.Clock(midnight().Add(at)))
	f.OnChanged = func(text string) {
		t, err := units.ParseWhen(text, midnight())
		if err != nil {
			f.SetProblem(lang.L("An hour of the day, such as 22:30."))
			return
		}
		f.SetProblem("")
		d := time.Duration(t.Hour())*time.Hour + time.Duration(t.Minute())*time.Minute
		p.typed(label, func(s *journal.Settings) { set(s, d) })
	}
	return f
}
