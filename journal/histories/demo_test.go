package histories_test

import (
	"math"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"twinloaf/assets/demo"
	"twinloaf/journal"
	"twinloaf/journal/histories"
)

// The jars of the demonstration over a month: between any two moments of it, what a jar holds
// more or less is what went in (flour, water, and what was put back or weighed to be more)
// less what went out (what was taken, and the rest that was thrown away).
func TestTheJarsOfTheDemoOverAMonth(t *testing.T) {
	now := time.Date(2026, time.November, 24, 10, 30, 0, 0, time.UTC)
	dir := t.TempDir()
	if err := demo.Build(t.Context(), dir, now, demo.Options{NoPictures: true}); err != nil {
		t.Fatal(err)
	}
	j, err := journal.Open(t.Context(), dir, journal.Options{Clock: func() time.Time { return now }})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = j.Close() })
	all, err := histories.All(j)
	if err != nil {
		t.Fatal(err)
	}
	from := now.AddDate(0, -1, 0)
	tried := 0
	for _, l := range all {
		var month []*journal.Feeding
		for _, f := range l.Feedings {
			if f.At.After(from) && !f.At.After(now) {
				month = append(month, f)
			}
		}
		if len(month) < 2 {
			continue
		}
		tried++
		slices.SortStableFunc(month, func(a, b *journal.Feeding) int { return a.At.Compare(b.At) })
		jar := func(at time.Time) float64 {
			s, _ := l.Jar(at)
			return float64(s.Mix.Total())
		}
		// The book of what goes in and out, kept from the records alone.
		book := []float64{jar(month[0].At)}
		for _, f := range month[1:] {
			before := book[len(book)-1]
			in, out := float64(max(0, f.Flour)+max(0, f.Water)), 0.0
			for _, taken := range f.Taken {
				out += float64(taken.Grams)
			}
			kept := float64(max(0, f.Kept))
			in += max(0, kept-(before-out))  // put back, or the scales say more
			out += max(0, (before-out)-kept) // thrown away
			book = append(book, before+in-out)
		}
		rapid.Check(t, func(t *rapid.T) {
			a := rapid.IntRange(0, len(month)-1).Draw(t, "from")
			b := rapid.IntRange(a, len(month)-1).Draw(t, "to")
			got, want := jar(month[b].At)-jar(month[a].At), book[b]-book[a]
			if math.Abs(got-want) > 1e-6 {
				t.Fatalf("%s from %v to %v: the jar holds %v g more, by the book %v", l.Culture.Name, month[a].At, month[b].At, got, want)
			}
		})
	}
	if tried < 2 {
		t.Errorf("only %d cultures were fed in that month", tried)
	}
}
