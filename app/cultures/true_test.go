package cultures

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"twinloaf/app/kit"
	"twinloaf/app/pages/pagestest"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/histories"
	"twinloaf/journal/paper/papertest"
)

// A culture that was read, but not in the weeks that the chart is of, is not said never to have
// been; the other weeks can be chosen.
func TestWeeksInWhichNothingWasRead(t *testing.T) {
	for name, tt := range map[string]struct {
		born, read int // days ago
		recent     bool
	}{
		"first weeks of a grown one":          {400, 3, false},
		"last weeks of one that was left":     {400, 390, true},
		"of one whose beginning nobody knows": {0, 90, true},
	} {
		b := pagestest.New(t)
		c := &journal.Culture{Name: "Gorse"}
		if tt.born > 0 {
			c.Born = b.Clock.AddDate(0, 0, -tt.born)
		}
		putCulture(b, c)
		putDay(b, c.ID, b.Clock.AddDate(0, 0, -tt.read), 2.1, nil)
		p := showCulture(b, c.ID)
		p.weeks.recent, p.weeks.chosen = tt.recent, true
		p.weeks.show(p.now)
		if words := p.weeks.none.String(); !p.weeks.none.Visible() || words != "No height was read in these weeks." {
			t.Errorf("%s: it is said that %q", name, words)
		}
		if p.weeks.span.Visible() != (tt.born > 0) {
			t.Errorf("%s: the other weeks can be chosen: %v", name, p.weeks.span.Visible())
		}
		if words := drawn(t, p.weeks.pic.figure); strings.Contains(words, "has been read yet") {
			t.Errorf("%s: the chart says %q", name, words)
		}
	}
}

// What is printed of a culture whose beginning is not known is no first weeks, and has its chart.
func TestACultureOfUnknownAgeOnPaper(t *testing.T) {
	b := pagestest.New(t)
	c := putCulture(b, &journal.Culture{Name: "Harbour"})
	putDay(b, c.ID, b.Clock.AddDate(0, 0, -3), 2.1, nil)
	out := culturePages{env: b.Env, id: c.ID, units: b.Units(), style: b.Env.Paper()}
	var pdf strings.Builder
	if err := out.write(&pdf); err != nil {
		t.Fatal(err)
	}
	text := papertest.Text([]byte(pdf.String()))
	for _, never := range []string{"first weeks", "has been read yet"} {
		if strings.Contains(text, never) {
			t.Errorf("it says %q:\n%s", never, text)
		}
	}
}

// A culture that was given up stands nowhere, has nothing to come, and is one even where there is
// no other.
func TestARetiredCulture(t *testing.T) {
	b := pagestest.New(t)
	c := putCulture(b, &journal.Culture{Name: "Gorse", Born: b.Clock.AddDate(0, 0, -60), Home: journal.Refrigerator})
	putDay(b, c.ID, b.Clock.AddDate(0, 0, -3), 2.1, nil)
	b.Put(func(tx *journal.Tx) error {
		return journal.Change(tx, c.ID, func(c *journal.Culture) { c.Ended = b.Clock.Add(-time.Hour) })
	})
	p := showCulture(b, c.ID)
	if words := eyebrowOf(p.now, b.Units()); strings.Contains(words, "refrigerator") {
		t.Errorf("it is said to be %q", words)
	}
	if p.planned.box.Visible() {
		t.Error("what comes next is foretold of it")
	}
	l, err := listingOf(b.Journal, &b.Histories, b.Units())
	if err != nil {
		t.Fatal(err)
	}
	if words := listHeading(l.rows, b.Clock, b.Units()); words != "No living culture" {
		t.Errorf("the list is headed %q", words)
	}
}

