package tastings

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/measure"
)

// tables show the bakes side by side: a row for each step and figure, a column
// for what is done to all of them, and one for each bake.
func (p *trialPage) tables() fyne.CanvasObject {
	steps := kit.Stack(0, p.head(lang.L("Side by side")))
	before := make([]time.Time, len(p.bakes))
	for _, s := range p.sharedSteps() {
		steps.Add(kit.Rule())
		steps.Add(p.stepLine(s, before))
	}
	figures := kit.Stack(0, p.head(lang.L("The figures")))
	for _, f := range figureRows(p.env.Units()) {
		figures.Add(kit.Rule())
		figures.Add(p.figureLine(f))
	}
	return kit.Columns(look.Space(160), steps, figures)
}

// head names the columns of a table.
func (p *trialPage) head(title string) fyne.CanvasObject {
	head := []fyne.CanvasObject{kit.Section(title), kit.Section(p.toAll())}
	for i, b := range p.bakes {
		arm := p.armOf(b.ID)
		column := kit.Stack(0, kit.NewElided(kit.Span{Text: arm.Value, Size: look.TextLarge, Serif: true}))
		if arm.Mark != "" {
			column.Add(kit.Small(lang.L("bowl with the {{.Mark}}", map[string]any{"Mark": lang.L(arm.Mark)})))
		}
		column.Add(kit.Row(0, kit.NewLink(named(b.Name, lang.L("bake {{.N}}", map[string]any{"N": i + 1})), func() { p.env.Go(pages.At(p.placeOf(b), b.ID)) })))
		head = append(head, column)
	}
	return p.line(head)
}

// toAll names the column of what is done to every bake.
func (p *trialPage) toAll() string {
	if len(p.bakes) == 2 {
		return lang.L("to both")
	}
	return lang.L("to all")
}

func (p *trialPage) placeOf(b *journal.Bake) string {
	if !b.State.Over() {
		return pages.BakeDay
	}
	return pages.Bake
}

func (p *trialPage) armOf(bake journal.ID) journal.Arm {
	for _, a := range p.trial.Arms {
		if a.Bake == bake {
			return a
		}
	}
	return journal.Arm{}
}

// line lays one row out in columns: names narrow, the bakes alike.
func (p *trialPage) line(cells []fyne.CanvasObject) fyne.CanvasObject {
	return container.New(&tableRow{}, cells...)
}

// sharedStep is a step that every bake of a trial has.
type sharedStep struct {
	kind, name string
	nth        int
	title      string
}

// sharedSteps lists the steps of the first bake that all the others have too.
func (p *trialPage) sharedSteps() []sharedStep {
	if len(p.bakes) == 0 {
		return nil
	}
	seen := map[string]int{}
	var out []sharedStep
	for _, s := range p.bakes[0].Steps {
		key := s.Kind + "\x00" + s.Name
		one := sharedStep{s.Kind, s.Name, seen[key], s.Title()}
		seen[key]++
		all := true
		for _, b := range p.bakes[1:] {
			all = all && b.StepLike(one.kind, one.name, one.nth) != nil
		}
		if all {
			out = append(out, one)
		}
	}
	return out
}

// stepLine is a step: begun for all of them now, or for each at its own time. before is when
// each began the step above, and then this one.
func (p *trialPage) stepLine(s sharedStep, before []time.Time) fyne.CanvasObject {
	begin := func(b *journal.Bake, at time.Time) {
		if step := b.StepLike(s.kind, s.name, s.nth); step != nil {
			step.At = at
			if b.State == journal.Planned && !at.IsZero() {
				b.State = journal.Running
			}
		}
	}
	title := lang.L(s.title)
	now := kit.NewButton(lang.L("now"), func() {
		at := p.env.Now().Truncate(time.Minute)
		if p.env.Failed(p.env.Journal.ForBoth(p.id, lang.L("{{.Step}}, all alike", map[string]any{"Step": title}), func(b *journal.Bake) { begin(b, at) })) {
			return
		}
		p.env.Say(lang.L("{{.Step}} is noted for all of them.", map[string]any{"Step": title}), true)
	})
	done := true
	for _, b := range p.bakes {
		step := b.StepLike(s.kind, s.name, s.nth)
		done = done && step != nil && (!step.At.IsZero() || step.Skipped)
	}
	both := fyne.CanvasObject(kit.Row(0, now))
	if done {
		both = kit.Gap(0)
	}
	cells := []fyne.CanvasObject{kit.Body(title), both}
	for i, b := range p.bakes {
		field := kit.NewWhenField(kit.WhenOptions{
			Hint: lang.L("no time yet"), Units: p.env.Units(), Now: p.env.Now, OnDone: p.settled, After: before[i],
			OnChanged: func(at time.Time) {
				p.edit(b.ID, title, func(b *journal.Bake) { begin(b, at) })
			},
			OnCleared: func() { p.edit(b.ID, title, func(b *journal.Bake) { begin(b, time.Time{}) }) },
		})
		if step := b.StepLike(s.kind, s.name, s.nth); step != nil {
			field.SetTime(step.At)
			if !step.At.IsZero() {
				before[i] = step.At
			}
		}
		p.watch(field.Editing)
		cells = append(cells, field)
	}
	return p.line(cells)
}

