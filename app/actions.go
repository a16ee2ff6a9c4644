package app

import (
	"strings"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/assets/words"
	"twinloaf/journal"
)

// actions are what can be done: here and everywhere by a key, which stands beside it, and
// from anywhere without one.
func (w *window) actions() []found {
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
	out = append(out, w.beginnings()...)
	out = append(out, w.ofLatestBake()...)
	out = append(out,
		found{words: lang.L("Take the journal away, as one archive"), do: func() { w.env.TakeAway("") }},
		found{words: lang.L("Save all bakes, scores, feedings and readings as tables"), place: pages.Route{Name: pages.Safekeeping}},
		found{words: lang.L("Bring an archive in"), place: pages.Route{Name: pages.Safekeeping}},
		found{words: lang.L("Back the journal up now"), place: pages.Route{Name: pages.Safekeeping}},
		found{words: lang.L("Go back to a backup"), place: pages.Route{Name: pages.Safekeeping}})
	return append(append(out, w.settings()...), helps()...)
}

// beginnings are the new things that can be written down from anywhere.
func (w *window) beginnings() []found {
	out := []found{
		{words: lang.L("New culture"), place: pages.Route{Name: pages.Cultures, More: pages.ToBegin}},
		{words: lang.L("New bake"), place: pages.Route{Name: pages.Bake}},
		{words: lang.L("Plan a bake"), place: pages.Route{Name: pages.Formulas}},
	}
	cultures, err := journal.All[journal.Culture](w.env.Journal)
	if err != nil {
		return out // the page of the cultures tells it
	}
	for _, c := range cultures {
		if c.Ended.IsZero() {
			out = append(out, found{words: lang.L("Feed {{.Name}}", map[string]any{"Name": c.Name}), do: func() { w.env.Feed(c.ID) }})
		}
	}
	return out
}

// ofLatestBake are what can be done with the bake that came last; nothing where there is none.
func (w *window) ofLatestBake() []found {
	summaries, _ := w.env.Journal.BakeSummaries() // the pages of the bakes tell what is wrong
	for _, c := range summaries {
		if c.Binned || !c.State.Over() {
			continue
		}
		name := map[string]any{"Name": c.Name}
		bake := pages.At(pages.Bake, c.ID)
		return []found{
			{words: lang.L("Compare {{.Name}} with other bakes", name), place: pages.Route{Name: pages.Compare, More: string(c.ID)}},
			{words: lang.L("Print or save {{.Name}}: open it", name), place: bake},
		}
	}
	return nil
}

// settings are those that a word leads to: two are chosen at once, the others on their page.
func (w *window) settings() []found {
	set := func(label, says string, change func(*journal.Settings)) found {
		return found{words: says, do: func() { w.fail(w.env.Journal.Set(label, change)) }}
	}
	look := lang.L("Appearance")
	out := []found{
		set(look, lang.L("Appearance: light"), func(s *journal.Settings) { s.Look = "light" }),
		set(look, lang.L("Appearance: dark"), func(s *journal.Settings) { s.Look = "dark" }),
		set(look, lang.L("Appearance: same as this computer"), func(s *journal.Settings) { s.Look = "" }),
	}
	for _, l := range words.Languages() {
		out = append(out, set(lang.L("Language"), lang.L("Language: {{.Name}}", map[string]any{"Name": l.Name}), func(s *journal.Settings) { s.Language = l.Tag }))
	}
	for _, says := range []string{
		lang.L("Settings: °C or °F, grams or ounces"), lang.L("Settings: bedtime and wake-up time"), lang.L("Settings: currency"),
		lang.L("Settings: sound when a step is due"), lang.L("Settings: paper, A4 or US Letter"), lang.L("Settings: where the journal is"),
	} {
		out = append(out, found{words: says, place: pages.Route{Name: pages.Settings}})
	}
	return out
}

// helps are the questions that the help answers.
func helps() []found {
	var out []found
	for _, says := range []string{
		lang.L("Help: how do I begin?"), lang.L("Help: how do I taste two loaves blind?"), lang.L("Help: what the figures rest on"),
		lang.L("Help: be careful"), lang.L("Help: keeping and copying the journal"), lang.L("Help: who can read the journal"),
	} {
		out = append(out, found{words: says, place: pages.Route{Name: pages.Help}})
	}
	return out
}
