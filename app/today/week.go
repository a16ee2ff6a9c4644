package today

import (
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal/ferment"
	"twinloaf/journal/measure"
)

// A coming is something that a day of the week ahead holds.
type coming struct {
	at         time.Time
	name, what string
	to         pages.Route
}

// weekAhead is how far the page looks, and mostAhead how much of that it lists.
const (
	weekAhead = 7 * 24 * time.Hour
	mostAhead = 12
)

// week lists what the next days hold, in the order of time: the next step of each dough and
// when its bread is ready, when a culture wants feeding, the tastings that are planned. The
// next step of the dough on the bench stands there, and so does what is overdue.
func (s *state) week(u measure.Units) []coming {
	var out []coming
	add := func(at time.Time, name, what string, to pages.Route) {
		if !at.IsZero() && !kit.Overdue(at, s.now) && at.Before(s.now.Add(weekAhead)) {
			out = append(out, coming{at, name, what, to})
		}
	}
	bench, busy := s.bench()
	for _, d := range s.doughs {
		if !d.waiting {
			continue
		}
		to := pages.At(pages.BakeDay, d.bake.ID)
		if !busy || d.bake.ID != bench.bake.ID {
			add(d.stand.Until, d.name(), u.Say(d.stand.Title), to)
		}
		if n := len(d.moments); n > 0 && d.moments[n-1].Due.After(d.stand.Until) {
			add(d.moments[n-1].Due, d.name(), u.Say(d.moments[n-1].Title), to)
		}
	}
	for _, c := range s.cultures {
		if c.hasDue && c.due.Reason != ferment.DueNever {
			add(c.due.By, c.name(), lang.L("feed by then"), pages.At(pages.Culture, c.life.Culture.ID))
		}
	}
	for _, t := range s.tastings {
		add(t.At, pages.TastingName(t), lang.L("tasting"), pages.At(pages.Tasting, t.ID))
	}
	slices.SortStableFunc(out, func(a, b coming) int { return a.at.Compare(b.at) })
	return out[:min(len(out), mostAhead)]
}

// week shows the week ahead, a day at a time; nil where nothing is to come.
func (p *page) week() fyne.CanvasObject {
	u, now := p.env.Units(), p.state.now
	days := kit.Tiles(look.Space(72), 6)
	var day *fyne.Container
	last := ""
	for _, c := range p.state.week(u) {
		if d := pages.Weekday(c.at, now, u); d != last {
			day, last = kit.Stack(0.5, kit.Faint(d)), d
			days.Add(day)
		}
		day.Add(kit.RowGrow(3, 2, kit.Width(look.Space(11), kit.NewLine(kit.Span{Text: u.Clock(c.at.In(now.Location()))})),
			kit.NewLinkSpan(kit.Span{Text: c.name, Bold: true}, func() { p.env.Go(c.to) }), kit.Faint(c.what)))
	}
	if len(days.Objects) == 0 {
		return nil
	}
	return kit.Stack(2, kit.Section(lang.L("The week ahead")), days)
}
