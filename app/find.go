package app

import (
	"strings"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/room"
	"twinloaf/journal"
	"twinloaf/journal/say"
)

// found is one thing that can be gone to by its name.
type found struct {
	words string
	place room.Place
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
	var sheet *kit.Sheet
	none := kit.Faint("")
	field := kit.NewSuggestField("", lang.L("a bake, a culture, a flour, a page"), func(text string) []string {
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
	sheet = kit.ShowSheet(w.win, kit.SheetOptions{Title: lang.L("Find anything"), Content: kit.Stack(3, field, none), Width: 560, Height: 480, Passing: true})
	field.OnEscape(sheet.Close)
	field.Focus()
}

// everything lists what can be found: the pages, then the records by their
// names, the newest bakes first. What is sealed has no name of its own here.
func (w *Window) everything() []found {
	var out []found
	for _, d := range doors() {
		out = append(out, found{d.word(), room.Place{Name: d.name}})
	}
	out = append(out,
		found{lang.L("Formulas"), room.Place{Name: room.Formulas}},
		found{lang.L("The bin"), room.Place{Name: room.Bin}},
		found{lang.L("Settings"), room.Place{Name: room.Settings}},
		found{lang.L("Safekeeping: backups"), room.Place{Name: room.Safekeeping}},
		found{lang.L("Help"), room.Place{Name: room.Help}})
	j := w.env.Journal
	if cultures, err := journal.All[journal.Culture](j); err == nil {
		for _, c := range cultures {
			out = append(out, found{lang.L("{{.Name}}, culture", map[string]any{"Name": c.Name}), room.At(room.Culture, c.ID)})
		}
	}
	if formulas, err := journal.All[journal.Formula](j); err == nil {
		for _, f := range formulas {
			out = append(out, found{lang.L("{{.Name}}, formula, version {{.N}}", map[string]any{"Name": f.Name, "N": f.Number}), room.At(room.Formula, f.ID)})
		}
	}
	if tastings, err := journal.All[journal.Tasting](j); err == nil {
		for _, t := range tastings {
			out = append(out, found{lang.L("{{.Name}}, tasting", map[string]any{"Name": t.Name}), room.At(room.Tasting, t.ID)})
		}
	}
	cards, _ := j.Cards()
	seen := map[string]bool{}
	for _, c := range cards {
		if c.Binned {
			continue
		}
		out = append(out, found{c.Name + " · " + w.env.Units().Say(say.Of("{{.Date}}", say.With{"Date": say.Moment{At: c.At, As: say.Date}})), room.At(room.Bake, c.ID)})
		for _, f := range c.Flours {
			if !seen[f.Key] {
				seen[f.Key] = true
				out = append(out, found{lang.L("{{.Name}}, flour", map[string]any{"Name": f.Name}), room.Place{Name: room.Flour, More: f.Key}})
			}
		}
	}
	return out
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
	kit.ShowSheet(w.win, kit.SheetOptions{
		Title: lang.L("Every key"), Content: kit.KeyList(w.keys.Groups()), Width: 760, Height: 560, Scroll: true,
	})
}
