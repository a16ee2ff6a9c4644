package bakes

import (
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/dough"
	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/measure"
	"twinloaf/journal/plan"
)

// quickSteps are those that are added with one tap.
var quickSteps = []plan.Kind{plan.Mix, plan.Rest, plan.Turns, plan.Bulk, plan.PreShape, plan.BenchRest, plan.Divide, plan.Proof, plan.ColdRest, plan.BakeCovered, plan.BakeUncovered, plan.Other}

// stepList is what happened, step by step in the order of time.
type stepList struct {
	page  *bakePage
	box   *fyne.Container
	head  fyne.CanvasObject // over the columns
	rows  *fyne.Container
	lines []*stepLine
	add   *fyne.Container
}

func newStepList(p *bakePage) *stepList {
	s := &stepList{page: p, rows: kit.Stack(0.5), add: kit.Flow(1.5)}
	for _, k := range quickSteps {
		word := dough.StepWord(k)
		if k == plan.Other {
			word = lang.L("Another step")
		}
		s.add.Add(kit.NewChoicePill(lang.L("+ {{.Step}}", map[string]any{"Step": word}), false, func() { s.append(k) }))
	}
	s.head = newStepRow(kit.Small(lang.L("what")), kit.Small(lang.L("begun")), kit.Small(lang.L("ended")),
		kit.Small(lang.L("dough")), kit.Small(lang.L("ambient")), kit.Small(lang.L("rise (start = 1)")), kit.Small(""))
	s.box = kit.Stack(2, s.head, s.rows, s.add)
	return s
}

// append writes another step down and puts the cursor in it.
func (s *stepList) append(kind plan.Kind) {
	id, err := s.page.env.Journal.NewID()
	if s.page.env.Failed(err) {
		return
	}
	if !s.page.rec.do(lang.L("another step"), func(b *journal.Bake) {
		b.Steps = append(b.Steps, nextStep(b, id, kind))
	}) {
		return
	}
	s.page.refresh()
	for _, l := range s.lines {
		switch {
		case l.id != id:
		case kind == plan.Other:
			s.page.focus(l.name)
		default:
			s.page.focus(l.at)
		}
	}
}

// sync shows the steps of the journal. While a step is being typed in, their order
// stays, so that nothing moves under the caret.
func (s *stepList) sync(b *journal.Bake) {
	steps := inOrder(b.Steps)
	if slices.ContainsFunc(s.lines, (*stepLine).busy) {
		place := map[journal.ID]int{}
		for i, l := range s.lines {
			place[l.id] = i + 1
		}
		slices.SortStableFunc(steps, func(a, b journal.Step) int {
			pa, pb := place[a.ID], place[b.ID]
			if pa == 0 || pb == 0 {
				return 0
			}
			return pa - pb
		})
	}
	next := kit.KeptRows(s.lines, steps,
		func(l *stepLine, st journal.Step) bool { return l.id == st.ID },
		func(st journal.Step) *stepLine { return newStepLine(s, st.ID) })
	if !slices.Equal(next, s.lines) {
		s.lines = next
		s.rows.Objects = nil
		for _, l := range next {
			s.rows.Add(l.box)
		}
	}
	for i, st := range steps {
		s.lines[i].set(st)
	}
	kit.SetVisible(s.head, len(s.lines) > 0)
	kit.SetVisible(s.rows, len(s.lines) > 0)
	s.rows.Refresh()
}

// stepLine holds the widgets of one step.
type stepLine struct {
	list       *stepList
	id         journal.ID
	box        *fyne.Container
	name       *kit.SuggestField
	at, end    *kit.WhenField
	dough, air *kit.QuantityField
	rise       *kit.QuantityField
	note       *kit.TextField
	fact       *kit.Text
	shown      journal.Step
}