// Of a culture that is to be thrown away no next feeding is foretold.
func TestACultureToBeThrownAwayHasNothingToCome(t *testing.T) {
	b := pagestest.New(t)
	c := putCulture(b, &journal.Culture{Name: "Gorse", Born: b.Clock.AddDate(0, 0, -60)})
	putDay(b, c.ID, b.Clock.AddDate(0, 0, -1), 2.1, nil)
	mould := &journal.Reading{Culture: c.ID, At: b.Clock.Add(-time.Hour), Mould: true}
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, mould) })
	p := showCulture(b, c.ID)
	if p.planned.box.Visible() {
		t.Error("a feeding is foretold of it")
	}
	for _, f := range factsOf(p.now, b.Units()) {
		if f.Label != "Do not feed it" {
			t.Errorf("of it is said %q %q", f.Label, f.Words)
		}
	}
	b.Put(func(tx *journal.Tx) error { return journal.MoveToBin[journal.Reading](tx, mould.ID) })
	settle(b, p)
	p.load()
	settle(b, p)
	if !p.planned.box.Visible() {
		t.Error("nothing comes next of one that is sound")
	}
}

// Ages are whole ones that have gone by, and never "1 years".
func TestAges(t *testing.T) {
	now := time.Date(2026, 3, 4, 8, 0, 0, 0, time.UTC)
	for days, want := range map[int]string{
		0: "day 1", 41: "day 42", 42: "6 weeks old", 48: "6 weeks old", 49: "7 weeks old", 60: "8 weeks old", 61: "2 months old",
		91: "2 months old", 92: "3 months old", 729: "23 months old", 730: "23 months old", 731: "2 years old", 1095: "2 years old", 1096: "3 years old",
	} {
		l := &histories.CultureHistory{Culture: &journal.Culture{Born: now.Add(-time.Duration(days)*24*time.Hour - time.Minute)}}
		if got := ageWords(l, now); got != want {
			t.Errorf("after %d days: %q, want %q", days, got, want)
		}
	}
}

// A photo that is older than the culture has a date, and no day of age.
func TestAPhotoFromBeforeTheBeginning(t *testing.T) {
	b := pagestest.New(t)
	c := putCulture(b, &journal.Culture{Name: "Gorse", Born: b.Clock.AddDate(0, 0, -5)})
	p := portraitOf(t, b, c.ID, "")
	for daysAgo, want := range map[int]string{6: "Feb\u00a026", 4: "day 2"} {
		if got := photoDay(p, b.Clock.AddDate(0, 0, -daysAgo), b.Units()); got != want {
			t.Errorf("of %d days ago: %q, want %q", daysAgo, got, want)
		}
	}
}

// Beneath a photo of the jar stands of which day it is.
func TestAPhotoOfTheJarSaysItsDay(t *testing.T) {
	b := pagestest.New(t)
	c := putCulture(b, &journal.Culture{Name: "Gorse", Born: b.Clock.AddDate(0, 0, -5)})
	page, p := showCulture(b, c.ID), portraitOf(t, b, c.ID, "")
	p.photos = []jarPhoto{{at: b.Clock.AddDate(0, 0, -4), photo: &journal.Photo{}}}
	page.photos.show(p)
	if words := fmt.Sprint(pagestest.All[*kit.Text](page.photos.strip.Tiles()[0])); !strings.Contains(words, "day 2") {
		t.Errorf("beneath it stands %s", words)
	}
}

// A mark of the smells says the strongest that was noted that day, as it is drawn.
func TestTheMarkOfASmellIsTheStrongestOfItsDay(t *testing.T) {
	b := pagestest.New(t)
	c := putCulture(b, &journal.Culture{Name: "Gorse", Born: b.Clock.AddDate(0, 0, -5)})
	b.Put(func(tx *journal.Tx) error {
		if err := journal.Put(tx, &journal.Feeding{Culture: c.ID, At: b.Clock.Add(-50 * time.Hour), Flour: 50, Water: 50}); err != nil {
			return err
		}
		for h, n := range map[int]int{30: 3, 26: 1} {
			if err := journal.Put(tx, &journal.Reading{Culture: c.ID, At: b.Clock.Add(-time.Duration(h) * time.Hour), Smells: map[string]int{"sour": n}}); err != nil {
				return err
			}
		}
		return nil
	})
	pic := weeksChart(portraitOf(t, b, c.ID, ""), b.Units(), false)
	for _, panel := range pic.figure.Panels {
		for _, layer := range panel.Layers {
			if s, ok := layer.(charts.Series); ok && s.Name == "smell" {
				if len(s.Notes) != 1 || s.LeftOut[0] || s.Notes[0] != "strongly sour" {
					t.Errorf("%d marks, hollow %v, which say %q", len(s.Notes), s.LeftOut, s.Notes)
				}
				return
			}
		}
	}
	t.Error("no smell is drawn")
}

