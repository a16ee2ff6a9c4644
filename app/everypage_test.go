package app

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/maintest"
	"twinloaf/app/outline"
	"twinloaf/app/pages"
	"twinloaf/assets/words"
	"twinloaf/journal/journaltest/race"
)

// languages are those that are looked at: under the race detector the last, since English
// is everywhere else.
func languages() []words.Language {
	all := words.Languages()
	return all[len(all)-race.Cases(len(all), 1):]
}

// One walk through the demo in each language asks everything that is asked of a page as it
// stands. In English:
//
//   - begins in sight: reached by a key it begins with the keyboard on something in sight
//     that is no text field, so that the keys of the page work; but for those pages whose
//     first work is to write.
//   - links are whole: in a usual window every link has all its words.
//   - can be hit: what is pressed can be hit with a floury finger: it is no lower than
//     kit.TargetSide, whatever part of it is seen.
//   - rows anywhere: a row that is washed under the pointer opens something wherever it is
//     pressed, and the pointer is a hand all over it. Only what does something else of its
//     own (a button, a word that goes elsewhere, a chart's point) takes a press from it.
//
// And in every language words in place: at either size of text no text runs out of what holds
// it, no two lie over each other, and none is still English where the language has another
// word.
func TestEveryPageInEveryLanguage(t *testing.T) {
	for _, l := range languages() {
		t.Run(l.Name, func(t *testing.T) {
			t.Setenv("LANG", "en_GB.UTF-8")
			v := newVisitor(t, l.Tag)
			for _, p := range v.places {
				v.visit(p)
			}
			v.findsRows()
			v.tell()
		})
	}
}

// visitor goes from page to page and gathers what is wrong, by what was asked.
type visitor struct {
	t          *testing.T
	w          *window
	everything bool // or only the words
	places     []pages.Route
	reader     reader
	next       pages.Route
	wrong      map[string][]string
	rows       map[string]int // by page
}

const (
	beginsInSight = "begins in sight"
	linksAreWhole = "links are whole"
	canBeHit      = "can be hit"
	rowsAnywhere  = "rows anywhere"
	wordsInPlace  = "words in place"
)

func newVisitor(t *testing.T, language string) *visitor {
	t.Helper()
	a, j := maintest.App(t), demoJournal(t)
	speak(t, j, language)
	w, _ := windowOn(t, a, j)
	places, written := everyPlace(t, j)
	places = append(places, pages.Route{Name: pages.Tasting}, pages.Route{Name: pages.Trial}, pages.Route{Name: pages.Bake}, pages.Route{Name: pages.Formula})
	v := &visitor{t: t, w: w, everything: language == "en", wrong: map[string][]string{}, rows: map[string]int{}}
	v.places = fewer(append(append(places, crumbPlaces(t, j)...), seriesPlace(t, j)))
	v.reader = reader{w: w, english: englishOf(t, language), written: written, seen: map[string]bool{},
		report: func(fault string) { v.wrong[wordsInPlace] = append(v.wrong[wordsInPlace], fault) }}
	w.keys.Set("test", []kit.Key{{Name: "F12", Do: func() { w.Go(v.next) }}})
	return v
}

// visit goes to a page by a key and asks it what there is to ask.
func (v *visitor) visit(p pages.Route) {
	v.next = p
	v.w.keys.Press("F12")
	v.w.env.Wait()
	if v.everything {
		if fault := v.beginning(p); fault != "" {
			v.wrong[beginsInSight] = append(v.wrong[beginsInSight], fault)
		}
	}
	v.w.win.Canvas().Unfocus()
	v.reader.look(p.Name) // which leaves the window as large as usual
	if v.everything {
		root := v.w.win.Canvas().Content()
		v.add(linksAreWhole, p.Name, linksCut(root))
		v.add(canBeHit, p.Name, targetsTooLow(root))
		v.countRows(p.Name, root)
	}
	forget()
}

func (v *visitor) add(asked, where string, faults []string) {
	for _, f := range faults {
		v.wrong[asked] = append(v.wrong[asked], where+": "+f)
	}
}

func (v *visitor) countRows(where string, root fyne.CanvasObject) {
	faults, rows := rowsAmiss(root)
	v.rows[where] += rows
	v.add(rowsAnywhere, where, faults)
}

// beginning tells if a page that was reached by a key begins with nothing in sight, or with
// a field to write in where there is other work.
func (v *visitor) beginning(p pages.Route) string {
	var begun []outline.Thing
	for _, thing := range outline.Of(v.w.win) {
		if thing.Focused && !thing.Clipped {
			begun = append(begun, thing)
		}
	}
	writes := p.ID == "" && slices.Contains([]string{pages.Tasting, pages.Trial, pages.Bake, pages.Formula}, p.Name)
	switch {
	case len(begun) != 1:
		return fmt.Sprintf("%s %s begins with %T, of which is seen %v", p.Name, p.ID, v.w.win.Canvas().Focused(), begun)
	case !writes && strings.Contains(begun[0].Kind, "ntry"):
		return fmt.Sprintf("%s %s begins with a field to write in: %v", p.Name, p.ID, begun)
	}
	return ""
}

// findsRows looks at the rows of what is found as well, and wants rows where there are lists.
func (v *visitor) findsRows() {
	if !v.everything {
		return
	}
	v.w.find()
	if s := v.w.win.Canvas().Overlays().Top(); s != nil {
		v.countRows("find", s)
	}
	for _, page := range []string{pages.Cultures, pages.Bakes, pages.Formulas, pages.Tastings, pages.Findings, pages.History, pages.Trial, "find"} {
		if v.rows[page] == 0 {
			v.wrong[rowsAnywhere] = append(v.wrong[rowsAnywhere], "no rows were found on the page "+page)
		}
	}
}

// tell reports what is wrong, each question by itself.
func (v *visitor) tell() {
	for _, asked := range []string{beginsInSight, linksAreWhole, canBeHit, rowsAnywhere, wordsInPlace} {
		v.t.Run(asked, func(t *testing.T) {
			for _, fault := range v.wrong[asked] {
				t.Error(fault)
			}
		})
	}
}

// counted writes down how often each thing was found.
func counted(found map[string]int) (out []string) {
	for _, what := range slices.Sorted(maps.Keys(found)) {
		out = append(out, fmt.Sprintf("%d times %s", found[what], what))
	}
	return out
}
