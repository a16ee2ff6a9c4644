package app

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/help"
	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/say"
)

// found is one thing that can be gone to by its name.
type found struct {
	words string
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
		found{words: lang.L("Help"), place: pages.Route{Name: pages.Help}})
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
	return append(out, w.actions()...)
}

// actions are what can be done here and everywhere, each with its key beside it, and the
// two ways the window can look.
func (w *Window) actions() []found {
	var out []found
	doors := len(doors())
	for _, g := range w.keys.Groups() {
		for _, k := range g.Keys {
			if n, toDoor := strings.CutPrefix(k.Name, "Ctrl+"); k.Do == nil || k.Doc == "" || toDoor && len(n) == 1 && n[0] >= '1' && int(n[0]-'0') <= doors {
				continue // the doors stand above as pages
			}
			out = append(out, found{words: k.Doc + " · " + kit.KeyText(k.Name), do: k.Do})
		}
	}
	look := func(words, value string) found {
		return found{words: words, do: func() {
			w.fail(w.env.Journal.Set(lang.L("Appearance"), func(s *journal.Settings) { s.Look = value }))
		}}
	}
	return append(out, look(lang.L("Appearance: light"), "light"), look(lang.L("Appearance: dark"), "dark"))
}

// search gives what holds every word of text, those that begin with it first.
func search(all []found, text string) []found {
	words := strings.Fields(strings.ToLower(text))
	var begins, holds []found
	for _, f := range all {
		low := strings.ToLower(f.words)
		ok := true
		for _, word := range words {
			ok = ok && strings.Contains(low, word)
		}
		switch {
		case !ok:
		case len(words) > 0 && strings.HasPrefix(low, words[0]):
			begins = append(begins, f)
		default:
			holds = append(holds, f)
		}
	}
	out := append(begins, holds...)
	return out[:min(len(out), mostFound)]
}

// listKeys shows every key in force.
func (w *Window) listKeys() {
	if w.env.Window.Canvas().Overlays().Top() != nil {
		return
	}
	kit.ShowDialog(w.win, kit.DialogOptions{
		Title: lang.L("Every key"), Content: kit.Stack(5, w.helpHere(), kit.KeyList(w.keys.Groups())), Width: 760, Height: 560, Scroll: true,
	})
}

// helpHere is the part of the help for the page at hand.
func (w *Window) helpHere() fyne.CanvasObject {
	part := kit.Stack(1.5)
	for _, s := range help.For(w.here.place.Name) {
		part.Add(kit.Body(s))
	}
	return part
}
