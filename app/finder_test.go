package app

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
	"twinloaf/app/outline"
	"twinloaf/app/pages"
	"twinloaf/journal"
)

// Groups hold every answer once, and their first row is the best answer: what Enter opens.
func TestGroupsKeepTheBestAnswerFirst(t *testing.T) {
	answers := []found{
		{words: "a", group: findBake}, {words: "b", group: findCulture}, {words: "c", group: findBake}, {words: "d"},
	}
	got := grouped("c", answers)
	if len(got) != 3 || got[0].group != findBake || got[0].answers[0].words != "a" || got[0].answers[1].words != "c" {
		t.Errorf("grouped %+v", got)
	}
	ahead := found{words: "Ferry loaf, 24 h", group: findAhead}
	for text, first := range map[string]findGroup{"ferry": findAhead, "24": findBake} {
		if got := grouped(text, append(answers[:1:1], ahead)); got[0].group != first || len(got) != 2 {
			t.Errorf("%q has group %d first", text, got[0].group)
		}
	}
	n := 0
	for _, g := range got {
		n += len(g.answers)
		if g.group.title() == "" {
			t.Errorf("group %d has no title", g.group)
		}
	}
	if n != len(answers) {
		t.Errorf("%d of %d answers are in a group", n, len(answers))
	}
}

// The first row is lit from the start and says what Enter does; the arrows move the light;
// Enter opens what is lit; the way to the shelf stands beneath the bakes.
func TestFindLightsWhatEnterOpens(t *testing.T) {
	w := newWindow(t)
	if err := w.env.Journal.Do("begin", func(tx *journal.Tx) error {
		var errs []error
		for i := range 3 {
			errs = append(errs, journal.Put(tx, &journal.Bake{Name: fmt.Sprintf("Ferry loaf %d", i), At: w.env.Now().Add(-time.Duration(i) * 24 * time.Hour), State: journal.Finished}))
		}
		return errors.Join(append(errs, journal.Put(tx, &journal.Culture{Name: "Ferry"}))...)
	}); err != nil {
		t.Fatal(err)
	}
	w.find()
	field := w.win.Canvas().Focused()
	test.Type(field, "ferry")
	rows := rowsFound(w)
	link := slices.IndexFunc(rows, func(r *foundRow) bool { return r.answer.link })
	if link < 1 || rows[link-1].answer.group != findBake || rows[link].answer.place.Name != pages.Shelf {
		t.Fatalf("of %d rows the way to the shelf is row %d", len(rows), link)
	}
	lit := func() (at int) {
		at = -1
		for i, r := range rows {
			if r.lit {
				if at >= 0 {
					t.Errorf("rows %d and %d are lit", at, i)
				}
				at = i
			}
		}
		return at
	}
	if lit() != 0 || rows[0].right.String() != "Enter opens it" {
		t.Errorf("row %d is lit, the first says %q", lit(), rows[0].right.String())
	}
	field.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	if lit() != 1 {
		t.Errorf("after Down row %d is lit", lit())
	}
	field.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	field.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	if lit() != len(rows)-1 {
		t.Errorf("above the first row is row %d", lit())
	}
	field.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	want := rows[0].answer.place
	field.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if w.here.place != want {
		t.Errorf("Enter opened %+v, want %+v", w.here.place, want)
	}
}

// On an empty journal the finder says what is missing and where to begin; once something is
// written down, that nothing is called so.
func TestFindOnAnEmptyJournalSaysWhereToBegin(t *testing.T) {
	w := newWindow(t)
	said := func() string {
		w.find()
		test.Type(w.win.Canvas().Focused(), "zzzz")
		all := strings.Join(outline.Texts(outline.Of(w.win)), " ")
		w.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
		return strings.Join(strings.Fields(all), " ")
	}
	const begin = "nothing is written down yet. A culture or a bake is begun from Today."
	if got := said(); !strings.Contains(got, begin) {
		t.Errorf("on an empty journal it says %q", got)
	}
	if err := w.env.Journal.Do("begin", func(tx *journal.Tx) error { return journal.Put(tx, &journal.Culture{Name: "Ferry"}) }); err != nil {
		t.Fatal(err)
	}
	if got := said(); strings.Contains(got, begin) || !strings.Contains(got, "Nothing here is called that.") {
		t.Errorf("with a culture it says %q", got)
	}
}

// rowsFound are the answers that the dialog on top lists.
func rowsFound(w *window) []*foundRow {
	var out []*foundRow
	var walk func(o fyne.CanvasObject)
	walk = func(o fyne.CanvasObject) {
		switch o := o.(type) {
		case *foundRow:
			out = append(out, o)
		case *fyne.Container:
			for _, child := range o.Objects {
				walk(child)
			}
		case *container.Scroll:
			walk(o.Content)
		case fyne.Widget:
			for _, child := range test.WidgetRenderer(o).Objects() {
				walk(child)
			}
		}
	}
	walk(w.win.Canvas().Overlays().Top().(*kit.Dialog))
	return out
}
