package cultures

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"
	"time"

	"twinloaf/app/pages/pagestest"
	"twinloaf/assets/words"
	"twinloaf/journal"
	"twinloaf/journal/histories"
	"twinloaf/journal/measure"
	"twinloaf/journal/templog"
)

// rows is a log of so many rows, a minute apart.
func rows(n int) []byte {
	var out bytes.Buffer
	out.WriteString("time,temperature (°C)\n")
	at := time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)
	for i := range n {
		fmt.Fprintf(&out, "%s,%.2f\n", at.Add(time.Duration(i)*time.Minute).Format("2006-01-02 15:04:05"), 24+float64(i%600)/200)
	}
	return out.Bytes()
}

// A log of 200,000 rows is taken in away from the main goroutine, with progress, as one
// change that can be undone.
func TestALongLog(t *testing.T) {
	b := pagestest.New(t)
	b.Clock = time.Date(2026, 7, 1, 8, 0, 0, 0, time.UTC)
	c := putCulture(b, &journal.Culture{Name: "Gorse", Born: b.Clock.AddDate(0, 0, -200)})
	const n = 200_000
	told, last, total := 0, 0, 0
	log, err := takeLog(t.Context(), b.Journal, c, "shelf.csv", rows(n), templog.Options{Zone: time.UTC}, func(done, of int) {
		told++
		last, total = done, of
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(log.Points) != n || told < 10 || last == 0 || total < last {
		t.Errorf("%d points, told %d times, %d of %d at last", len(log.Points), told, last, total)
	}
	l := lifeOf(t, b, c.ID)
	if len(l.Temps) != n || l.Logs[0].Count != n {
		t.Fatalf("%d temperatures are kept of %d", len(l.Temps), l.Logs[0].Count)
	}
	if got, want := float64(l.Temps[n-1].Temp), 24+float64((n-1)%600)/200; math.Abs(got-want) > 0.0051 {
		t.Errorf("the last is %v, want %v", got, want)
	}
	if _, err := b.Journal.Undo(); err != nil {
		t.Fatal(err)
	}
	if l := lifeOf(t, b, c.ID); len(l.Temps) != 0 {
		t.Errorf("%d temperatures after undo", len(l.Temps))
	}
}

func TestALogThatIsStoppedKeepsNothing(t *testing.T) {
	b := pagestest.New(t)
	c := putCulture(b, &journal.Culture{Name: "Gorse"})
	ctx, cancel := context.WithCancel(t.Context())
	_, err := takeLog(ctx, b.Journal, c, "shelf.csv", rows(50_000), templog.Options{Zone: time.UTC}, func(int, int) { cancel() })
	if !errors.Is(err, context.Canceled) {
		t.Errorf("error = %v", err)
	}
	if l := lifeOf(t, b, c.ID); len(l.Logs) != 0 {
		t.Error("something of it was kept")
	}
}

// Of a log that is plain nothing is said, and what is not said takes no room.
func TestOfAPlainLogNothingIsSaid(t *testing.T) {
	b := pagestest.New(t)
	s := showLog(b.Env, putCulture(b, &journal.Culture{Name: "Gorse"}), "cellar.csv", []byte("time,temperature °C\n2026-03-02T08:00:00Z,17.6\n"))
	b.Wait()
	if !s.able || s.notes.Visible() {
		t.Errorf("able %v, it says %q", s.able, s.notes.String())
	}
}

// The dialog shows what will be taken before it is, asks where the file does not settle
// the order of day and month, and takes the log then.
func TestTheSheetAsksForTheOrder(t *testing.T) {
	b := pagestest.New(t)
	b.Clock = time.Date(2026, 7, 1, 8, 0, 0, 0, time.UTC)
	c := putCulture(b, &journal.Culture{Name: "Gorse"})
	s := showLog(b.Env, c, "odd.csv", []byte("Zeit;Temp\n03/04/2026 08:00;23,5\n03/04/2026 08:10;23,7\n"))
	b.Wait()
	if s.able || !strings.Contains(s.notes.String(), "choose the order") {
		t.Fatalf("able %v, says %q", s.able, s.notes.String())
	}
	s.keep() // nothing happens: the question stands
	s.order.OnChanged(0)
	b.Wait()
	if !s.able || s.preview.Layout.Separator != ';' {
		t.Fatalf("after the answer: able %v, %q", s.able, s.notes.String())
	}
	if got := s.preview.Rows[0].Point; got.Temp != 23.5 || got.At.Month() != time.April || got.At.Day() != 3 {
		t.Errorf("first row = %+v", got)
	}
	if got := columnWords(s.preview.Layout); got[1] != "2: Temp" {
		t.Errorf("columns = %q", got)
	}
	s.keep()
	b.Wait()
	l := lifeOf(t, b, c.ID)
	if len(l.Temps) != 2 || len(b.Said) != 1 || !strings.HasPrefix(b.Said[0], "2 temperatures imported") {
		t.Errorf("%d kept; said %q, failed %v", len(l.Temps), b.Said, b.Failed)
	}
}

// Nothing is taken of what is still to come, and temperatures stand with one decimal each.
func TestTheSheetTakesNothingOfTheFuture(t *testing.T) {
	b := pagestest.New(t)
	c := putCulture(b, &journal.Culture{Name: "Gorse"})
	at := func(h int) string { return b.Clock.Add(time.Duration(h) * time.Hour).UTC().Format(time.RFC3339) }
	s := showLog(b.Env, c, "ahead.csv", []byte("time,temp\n"+at(-2)+",22\n"+at(-1)+",22.5\n"+at(1)+",23\n"))
	b.Wait()
	if got := strings.ReplaceAll(tenths(22, b.Env.Units()), "\u00a0", " "); got != "22.0 °C" {
		t.Errorf("22 °C is written %q", got)
	}
	s.keep()
	b.Wait()
	if l := lifeOf(t, b, c.ID); len(l.Temps) != 2 || len(b.Said) != 1 || !strings.Contains(b.Said[0], "not taken: 1") {
		t.Errorf("%d kept; said %q, failed %v", len(l.Temps), b.Said, b.Failed)
	}
}

// A file of which every row is refused cannot be imported, and the dialog says so. One whose
// first row that can be taken lies far down can.
func TestTheSheetTakesNoFileWithoutARow(t *testing.T) {
	b := pagestest.New(t)
	c := putCulture(b, &journal.Culture{Name: "Gorse"})
	var ahead strings.Builder
	ahead.WriteString("time,temp\n")
	for h := range 40 {
		ahead.WriteString(b.Clock.Add(time.Duration(1+h)*time.Hour).UTC().Format(time.RFC3339) + ",22\n")
	}
	s := showLog(b.Env, c, "ahead.csv", []byte(ahead.String()))
	b.Wait()
	if s.able || !s.take.Disabled() || !strings.Contains(s.notes.String(), "every row is refused") {
		t.Errorf("all of it is to come: able %v, disabled %v, says %q", s.able, s.take.Disabled(), s.notes.String())
	}
	s = showLog(b.Env, c, "ahead.csv", []byte(ahead.String()+b.Clock.Add(-time.Hour).UTC().Format(time.RFC3339)+",22\n"))
	b.Wait()
	if !s.able || s.take.Disabled() {
		t.Errorf("its last row can be taken: able %v, disabled %v, says %q", s.able, s.take.Disabled(), s.notes.String())
	}
}

func TestTheSheetShowsTheFilesOfLoggers(t *testing.T) {
	for _, name := range []string{"iso_utc_utf16.csv", "month_first_fahrenheit.csv", "semicolon_decimal_comma.csv"} {
		data, err := os.ReadFile("../../testdata/templog/" + name)
		if err != nil {
			t.Fatal(err)
		}
		b := pagestest.New(t)
		b.Clock = time.Date(2026, 12, 1, 8, 0, 0, 0, time.UTC) // they are of November
		s := showLog(b.Env, putCulture(b, &journal.Culture{Name: "Gorse"}), name, data)
		b.Wait()
		if !s.able || len(s.rows.Objects) < 5 {
			t.Errorf("%s: able %v, %d rows shown: %s", name, s.able, len(s.rows.Objects), s.notes.String())
		}
	}
}

func BenchmarkTakeLog(b *testing.B) {
	bench := pagestest.New(b)
	c := putCulture(bench, &journal.Culture{Name: "Gorse"})
	data := rows(200_000)
	for b.Loop() {
		if _, err := takeLog(b.Context(), bench.Journal, c, "shelf.csv", data, templog.Options{Zone: time.UTC}, nil); err != nil {
			b.Fatal(err)
		}
	}
}

// Nothing is taken of a file while it is not shown how it is understood now.
func TestALogIsNotTakenBeforeItIsShownAnew(t *testing.T) {
	b := pagestest.New(t)
	c := putCulture(b, &journal.Culture{Name: "Gorse", Born: b.Clock.AddDate(0, 0, -200)})
	b.Loop.Own()
	s := showLog(b.Env, c, "shelf.csv", rows(3))
	b.Wait()
	s.unit.OnChanged(1)
	s.keep()
	if !s.sheet.Open() {
		t.Error("it was taken in unseen")
	}
	b.Wait()
	s.keep()
	if s.sheet.Open() {
		t.Error("it is not taken in")
	}
	b.Wait()
}

// A log of one row is spoken of as one.
func TestALogOfOneRow(t *testing.T) {
	if err := words.Load(); err != nil {
		t.Fatal(err)
	}
	if said := takenWords(templog.Log{Points: make([]templog.Point, 1)}, measure.Units{}); said != "One temperature imported." {
		t.Errorf("it is said that %q", said)
	}
	now := time.Date(2026, 3, 4, 8, 0, 0, 0, time.UTC)
	l := &histories.CultureHistory{Culture: &journal.Culture{}, Logs: []*journal.TempLog{{Name: "shelf.csv", From: now, To: now, Count: 1}}}
	if e := entriesOf(l, now, measure.Units{}); !strings.Contains(e[0].words, "one row") || !strings.Contains(e[0].said, "one row") {
		t.Errorf("it is listed as %q, %q", e[0].words, e[0].said)
	}
}
