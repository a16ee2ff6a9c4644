package app

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/help"
	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/say"
)

// found is one thing that can be gone to by its name.
type found struct {
	words string
	also  string // other words for it, in lower case
	place pages.Route
	do    func() // instead of going somewhere

	// How it is shown: in its group, by title where words say more than a title does, with
	// what it is beneath and when it was at the right.
	group               findGroup
	title, under, right string
	photo               string              // hash of its picture
	loaf                kit.LoafTone        // drawn where it has none
	mark                *charts.SeriesStyle // of a culture, in a picture's place
	link                bool                // leads on to more
}

// pictured says that it stands beside a picture.
func (f found) pictured() bool {
	switch f.group {
	case findAhead, findBake, findCulture, findFormula:
		return true
	}
	return false
}

// mostFound is how many answers are shown.
const mostFound = 12

// everything lists what can be found: the pages, then the records by their
// names, the newest bakes first. What is sealed has no name of its own here.
func (w *window) everything() []found {
	var out []found
	for _, d := range doors() {
		out = append(out, found{group: findPage, words: d.word(), place: pages.Route{Name: d.name}})
	}
	out = append(out,
		found{group: findPage, words: lang.L("Formulas"), place: pages.Route{Name: pages.Formulas}},
		found{group: findPage, words: lang.L("The bin"), place: pages.Route{Name: pages.Bin}},
		found{group: findPage, words: lang.L("Settings"), place: pages.Route{Name: pages.Settings}},
		found{group: findPage, words: lang.L("Safekeeping: backups"), place: pages.Route{Name: pages.Safekeeping}},
		found{group: findPage, words: lang.L("Help"), place: pages.Route{Name: pages.Help}},
		found{group: findPage, words: lang.L("About Twinloaf: version, libraries, licences"), place: pages.Route{Name: pages.About}})
	out = append(out, w.records()...)
	return withOtherWords(append(out, w.actions()...))
}

// records are what was written down, by kind, the newest bakes first.
func (w *window) records() []found {
	var out []found
	j, u, now := w.env.Journal, w.env.Units(), w.env.Now()
	summaries, _ := j.BakeSummaries()
	latest := map[journal.ID]*journal.BakeSummary{} // the last loaf of each formula that has a picture
	for _, c := range summaries {
		if _, known := latest[c.Formula]; !known && c.Cover != "" && !c.Binned {
			latest[c.Formula] = c
		}
	}
	if cultures, err := journal.All[journal.Culture](j); err == nil {
		for _, c := range cultures {
			mark := pages.LookOf(c)
			out = append(out, found{group: findCulture, title: c.Name, mark: &mark,
				words: lang.L("{{.Name}}, culture", map[string]any{"Name": c.Name}), place: pages.At(pages.Culture, c.ID)})
		}
	}
	if formulas, err := journal.All[journal.Formula](j); err == nil {
		for _, f := range slices.Backward(formulas) { // the newest version first
			a := found{group: findFormula, title: f.Name, under: lang.L("version {{.N}}", map[string]any{"N": f.Number}),
				words: lang.L("{{.Name}}, formula, version {{.N}}", map[string]any{"Name": f.Name, "N": f.Number}), place: pages.At(pages.Formula, f.ID)}
			if c := latest[f.ID]; c != nil {
				a.photo, a.right = c.Cover, lang.L("baked {{.Day}}", map[string]any{"Day": u.Day(c.At.In(now.Location()), now)})
			}
			out = append(out, a)
		}
	}
	if tastings, err := journal.All[journal.Tasting](j); err == nil {
		for _, t := range tastings {
			a := found{group: findTasting, title: pages.TastingName(t), words: lang.L("{{.Name}}, tasting", map[string]any{"Name": pages.TastingName(t)}), place: pages.At(pages.Tasting, t.ID)}
			if !t.IsSealed() && !t.IsOpen() && !t.IsClosed() {
				a.group, a.loaf, a.under, a.right = findAhead, kit.PaleLoaf, lang.L("tasting"), u.When(t.At, now)
			}
			out = append(out, a)
		}
	}
	if trials, err := journal.All[journal.Trial](j); err == nil {
		for _, t := range trials {
			out = append(out, found{group: findTasting, title: t.Name, words: lang.L("{{.Name}}, trial", map[string]any{"Name": t.Name}), place: pages.At(pages.Trial, t.ID)})
		}
	}
	seen := map[string]bool{}
	for _, c := range summaries {
		if c.Binned {
			continue
		}
		a := found{group: findBake, title: c.Name, photo: c.Cover, loaf: pages.LoafTone(c), right: u.Day(c.At.In(now.Location()), now),
			words: c.Name + " · " + u.Say(say.Of("{{.Date}}", say.With{"Date": say.Moment{At: c.At, As: say.Date}})), place: pages.At(pages.Bake, c.ID)}
		switch {
		case c.State == journal.Planned:
			a.group, a.under, a.right = findAhead, lang.L("planned"), u.When(c.At, now)
		case c.State == journal.Running:
			a.group, a.under, a.right = findAhead, lang.L("under way"), u.When(c.At, now)
		case c.Score() > 0:
			a.under = lang.L("{{.N}} of 9", map[string]any{"N": c.Score()})
		default:
			a.under = lang.L("not tasted yet")
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

// listKeys shows every key in force.
func (w *window) listKeys() {
	if w.env.Window.Canvas().Overlays().Top() != nil {
		return
	}
	var sheet *kit.Dialog
	all := w.keys.Groups()
	toHelp := kit.NewLink(lang.L("All of the help"), func() {
		sheet.Close()
		w.Go(pages.Route{Name: pages.Help})
	})
	sheet = kit.ShowDialog(w.win, kit.DialogOptions{
		Title: lang.L("Every key"), Width: 1080, Scroll: true, Aside: kit.Row(0, toHelp),
		Content: kit.WeightedColumns(look.Space(70), []float32{1, 1.9}, w.helpHere(all[1:]), kit.KeyList(all[0])),
	})
}

// helpHere is what is said of the page at hand: its keys and its part of the help.
func (w *window) helpHere(keys []kit.KeyGroup) fyne.CanvasObject {
	part := kit.Stack(1.5)
	if len(keys) > 0 {
		part.Add(kit.KeyList(keys...))
		part.Add(kit.Gap(2))
	} else {
		part.Add(kit.Section(lang.L("On this page")))
	}
	for _, s := range help.For(w.here.place.Name) {
		part.Add(kit.Body(s))
	}
	return part
}