func newStepLine(s *stepList, id journal.ID) *stepLine {
	l := &stepLine{list: s, id: id, fact: kit.Small("")}
	u := s.page.units
	l.name = kit.NewSuggestField("", lang.L("a step"), dough.SuggestSteps)
	l.name.OnChanged = func(text string) {
		l.edit(lang.L("name of a step"), func(st *journal.Step) { dough.NameStep(st, text) })
	}
	l.at = l.when(lang.L("begin of a step"), func(st *journal.Step) *time.Time { return &st.At }, func() time.Time { return l.above().Add(-outOfOrder) })
	l.end = l.when(lang.L("end of a step"), func(st *journal.Step) *time.Time { return &st.End }, func() time.Time {
		if at, ok := l.at.Time(); ok {
			return at
		}
		return l.above()
	})
	l.dough = l.figure(lang.L("dough temperature"), u.Temperature(), kit.Optional(func(st *journal.Step) **formula.Celsius { return &st.Dough }))
	l.air = l.figure(lang.L("temperature around the dough"), u.Temperature(), kit.Optional(func(st *journal.Step) **formula.Celsius { return &st.Air }))
	l.rise = l.figure(lang.L("rise of the dough"), u.Times(), kit.Optional(func(st *journal.Step) **float64 { return &st.Rise }))
	l.note = kit.NewTextField("", lang.L("note"))
	l.note.OnChanged = func(text string) {
		l.edit(lang.L("note on a step"), func(st *journal.Step) { st.Note = text })
	}
	drop := kit.NewLinkSpan(kit.Span{Text: "×", Bold: true, Color: look.ColorFaint}, l.remove)
	l.box = newStepRow(l.name, l.at, l.end, l.dough, l.air, l.rise, drop, l.fact, l.note)
	return l
}

func (l *stepLine) edit(label string, set func(*journal.Step)) {
	l.list.page.rec.edit(label, func(b *journal.Bake) { set(stepOf(b, l.id)) })
}

// outOfOrder is by how much a step may begin before what stands above it (our own guess): an
// hour alone is looked for from there on, so that one past midnight is of the next day.
const outOfOrder = 6 * time.Hour

// above is the last time that stands above the step, at least the begin of the bake.
func (l *stepLine) above() time.Time {
	b, _, err := l.list.page.rec.get()
	if err != nil {
		return l.list.page.env.Now() // the page says so when it shows the bake
	}
	last := b.At
	for _, o := range l.list.lines {
		if o == l {
			break
		}
		for _, f := range []*kit.WhenField{o.at, o.end} {
			if t, ok := f.Time(); ok && t.After(last) {
				last = t
			}
		}
	}
	return last
}

func (l *stepLine) when(change string, of func(*journal.Step) *time.Time, from func() time.Time) *kit.WhenField {
	keep := func(t time.Time) {
		l.edit(change, func(st *journal.Step) { *of(st) = t })
	}
	return kit.NewWhenField(kit.WhenOptions{Hint: lang.L("no time"), Units: l.list.page.units, Now: l.list.page.env.Now, From: from,
		OnChanged: keep,
		OnCleared: func() { keep(time.Time{}) },
		OnDone:    l.list.page.refreshSoon, // the order may be another now
	})
}

func (l *stepLine) figure(change string, m measure.Measure, bound kit.Bound[journal.Step]) *kit.QuantityField {
	return kit.NewQuantityField(kit.QuantityOptions{Measure: m, Hint: "–", Keep: func(v *float64) {
		l.edit(change, func(st *journal.Step) { bound.Set(st, v) })
	}})
}

// busy says whether the step is being typed in.
func (l *stepLine) busy() bool {
	return l.name.Editing() || l.at.Editing() || l.end.Editing() || l.dough.Editing() ||
		l.air.Editing() || l.rise.Editing() || l.note.Editing()
}

// set shows a step of the journal.
func (l *stepLine) set(st journal.Step) {
	l.shown = st
	l.name.SetText(stepName(st))
	showTime(l.at, st.At)
	showTime(l.end, st.End)
	l.dough.Set(kit.Number(st.Dough))
	l.air.Set(kit.Number(st.Air))
	l.rise.Set(st.Rise)
	l.note.SetText(st.Note)
	l.fact.SetText(stepFact(st, l.list.page.units, l.list.page.env.Now()))
}

// remove takes the step away.
func (l *stepLine) remove() {
	name := stepName(l.shown)
	if !l.list.page.rec.do(lang.L("removing a step"), func(b *journal.Bake) {
		b.Steps = slices.DeleteFunc(b.Steps, func(st journal.Step) bool { return st.ID == l.id })
	}) {
		return
	}
	l.list.page.env.Say(lang.L("{{.Name}} is removed.", map[string]any{"Name": name}), true)
}

// showTime shows a time; it is cheap when nothing changed.
func showTime(f *kit.WhenField, t time.Time) {
	if was, ok := f.Time(); ok == t.IsZero() || !was.Equal(t) {
		f.SetTime(t)
	}
}
