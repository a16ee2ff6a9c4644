package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/help"
	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/say"
)

// found is one thing that can be gone to by its name.
type found struct {
	words string
	also  string // other words for it, in lower case
	place pages.Route
	do    func() // instead of going somewhere
}

// mostFound is how many answers are shown.
const mostFound = 12

// find asks for a word and goes to what is picked.
func (w *Window) find() {
	if w.env.Window.Canvas().Overlays().Top() != nil {
		return
	}
	all := w.everything()
	var answers []found
	var sheet *kit.Dialog
	none := kit.Faint("")
	field := kit.NewSuggestField("", lang.L("a bake, a culture, a flour, a page, something to do"), func(text string) []string {
		answers = search(all, text)
		if len(answers) == 0 {
			none.SetText(lang.L("Nothing here is called that."))
		} else {
			none.SetText("")
		}
		words := make([]string, len(answers))
		for i, a := range answers {
			words[i] = a.words
		}
		return words
	})
	field.OnTaken = func(words string) {
		for _, a := range answers {
			if a.words == words {
				sheet.Close()
				if a.do != nil {
					a.do()
					return
				}
				w.Go(a.place)
				return
			}
		}
	}
	field.OnEnter(func() { // with none marked, the first is meant
		if len(answers) > 0 {
			field.OnTaken(answers[0].words)
		}
	})
	sheet = kit.ShowDialog(w.win, kit.DialogOptions{Title: lang.L("Find anything"), Content: kit.Stack(3, field, none), Width: 560, Height: 480, Passing: true})
	field.OnEscape(sheet.Close)
	field.Focus()
}

// everything lists what can be found: the pages, then the records by their
// names, the newest bakes first. What is sealed has no name of its own here.
func (w *Window) everything() []found {
	var out []found
	for _, d := range doors() {
		out = append(out, found{words: d.word(), place: pages.Route{Name: d.name}})
	}
	out = append(out,
		found{words: lang.L("Formulas"), place: pages.Route{Name: pages.Formulas}},
		found{words: lang.L("The bin"), place: pages.Route{Name: pages.Bin}},
		found{words: lang.L("Settings"), place: pages.Route{Name: pages.Settings}},
		found{words: lang.L("Safekeeping: backups"), place: pages.Route{Name: pages.Safekeeping}},
		found{words: lang.L("Help"), place: pages.Route{Name: pages.Help}},
		found{words: lang.L("About Twinloaf: version, libraries, licences"), place: pages.Route{Name: pages.About}})
	j := w.env.Journal
	if cultures, err := journal.All[journal.Culture](j); err == nil {
		for _, c := range cultures {
			out = append(out, found{words: lang.L("{{.Name}}, culture", map[string]any{"Name": c.Name}), place: pages.At(pages.Culture, c.ID)})
		}
	}
	if formulas, err := journal.All[journal.Formula](j); err == nil {
		for _, f := range formulas {
			out = append(out, found{words: lang.L("{{.Name}}, formula, version {{.N}}", map[string]any{"Name": f.Name, "N": f.Number}), place: pages.At(pages.Formula, f.ID)})
		}
	}
	if tastings, err := journal.All[journal.Tasting](j); err == nil {
		for _, t := range tastings {
			out = append(out, found{words: lang.L("{{.Name}}, tasting", map[string]any{"Name": t.Name}), place: pages.At(pages.Tasting, t.ID)})
		}
	}
	cards, _ := j.Cards()
	seen := map[string]bool{}
	for _, c := range cards {
		if c.Binned {
			continue
		}
		out = append(out, found{words: c.Name + " · " + w.env.Units().Say(say.Of("{{.Date}}", say.With{"Date": say.Moment{At: c.At, As: say.Date}})), place: pages.At(pages.Bake, c.ID)})
		for _, f := range c.Flours {
			if !seen[f.Key] {
				seen[f.Key] = true
				out = append(out, found{words: lang.L("{{.Name}}, flour", map[string]any{"Name": f.Name}), place: pages.Route{Name: pages.Flour, More: f.Key}})
			}
		}
	}
	return withOtherWords(append(out, w.actions()...))
}

// listKeys shows every key in force.
func (w *Window) listKeys() {
	if w.env.Window.Canvas().Overlays().Top() != nil {
		return
	}
	var sheet *kit.Dialog
	toHelp := func() {
		sheet.Close()
		w.Go(pages.Route{Name: pages.Help})
	}
	sheet = kit.ShowDialog(w.win, kit.DialogOptions{
		Title: lang.L("Every key"), Width: 900, Height: 600, Scroll: true,
		Content: kit.WeightedColumns(look.Space(70), []float32{1, 1.3}, w.helpHere(toHelp), kit.KeyList(w.keys.Groups())),
	})
}

// helpHere is the part of the help for the page at hand, and the way to all of it.
func (w *Window) helpHere(toHelp func()) fyne.CanvasObject {
	part := kit.Stack(1.5, kit.Section(lang.L("On this page")))
	for _, s := range help.For(w.here.place.Name) {
		part.Add(kit.Body(s))
	}
	part.Add(kit.Row(0, kit.NewLink(lang.L("All of the help"), toHelp)))
	return part
}
