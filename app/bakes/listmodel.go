package bakes

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/app/past"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/measure"
	"twinloaf/journal/plan"
	"twinloaf/journal/shelf"
)

// filter says which past bakes are listed.
type filter struct {
	flour string // its key; empty for every flour
	text  string
}

// lists are the bakes of the journal as the page lists them.
type lists struct {
	ahead []*journal.BakeSummary // under way, then planned, the next first
	past  []*journal.BakeSummary // what the filter lets through, newest first
	all   int                    // past bakes without the filter
}

// listBakes sorts the summaries, which come newest first, into lists.
func listBakes(summaries []*journal.BakeSummary, f filter) lists {
	var out lists
	words := strings.Fields(strings.ToLower(f.text))
	for _, c := range summaries {
		switch {
		case c.Binned:
		case !c.State.Over():
			out.ahead = append(out.ahead, c)
		default:
			out.all++
			if holdsFlour(c, f.flour) && holdsWords(c, words) {
				out.past = append(out.past, c)
			}
		}
	}
	slices.SortStableFunc(out.ahead, func(a, b *journal.BakeSummary) int {
		if a.State != b.State {
			return cmp.Compare(aheadRank(a), aheadRank(b))
		}
		return a.At.Compare(b.At)
	})
	return out
}

func aheadRank(c *journal.BakeSummary) int {
	if c.State == journal.Running {
		return 0
	}
	return 1
}

func holdsFlour(c *journal.BakeSummary, key string) bool {
	return key == "" || slices.ContainsFunc(c.Flours, func(f journal.SummaryFlour) bool { return f.Key == key })
}

// holdsWords looks for every word in the names and notes of a bake.
func holdsWords(c *journal.BakeSummary, words []string) bool {
	for _, w := range words {
		held := strings.Contains(c.Text, w) ||
			slices.ContainsFunc(c.Flours, func(f journal.SummaryFlour) bool { return strings.Contains(f.Key, w) }) ||
			slices.ContainsFunc(c.AddIns, func(a string) bool { return strings.Contains(a, w) })
		if !held {
			return false
		}
	}
	return true
}

// flourCount is a flour and in how many past bakes it is.
type flourCount struct {
	key, name string
	n         int
}

// countFlours counts the past bakes of each flour, the most used first.
func countFlours(summaries []*journal.BakeSummary) []flourCount {
	at := map[string]int{}
	var out []flourCount
	for _, c := range summaries {
		if c.Binned || !c.State.Over() {
			continue
		}
		for _, f := range c.Flours {
			i, ok := at[f.Key]
			if !ok {
				i = len(out)
				at[f.Key] = i
				out = append(out, flourCount{key: f.Key, name: f.Name})
			}
			out[i].n++
		}
	}
	slices.SortStableFunc(out, func(a, b flourCount) int {
		return cmp.Or(b.n-a.n, strings.Compare(a.key, b.key))
	})
	return out
}

// cameOut is when the bread of a past bake came out of the oven; not ok where that was not
// written down.
func cameOut(b *journal.Bake) (at time.Time, ok bool) {
	if !b.Ready.IsZero() {
		return b.Ready, true
	}
	for _, s := range b.Steps {
		switch plan.Kind(s.Kind) {
		case plan.BakeCovered, plan.BakeUncovered:
			if s.End.After(at) {
				at = s.End
			}
		}
	}
	return at, !at.IsZero()
}

// listHeading says the state of things: when there was last bread. last is the
// newest past bake, or nil.
func listHeading(l lists, last *journal.Bake, u measure.Units, now time.Time) string {
	running := 0
	for _, c := range l.ahead {
		if c.State == journal.Running {
			running++
		}
	}
	switch {
	case running == 1:
		return lang.L("{{.Name}} is under way", map[string]any{"Name": past.Name(l.ahead[0].Name)})
	case running > 1:
		return lang.L("{{.N}} doughs are under way", map[string]any{"N": running})
	case last == nil && len(l.ahead) > 0:
		return lang.L("The first bake is planned")
	case last == nil:
		return lang.L("Nothing is baked yet")
	}
	at, out := cameOut(last)
	if !out {
		at = last.At
	}
	at = at.In(now.Location())
	days, named := daysApart(at, now), lang.L(at.Weekday().String())
	if days >= 7 {
		named = u.Day(at, now)
	}
	on := map[string]any{"Day": named}
	switch {
	case days < 0:
		return lang.L("The last loaf is dated in the future")
	case days == 0 && out:
		return lang.L("The last loaf came out today")
	case days == 0:
		return lang.L("The last bake was begun today")
	case days == 1 && out:
		return lang.L("The last loaf came out yesterday")
	case days == 1:
		return lang.L("The last bake was begun yesterday")
	case out:
		return lang.L("The last loaf came out on {{.Day}}", on)
	}
	return lang.L("The last bake was begun on {{.Day}}", on)
}

// daysApart counts the midnights from a to b.
func daysApart(a, b time.Time) int {
	day := func(t time.Time) time.Time {
		y, m, d := t.Date()
		return time.Date(y, m, d, 0, 0, 0, 0, time.UTC)
	}
	return int(day(b).Sub(day(a)).Hours() / 24)
}

// rowView is a bake as a row of the list.
type rowView struct {
	id, cover string
	loaf      kit.LoafTone        // how it is drawn where it has no photo
	mark      *charts.SeriesStyle // of its culture; nil without one
	title     string
	when      string
	flours    string
	figures   string
	do        string // in the place of when, what opening the row does where that is more than to look
	score     string
}

func viewRow(c *journal.BakeSummary, marks map[journal.ID]charts.SeriesStyle, u measure.Units, now time.Time) rowView {
	out := rowView{id: string(c.ID), cover: c.Cover, loaf: pages.LoafTone(c), title: past.Name(c.Name), when: u.When(c.At, now)}
	if m, ok := marks[c.Culture]; ok {
		out.mark = &m
	}
	var flours []string
	for i, share := range journal.WholeShares(c.Flours) {
		flours = append(flours, lang.L("{{.Flour}} {{.Share}} %", map[string]any{"Flour": c.Flours[i].Name, "Share": u.FormatNumber(share, 0)}))
	}
	out.flours = strings.Join(flours, ", ")
	var figures []string
	if hydration := c.Metric(shelf.Hydration); hydration > 0 {
		figures = append(figures, lang.L("{{.P}} % hydration", map[string]any{"P": u.FixedNumber(hydration, 1)}))
	}
	if loss := c.Metric(shelf.Loss); loss > 0 {
		figures = append(figures, lang.L("{{.P}} % bake loss", map[string]any{"P": u.FixedNumber(loss, 1)}))
	}
	switch {
	case c.Photos == 1:
		figures = append(figures, lang.L("1 photo"))
	case c.Photos > 1:
		figures = append(figures, lang.L("{{.N}} photos", map[string]any{"N": c.Photos}))
	}
	out.figures = strings.Join(figures, " · ")
	if score := c.Score(); score > 0 {
		out.score = u.FormatNumber(float64(score), 0)
	}
	return out
}
