package bakeday

import (
	"strings"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/measure"
	"twinloaf/journal/plan"
)

// otherDays lists the days of the other doughs: those under way, and those that are
// planned for the days to come.
func otherDays(j journal.Source, but journal.ID, now time.Time) ([]pages.DoughDay, error) {
	cards, err := j.Cards()
	if err != nil {
		return nil, err
	}
	var out []pages.DoughDay
	for _, c := range cards {
		if c.ID == but || c.Binned || c.State != journal.Running && c.State != journal.Planned {
			continue
		}
		b, err := journal.Get[journal.Bake](j, c.ID)
		if err != nil {
			return nil, err
		}
		day, ok := b.Day()
		if !ok || b.Steps[0].PlannedAt.IsZero() || c.State == journal.Planned && day.Start.Before(now) {
			continue // it has no time yet, or was never begun
		}
		name := b.Name
		if name == "" {
			name = lang.L("A dough")
		}
		out = append(out, pages.DoughDay{Name: name, Day: day})
	}
	return out, nil
}

func plansOf(others []pages.DoughDay) []plan.Plan {
	out := make([]plan.Plan, len(others))
	for i, o := range others {
		out[i] = o.Day
	}
	return out
}

// clashWords says, clash by clash, what two doughs want at one time.
func clashWords(clashes []plan.Clash, others []pages.DoughDay, u measure.Units) []string {
	var out []string
	for _, c := range clashes {
		out = append(out, u.Say(c.Line(others[c.With].Name)))
	}
	return out
}

// easeSection says what of a day under way falls into the night or clashes with another
// dough, and offers the smallest change with which it can be kept.
type easeSection struct {
	face   *dayStage
	object *kit.Text
	use    *kit.Link

	cancel func()
	easing plan.Easing
	ok     bool
}

func newEaseSection(f *dayStage) *easeSection {
	p := &easeSection{face: f, cancel: func() {}, object: kit.NewText(kit.Span{Size: look.TextLarge, Color: look.ColorEmber})}
	p.use = kit.NewLink("", p.take)
	p.object.Hide()
	p.use.Hide()
	return p
}

// look looks for it anew; what eases the day is looked for away from the main goroutine.
func (p *easeSection) look() {
	p.cancel()
	p.cancel = func() {}
	env, now := p.face.env, p.face.env.Now()
	day, planned := p.face.bake.Day()
	night, err := nightOf(env.Journal)
	if err != nil || !planned {
		env.Fail(err)
		return
	}
	others, err := otherDays(env.Journal, p.face.bake.ID, now)
	if err != nil {
		env.Fail(err)
		return
	}
	words := troubles(day, night, now, others, env.Units())
	p.object.SetSpans(kit.Span{Text: strings.Join(words, "\n"), Size: look.TextLarge, Color: look.ColorEmber})
	kit.SetVisible(p.object, len(words) > 0)
	if len(words) == 0 {
		p.ok = false
		p.use.Hide()
		return
	}
	var easing plan.Easing
	var ok bool
	p.cancel = env.Think(func() { easing, ok = day.Ease(now, night, plansOf(others)...) }, func() {
		p.easing, p.ok = easing, ok
		if ok {
			p.use.SetText(env.Units().Say(easing.Line()))
		}
		kit.SetVisible(p.use, ok)
	})
}

// troubles says what is wrong with a day.
func troubles(day plan.Plan, night plan.Night, now time.Time, others []pages.DoughDay, u measure.Units) []string {
	var words []string
	if line := plan.NightLine(day.AtNight(night, now)); !line.IsZero() {
		words = append(words, u.Say(line))
	}
	return append(words, clashWords(day.Clashes(now, plansOf(others)...), others, u)...)
}

// take makes the change.
func (p *easeSection) take() {
	if !p.ok {
		return
	}
	ref, by := p.easing.Ref, p.easing.By
	p.face.act.shift(p.face.bake.ID, lang.L("a day that can be kept"), ref, by)
}
