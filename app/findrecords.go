package app

import (
	"slices"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/say"
)

// records are what was written down, by kind, the newest bakes first. The pages tell what
// cannot be read; here it is not found.
func (w *window) records() []found {
	summaries, _ := w.env.Journal.BakeSummaries()
	return slices.Concat(w.foundCultures(), w.foundFormulas(summaries), w.foundTastings(), w.foundBakes(summaries))
}

func (w *window) foundCultures() []found {
	var out []found
	cultures, _ := journal.All[journal.Culture](w.env.Journal)
	for _, c := range cultures {
		mark := pages.LookOf(c)
		out = append(out, found{group: findCulture, title: c.Name, mark: &mark,
			words: lang.L("{{.Name}}, culture", map[string]any{"Name": c.Name}), place: pages.At(pages.Culture, c.ID)})
	}
	return out
}

// foundFormulas are the formulas, the newest version first, with the latest loaf of each
// that has a picture.
func (w *window) foundFormulas(summaries []*journal.BakeSummary) []found {
	latest := map[journal.ID]*journal.BakeSummary{}
	for _, c := range summaries {
		if _, known := latest[c.Formula]; !known && c.Cover != "" && !c.Binned {
			latest[c.Formula] = c
		}
	}
	var out []found
	u, now := w.env.Units(), w.env.Now()
	formulas, _ := journal.All[journal.Formula](w.env.Journal)
	for _, f := range slices.Backward(formulas) {
		a := found{group: findFormula, title: f.Name, under: lang.L("version {{.N}}", map[string]any{"N": f.Number}),
			words: lang.L("{{.Name}}, formula, version {{.N}}", map[string]any{"Name": f.Name, "N": f.Number}), place: pages.At(pages.Formula, f.ID)}
		if c := latest[f.ID]; c != nil {
			a.photo, a.right = c.Cover, lang.L("baked {{.Day}}", map[string]any{"Day": u.Day(c.At.In(now.Location()), now)})
		}
		out = append(out, a)
	}
	return out
}

// foundTastings are the tastings, and then the trials.
func (w *window) foundTastings() []found {
	var out []found
	tastings, _ := journal.All[journal.Tasting](w.env.Journal)
	for _, t := range tastings {
		a := found{group: findTasting, title: pages.TastingName(t), words: lang.L("{{.Name}}, tasting", map[string]any{"Name": pages.TastingName(t)}), place: pages.At(pages.Tasting, t.ID)}
		if !t.IsSealed() && !t.IsOpen() && !t.IsClosed() {
			a.group, a.loaf, a.under, a.right = findAhead, kit.PaleLoaf, lang.L("tasting"), w.env.Units().When(t.At, w.env.Now())
		}
		out = append(out, a)
	}
	trials, _ := journal.All[journal.Trial](w.env.Journal)
	for _, t := range trials {
		out = append(out, found{group: findTasting, title: t.Name, words: lang.L("{{.Name}}, trial", map[string]any{"Name": t.Name}), place: pages.At(pages.Trial, t.ID)})
	}
	return out
}

// foundBakes are the bakes that are not in the bin, each flour behind the newest of them
// that it went into.
func (w *window) foundBakes(summaries []*journal.BakeSummary) []found {
	var out []found
	u, now := w.env.Units(), w.env.Now()
	seen := map[string]bool{}
	for _, c := range summaries {
		if c.Binned {
			continue
		}
		a := found{group: findBake, title: c.Name, photo: c.Cover, right: u.Day(c.At.In(now.Location()), now),
			words: c.Name + " · " + u.Say(say.Of("{{.Date}}", say.With{"Date": say.Moment{At: c.At.In(now.Location()), As: say.Date}})), place: pages.At(pages.Bake, c.ID)}
		if c.Cover == "" {
			a.loaf = pages.LoafTone(c)
		}
		switch {
		case c.State == journal.Planned:
			a.group, a.under, a.right = findAhead, lang.L("planned"), u.When(c.At, now)
		case c.State == journal.Running:
			a.group, a.under, a.right = findAhead, lang.L("under way"), u.When(c.At, now)
		case c.Score() > 0:
			a.under = lang.L("{{.N}} of 9", map[string]any{"N": c.Score()})
		default:
			a.under = lang.L("not scored yet")
		}
		out = append(out, a)
		for _, f := range c.Flours {
			if !seen[f.Key] {
				seen[f.Key] = true
				out = append(out, found{group: findFlour, title: f.Name, words: lang.L("{{.Name}}, flour", map[string]any{"Name": f.Name}), place: pages.Route{Name: pages.Flour, More: f.Key}})
			}
		}
	}
	return out
}
