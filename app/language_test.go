package app

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
	"twinloaf/app/maintest"
	"twinloaf/app/pages"
	"twinloaf/assets/words"
	"twinloaf/journal"
	"twinloaf/journal/blind"
	"twinloaf/journal/journaltest/race"
)

// The window of 1280 by 800 points as it is at 100 % text, and the same pixels at 150 %.
var textSizes = []struct {
	percent int
	points  fyne.Size
}{{100, fyne.NewSize(1280, 800)}, {150, fyne.NewSize(1280/1.5, 800/1.5)}}

// A tasting has pages that the demonstration does not stand at, sealed ones among them; and
// the dialogs that keys open are seen over the pages of the same journal.
func TestSealedPagesAndDialogsInEveryLanguage(t *testing.T) {
	for _, l := range languages() {
		for _, method := range []blind.Method{blind.Triangle, blind.Scaling, blind.DuoTrio}[:race.Cases(3, 1)] {
			t.Run(l.Name+" "+string(method), func(t *testing.T) {
				t.Setenv("LANG", "en_GB.UTF-8")
				a := maintest.App(t)
				mode := blind.WithHelper
				if method == blind.DuoTrio {
					mode = blind.Alone
				}
				lw := newLeakWorld(t, filepath.Join(t.TempDir(), "journal"), planOf(method, mode), false)
				speak(t, lw.j, l.Tag)
				lw.show(a)
				defer lw.w.Close()
				_, written := everyPlace(t, lw.j)
				written += plain("not at all extremely dislike extremely like extremely") // the plan's own
				r := reader{w: lw.w, english: englishOf(t, l.Tag), written: written, seen: map[string]bool{}, report: func(fault string) { t.Error(fault) }}
				look := func(p pages.Route) {
					lw.w.Go(p)
					lw.settle()
					r.look(p.Name + " " + p.More)
				}
				for _, p := range fewer(lw.everyPlace()) {
					look(p)
				}
				if method == blind.Triangle {
					lw.everyDialog(r.lookAtDialog)
				}
				score := pages.Route{Name: pages.Tasting, ID: lw.tasting, More: "score"}
				for look(score); lw.step(); look(score) {
					lw.w.keys.Press("Enter") // past whose turn it is
					lw.settle()
					r.look("scoring")
				}
				if mode == blind.Alone {
					return // the slips are on the table
				}
				if err := lw.j.Unseal(lw.tasting, ""); err != nil {
					t.Fatal(err)
				}
				look(pages.At(pages.Tasting, lw.tasting))
			})
		}
	}
}

// speak sets the journal's language until the test ends.
func speak(t *testing.T, j *journal.Journal, tag string) {
	t.Helper()
	if err := j.Set("language", func(s *journal.Settings) { s.Language = tag }); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := words.Speak("en"); err != nil {
			t.Error(err)
		}
	})
}

// everyDialog calls look for each dialog that a key of any page opens.
func (lw *leakWorld) everyDialog(look func(s *kit.Dialog, where string)) {
	pressed := map[string]bool{}
	for _, place := range fewer(lw.everyPlace()) {
		lw.w.Go(place)
		lw.settle()
		for i, key := range lw.w.Page().Keys() {
			if key.Do == nil || pressed[place.Name+key.Name] {
				continue
			}
			lw.w.Go(place)
			lw.settle()
			keys := lw.w.Page().Keys()
			if i >= len(keys) || keys[i].Do == nil || pressed[place.Name+keys[i].Name] {
				continue
			}
			pressed[place.Name+keys[i].Name] = true
			keys[i].Do()
			lw.settle()
			if s, ok := lw.top(); ok {
				look(s, place.Name+", key "+keys[i].Name)
			}
			lw.closeSheets()
		}
	}
}

// A reader looks at pages and dialogs and tells of each fault once.
type reader struct {
	w       *window
	english []phrase
	written string // by the baker, who may write English
	seen    map[string]bool
	report  func(fault string)
}

func (r reader) tell(where string, size int, faults []string) {
	for _, fault := range faults {
		if !r.seen[fault] {
			r.seen[fault] = true
			r.report(fmt.Sprintf("%s at %d %%: %s", where, size, fault))
		}
	}
}

// look reads the page at either size of text.
func (r reader) look(where string) {
	r.w.frame.HideToast() // a message lies over the page for some seconds
	for _, size := range textSizes {
		r.w.layOut(size.points)
		c := r.w.win.Canvas()
		r.tell(where, size.percent, r.faults(c.Content(), c.Size()))
	}
	r.w.win.Resize(textSizes[0].points)
}