func (p *trialPage) edit(bake journal.ID, label string, fn func(*journal.Bake)) {
	p.env.Fail(journal.Edit(p.env.Journal, bake, label, fn))
}

// figureRow is a figure that every bake has.
type figureRow struct {
	name    string
	measure measure.Measure
	kit.Bound[journal.Bake]
}

func figureRows(u measure.Units) []figureRow {
	return []figureRow{
		{lang.L("Water temperature"), u.Temperature(), kit.Optional(func(b *journal.Bake) **formula.Celsius { return &b.Water.Water })},
		{lang.L("Dough after mixing"), u.Temperature(), kit.Optional(func(b *journal.Bake) **formula.Celsius { return &b.Water.Dough })},
		{lang.L("Dough weight, before baking"), u.Weight(), kit.Optional(func(b *journal.Bake) **formula.Grams { return &b.Outcome.DoughWeight })},
		{lang.L("Core temperature"), u.Temperature(), kit.Optional(func(b *journal.Bake) **formula.Celsius { return &b.Outcome.Inside })},
		{lang.L("Loaf, cooled"), u.Weight(), kit.Optional(func(b *journal.Bake) **formula.Grams { return &b.Outcome.LoafWeight })},
	}
}

// figureLine is a figure: entered once for all of them, or for each its own.
func (p *trialPage) figureLine(f figureRow) fyne.CanvasObject {
	var typed *float64
	var both *kit.QuantityField
	enter := func() {
		if typed == nil || !both.Understood() {
			p.settled()
			return
		}
		v := *typed
		typed = nil
		p.stale = false
		if err := p.env.Journal.ForBoth(p.id, lang.L("{{.Step}}, all alike", map[string]any{"Step": f.name}), func(b *journal.Bake) { f.Set(b, &v) }); err != nil {
			p.env.Fail(err)
		}
	}
	both = kit.NewQuantityField(kit.QuantityOptions{
		Measure: f.measure, Hint: lang.L("enter once"), OnDone: enter,
		Keep: func(v *float64) { typed = v },
	})
	p.watch(both.Editing)
	cells := []fyne.CanvasObject{kit.Body(f.name), both}
	for _, b := range p.bakes {
		field := kit.NewQuantityField(kit.QuantityOptions{
			Measure: f.measure, OnDone: p.settled,
			Keep: func(v *float64) { p.edit(b.ID, f.name, func(b *journal.Bake) { f.Set(b, v) }) },
		})
		field.Set(f.Get(b))
		p.watch(field.Editing)
		cells = append(cells, field)
	}
	return p.line(cells)
}

// tableRow gives the first two columns a fixed share and the rest to the bakes, which stand on a
// line of their own where a time would have no room. It remembers its width, from which its height
// follows.
type tableRow struct{ width float32 }

// leastBake is the room for a day, an hour and the sign of a calendar.
const leastBake = 136

// shape is how wide the columns are, and whether the bakes stand under the first two.
func (l *tableRow) shape(n int) (name, both, bake float32, under bool) {
	gap, bakes := look.Space(5), float32(n-2)
	name, both = min(look.Space(48), l.width*0.24), min(look.Space(26), l.width*0.16)
	bake = (l.width - name - both - gap*(bakes+1)) / bakes
	if l.width > 0 && bake < leastBake {
		both = look.Space(26)
		return l.width - both - gap, both, (l.width - gap*(bakes-1)) / bakes, true
	}
	return name, both, bake, false
}

// highest is how high the highest of some cells is.
func highest(cells []fyne.CanvasObject) (h float32) {
	for _, o := range cells {
		h = max(h, o.MinSize().Height)
	}
	return h
}

func (l *tableRow) MinSize(cells []fyne.CanvasObject) fyne.Size {
	high := highest(cells)
	if _, _, _, under := l.shape(len(cells)); under {
		high = highest(cells[:2]) + highest(cells[2:])
	}
	return fyne.NewSize(look.Space(80), high)
}

func (l *tableRow) Layout(cells []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	name, both, bake, under := l.shape(len(cells))
	place := func(o fyne.CanvasObject, x, y, high, wide float32) float32 {
		h := kit.FitHeight(o, wide)
		o.Move(fyne.NewPos(x, y+(high-h)/2))
		return x + wide + look.Space(5)
	}
	first, y := size.Height, float32(0)
	if under {
		first = highest(cells[:2])
	}
	x := place(cells[1], place(cells[0], 0, 0, first, name), 0, first, both)
	if under {
		x, y = 0, first
	}
	for _, o := range cells[2:] {
		x = place(o, x, y, size.Height-y, bake)
	}
}
