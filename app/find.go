package app

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/help"
	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/charts"
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