// What a lead rests on are readings that were written down, each counted once: no picture of a
// row of them, nor a reading of the culture that it was split from.
func TestALeadCountsTheReadingsThatItNames(t *testing.T) {
	b := pagestest.New(t)
	c := putCulture(b, &journal.Culture{Name: "Gorse", Born: b.Clock.AddDate(0, 0, -5)})
	b.Put(func(tx *journal.Tx) error {
		return journal.Put(tx, &journal.Reading{Culture: c.ID, At: b.Clock.Add(-30 * time.Hour), Rise: new(1.3)})
	})
	p := portraitOf(t, b, c.ID, "")
	own := string(p.life.Readings[0].ID)
	for _, ids := range [][]string{{own}, {own, "a row", "a row", "a row"}, {"its parent's", own, own}} {
		if words := evidenceOf(p, b.Units(), ids); !strings.HasPrefix(words, "This rests on the reading of ") {
			t.Errorf("of %q: %q", ids, words)
		}
	}
	if words := evidenceOf(p, b.Units(), []string{"a row"}); words != "" {
		t.Errorf("of pictures alone: %q", words)
	}
}

// A culture that lay over another and was deleted leaves the page standing.
func TestTheOverlaidCultureIsDeleted(t *testing.T) {
	b := pagestest.New(t)
	c := putCulture(b, &journal.Culture{Name: "Gorse", Born: b.Clock.AddDate(0, 0, -20)})
	other := putCulture(b, &journal.Culture{Name: "Harbour", Born: b.Clock.AddDate(0, 0, -20)})
	putDay(b, c.ID, b.Clock.AddDate(0, 0, -1), 2.1, nil)
	p := showCulture(b, c.ID)
	p.other = other.ID
	p.load()
	settle(b, p)
	for _, away := range []func(tx *journal.Tx) error{
		func(tx *journal.Tx) error { return journal.MoveToBin[journal.Culture](tx, other.ID) },
		func(tx *journal.Tx) error { return tx.Remove(journal.RefOf(other)) },
	} {
		b.Put(away)
		p.load()
		settle(b, p)
		if len(b.Failed) > 0 || p.now.other != nil {
			t.Errorf("failed with %v; over it lies %v", b.Failed, p.now.other)
		}
	}
}

// Every file that can be chosen as a log can be dropped as one.
func TestALogIsDropped(t *testing.T) {
	b := pagestest.New(t)
	c := putCulture(b, &journal.Culture{Name: "Gorse", Born: b.Clock.AddDate(0, 0, -20)})
	p := showCulture(b, c.ID)
	b.Loop.Own()
	for _, ending := range logEndings {
		name := "logger" + strings.ToUpper(ending)
		path := filepath.Join(t.TempDir(), name)
		if err := os.WriteFile(path, rows(3), 0o600); err != nil {
			t.Fatal(err)
		}
		p.TakePictures([]journal.Picture{{Name: name, Path: path}})
		b.Wait()
		if !strings.Contains(b.Texts(), "What will be imported from "+name) {
			t.Errorf("%s is not taken for a log: %v", name, b.Failed)
		}
		b.Window.Canvas().Overlays().Top().(*kit.Dialog).Close()
	}
}
