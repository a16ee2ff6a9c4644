package bakeday

import (
	"cmp"
	"strings"
	"time"

	"fyne.io/fyne/v2"
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
	summaries, err := j.BakeSummaries()
	if err != nil {
		return nil, err
	}
	var out []pages.DoughDay
	for _, c := range summaries {
		if c.ID == but || c.Binned || c.State.Over() {
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
		name := cmp.Or(b.Name, lang.L("A dough"))
		out = append(out, pages.DoughDay{Name: name, Day: day.In(now.Location())})
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
// dough, and offers a small change with which it can be kept.
type easeSection struct {
	face   *dayStage
	object *fyne.Container
	words  *kit.Text
	how    *kit.Text // the changes, where it takes several, or that there is none
	use    *kit.Link

	cancel func()
	looked time.Time
	easing plan.Easing
	ok     bool
}

func newEaseSection(f *dayStage) *easeSection {
	p := &easeSection{face: f, cancel: func() {}, words: kit.NewText(), how: kit.NewText()}
	p.use = kit.NewLinkSpan(kit.Span{Size: look.TextLarge, Color: look.ColorCrust}, p.take)
	p.object = kit.Stack(1, p.words, p.how, p.use)
	p.object.Hide()
	p.how.Hide()
	p.use.Hide()
	return p
}

// look looks for it anew; what eases the day is looked for away from the main goroutine.
func (p *easeSection) look() {
	p.cancel()
	p.cancel = func() {}
	env, now := p.face.env, p.face.env.Now()
	p.looked = now
	day, planned := p.face.bake.Day()
	night, err := nightOf(env.Journal)
	if err != nil || !planned {
		env.Fail(err)
		return
	}
	others, err := otherDays(env.Journal, p.face.bake.ID, now)
	if env.Failed(err) {
		return
	}
	day = day.In(now.Location()) // the night is that of this zone
	words := troubles(day, night, now, others, env.Units())
	kit.SetVisible(p.object, len(words) > 0)
	if len(words) == 0 {
		p.ok = false
		p.how.Hide()
		p.use.Hide()
		return
	}
	if more := len(words) - mostTroubles; more > 0 {
		words = append(words[:mostTroubles], lang.N("and {{.N}} more, as the doughs on one clock show", more, map[string]any{"N": more}))
	}
	p.words.SetSpans(kit.Span{Text: strings.Join(words, "\n"), Size: look.TextLarge, Color: look.ColorEmber})
	var easing plan.Easing
	var ok bool
	p.cancel = env.Think(func() { easing, ok = day.Ease(now, night, plansOf(others)...) }, func() {
		p.easing, p.ok = easing, ok
		how := ""
		switch u := env.Units(); {
		case !ok:
			how = lang.L("No change of this dough's later steps was found that avoids all of that.")
		case len(easing.Moves) == 1:
			p.use.SetText(u.Say(easing.Moves[0].Line()))
		default:
			var lines []string
			for _, m := range easing.Moves {
				lines = append(lines, u.Say(m.Line()))
			}
			how = strings.Join(lines, "\n")
			p.use.SetText(lang.L("Use that plan"))
		}
		p.how.SetSpans(kit.Span{Text: how, Size: look.TextLarge})
		kit.SetVisible(p.how, how != "")
		kit.SetVisible(p.use, ok)
		p.face.body.Refresh()
	})
}

// age looks anew once five minutes have gone by: what is overdue holds back what follows.
func (p *easeSection) age(now time.Time) {
	if now.Sub(p.looked).Abs() >= fiveMinutes {
		p.look()
	}
}

// mostTroubles is how many are said beside the day's own key: all of them stand where the
// doughs are on one clock.
const mostTroubles = 3

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
	p.face.act.shift(p.face.bake.ID, lang.L("a day that can be kept"), p.easing.Moves...)
}
