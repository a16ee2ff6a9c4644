package cultures

import (
	"math"
	"testing"
	"time"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/histories"
	"twinloaf/journal/measure"
)

// youth is the usual way of a new culture, the greatest rise by day of age: the early
// burst, the pause, the waking (common practice, no source).
var youth = [14]float64{1.0, 1.95, 1.4, 1.05, 1.07, 1.26, 1.48, 1.7, 1.85, 1.96, 2.1, 2.18, 2.24, 2.3}

// smelling is what it smells of on those days.
func smelling(day int) map[string]int {
	switch {
	case day == 1:
		return map[string]int{"none": 1}
	case day <= 3:
		return map[string]int{"foul": 2}
	case day <= 6:
		return map[string]int{"sour": 2}
	}
	return map[string]int{"fruity": 2, "sour": 1}
}

// putCulture puts a culture into the journal.
func putCulture(b *pagestest.Bench, c *journal.Culture) *journal.Culture {
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, c) })
	return c
}

// putDay puts a feeding and readings of its rise into the journal, peaking at about
// six hours.
func putDay(b *pagestest.Bench, id journal.ID, at time.Time, peak float64, smells map[string]int) *journal.Feeding {
	f := &journal.Feeding{Culture: id, At: at, Kept: 25, Flour: 50, Water: 50, RoomC: new(formula.Celsius(24))}
	b.Put(func(tx *journal.Tx) error {
		if err := journal.Put(tx, f); err != nil {
			return err
		}
		for _, h := range []float64{1, 2, 3, 4, 5, 6, 7} {
			rise := 1 + (peak-1)*math.Exp(-math.Exp(0.5*math.E*(1-h)+1))
			r := &journal.Reading{Culture: id, At: at.Add(time.Duration(h * float64(time.Hour))), Rise: new(rise)}
			if h == 7 {
				r.Smells = smells
			}
			if err := journal.Put(tx, r); err != nil {
				return err
			}
		}
		return nil
	})
	return f
}

// settle waits until a page shows what the journal holds.
func settle(b *pagestest.Bench, p pages.Page) {
	if c, ok := p.(*culturePage); ok && c.still != nil {
		c.still()
	}
	if l, ok := p.(*listPage); ok && l.still != nil {
		l.still()
	}
	b.Wait()
}

// showCulture opens the page of a culture.
func showCulture(b *pagestest.Bench, id journal.ID) *culturePage {
	p := b.Show(openCulture, pages.At(pages.Culture, id)).(*culturePage)
	settle(b, p)
	return p
}

// portraitOf paints a culture as its page would.
func portraitOf(t testing.TB, b *pagestest.Bench, id, other journal.ID) *portrait {
	t.Helper()
	p, err := paint(t.Context(), b.Journal, id, other, b.Clock, b.Units())
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// lifeOf reads a culture's life.
func lifeOf(t testing.TB, b *pagestest.Bench, id journal.ID) *histories.CultureHistory {
	t.Helper()
	l, err := histories.Of(b.Journal, id)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// drawn checks a figure as the frame would, and gives the chart's words.
func drawn(t testing.TB, f charts.Spec) string {
	t.Helper()
	style, err := kit.ChartStyle(look.Light(), measure.Units{})
	if err != nil {
		t.Fatal(err)
	}
	c, err := charts.New(f, style)
	if err != nil {
		t.Fatal(err)
	}
	return c.Summary()
}