// lookAtDialog reads what lies over the page.
func (r reader) lookAtDialog(s *kit.Dialog, where string) {
	c := r.w.win.Canvas()
	for _, size := range textSizes {
		r.w.layOut(size.points)
		r.tell(where, size.percent, r.faults(s, c.Size()))
	}
	r.w.win.Resize(textSizes[0].points)
}

// A phrase is a sentence of the catalogue, or the beginning of one that the program fills.
type phrase struct {
	text  string
	whole bool
}

// englishOf gives the English that a language says otherwise.
func englishOf(t *testing.T, tag string) []phrase {
	t.Helper()
	if tag == "en" {
		return nil
	}
	data, err := os.ReadFile(filepath.Join("..", "assets", "words", "catalogue", tag+".json"))
	if err != nil {
		t.Fatal(err)
	}
	var list []struct{ ID, Other string }
	if err := json.Unmarshal(data, &list); err != nil {
		t.Fatal(err)
	}
	var out []phrase
	for _, e := range list {
		begins, _, filled := strings.Cut(e.ID, "{{")
		if filled && len(begins) < 8 || strings.HasPrefix(e.Other, begins) {
			continue
		}
		out = append(out, phrase{begins, !filled})
	}
	return out
}

// untold gives the English that a text still says; empty where it says none.
func (r reader) untold(text string) string {
	if strings.Contains(r.written, plain(text)) {
		return ""
	}
	for _, p := range r.english {
		if text == p.text || !p.whole && strings.HasPrefix(text, p.text) {
			return p.text
		}
	}
	return ""
}

// piece is one text where it stands, and what of the window it may be seen in.
type piece struct {
	text       string
	x, y, w, h float32
}

// faults tells of every text that is cut off at its side or still English, and of any two in
// one place.
func (r reader) faults(top fyne.CanvasObject, size fyne.Size) []string {
	var out []string
	var all []piece
	var walk func(o fyne.CanvasObject, at fyne.Position, left, right, top, bottom float32)
	walk = func(o fyne.CanvasObject, at fyne.Position, left, right, top, bottom float32) {
		if o == nil || !o.Visible() {
			return
		}
		at = at.Add(o.Position())
		switch o := o.(type) {
		case *canvas.Text:
			m := fyne.MeasureText(strings.TrimRight(o.Text, " "), o.TextSize, o.TextStyle)
			if o.FontSource != nil {
				m, _ = fyne.CurrentApp().Driver().RenderedTextSize(strings.TrimRight(o.Text, " "), o.TextSize, o.TextStyle, o.FontSource)
			}
			if strings.TrimSpace(o.Text) == "" || at.Y+m.Height <= top || at.Y >= bottom {
				return
			}
			if over := at.X + m.Width - right; over > 1.5 {
				out = append(out, fmt.Sprintf("%q is cut off by %.0f points at the right", o.Text, over))
			}
			if over := left - at.X; over > 1.5 {
				out = append(out, fmt.Sprintf("%q is cut off by %.0f points at the left", o.Text, over))
			}
			if english := r.untold(o.Text); english != "" {
				out = append(out, fmt.Sprintf("%q is still English", o.Text))
			}
			all = append(all, piece{o.Text, at.X, at.Y, m.Width, m.Height})
		case *fyne.Container:
			for _, child := range o.Objects {
				walk(child, at, left, right, top, bottom)
			}
		case fyne.Widget:
			if s, ok := o.(*container.Scroll); ok {
				top, bottom = max(top, at.Y), min(bottom, at.Y+s.Size().Height)
				if s.Direction == container.ScrollHorizontalOnly || s.Direction == container.ScrollBoth {
					left, right = -1e6, 1e6
				} else {
					left, right = max(left, at.X), min(right, at.X+s.Size().Width)
				}
			}
			for _, child := range test.WidgetRenderer(o).Objects() {
				walk(child, at, left, right, top, bottom)
			}
		}
	}
	walk(top, fyne.Position{}, 0, size.Width, 0, size.Height)
	for i, a := range all {
		for _, b := range all[i+1:] {
			wide := min(a.x+a.w, b.x+b.w) - max(a.x, b.x)
			high := min(a.y+a.h, b.y+b.h) - max(a.y, b.y)
			if wide > 3 && high > 0.4*min(a.h, b.h) {
				out = append(out, fmt.Sprintf("%q lies over %q", a.text, b.text))
			}
		}
	}
	return out
}
