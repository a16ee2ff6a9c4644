package histories_test

import (
	"context"
	"errors"
	"math"
	"testing"
	"time"

	"twinloaf/journal"
	"twinloaf/journal/ferment"
	"twinloaf/journal/formula"
	"twinloaf/journal/histories"
)

var born = time.Date(2026, 11, 1, 8, 0, 0, 0, time.UTC)

func hours(h float64) time.Time { return born.Add(time.Duration(h * float64(time.Hour))) }

// keep opens a journal and writes records into it.
func keep(t testing.TB, write func(tx *journal.Tx) error) *journal.Journal {
	t.Helper()
	j, err := journal.Open(context.Background(), t.TempDir(), journal.Options{Clock: func() time.Time { return hours(0) }})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := j.Close(); err != nil {
			t.Error(err)
		}
	})
	if err := j.Do("telling a life", write); err != nil {
		t.Fatal(err)
	}
	return j
}

// tell writes records that belong to one new culture and reads its life back.
func tell(t testing.TB, c *journal.Culture, fill func(id journal.ID, put func(rec any))) *histories.CultureHistory {
	t.Helper()
	j := keep(t, func(tx *journal.Tx) error {
		if err := journal.Put(tx, c); err != nil {
			return err
		}
		fill(c.ID, func(rec any) {
			var err error
			switch r := rec.(type) {
			case *journal.Feeding:
				r.Culture = c.ID
				err = journal.Put(tx, r)
			case *journal.Reading:
				r.Culture = c.ID
				err = journal.Put(tx, r)
			case *journal.Move:
				r.Culture = c.ID
				err = journal.Put(tx, r)
			case *journal.TempLog:
				r.Culture = c.ID
				err = journal.Put(tx, r)
			}
			if err != nil {
				t.Fatal(err)
			}
		})
		return nil
	})
	l, err := histories.Of(j, c.ID)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func fed(h, kept, flour, water float64) *journal.Feeding {
	return &journal.Feeding{At: hours(h), Kept: formula.Grams(kept), Flour: formula.Grams(flour), Water: formula.Grams(water)}
}

func read(h, rise float64) *journal.Reading {
	return &journal.Reading{At: hours(h), Rise: new(rise)}
}

func TestReadingsGoToTheFeedingBeforeThem(t *testing.T) {
	l := tell(t, &journal.Culture{Name: "Gorse", Born: born}, func(_ journal.ID, put func(any)) {
		put(fed(0, 0, 60, 60))
		put(read(12, 1.2))
		put(fed(24, 25, 50, 50))
		put(read(24, 1))
		put(read(28, 1.8))
		put(fed(30, 40, 0, 0)) // a taking: the feeding goes on
		put(read(32, 2.1))
	})
	got := l.Courses(hours(40))
	if len(got) != 2 || len(got[0].Readings) != 1 || len(got[1].Readings) != 3 {
		t.Fatalf("courses = %+v", got)
	}
	if n := len(l.Courses(hours(23))); n != 1 {
		t.Errorf("%d courses before the second feeding, want 1", n)
	}
	peaks := l.Peaks(hours(40))
	if len(peaks) != 2 || peaks[1].Rise != 2.1 || peaks[0].Rise != 1.2 {
		t.Errorf("peaks = %+v", peaks)
	}
}

func TestReadingsBeforeAnyFeedingAreNotLost(t *testing.T) {
	l := tell(t, &journal.Culture{Name: "Gorse", Born: born}, func(_ journal.ID, put func(any)) {
		put(&journal.Reading{At: hours(20), Mould: true})
		put(fed(24, 25, 50, 50))
	})
	if g := l.Guide(hours(30)); g.Stage != ferment.StageDanger {
		t.Errorf("stage = %q, want the mould to be seen", g.Stage)
	}
	if due, ok := l.Due(hours(21)); !ok || due.Reason != ferment.DueNever {
		t.Errorf("due = %v, %v", due, ok)
	}
}

func TestRise(t *testing.T) {
	start := &journal.Feeding{StartMM: new(40.0)}
	for name, c := range map[string]struct {
		reading journal.Reading
		feeding *journal.Feeding
		want    float64
		ok      bool
	}{
		"as a ratio":           {journal.Reading{Rise: new(1.8)}, nil, 1.8, true},
		"in millimetres":       {journal.Reading{HeightMM: new(90.0)}, start, 2.25, true},
		"no start known":       {journal.Reading{HeightMM: new(90.0)}, nil, 0, false},
		"on a photo":           {journal.Reading{Lines: &journal.JarLines{Bottom: 0.9, Start: 0.6, Now: 0.3}}, nil, 2, true},
		"lines that are level": {journal.Reading{Lines: &journal.JarLines{Bottom: 0.9, Start: 0.9, Now: 0.3}}, nil, 0, false},
		"nothing read":         {journal.Reading{}, start, 0, false},
	} {
		got, ok := histories.Rise(&c.reading, c.feeding)
		if ok != c.ok || math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%s: %v, %v; want %v, %v", name, got, ok, c.want, c.ok)
		}
	}
}

func TestTheStrongestSmellCounts(t *testing.T) {
	l := tell(t, &journal.Culture{Born: born}, func(_ journal.ID, put func(any)) {
		put(fed(0, 0, 60, 60))
		put(&journal.Reading{At: hours(2), Smells: map[string]int{"sour": 1, "fruity": 2}, Liquid: true})
		put(&journal.Reading{At: hours(3), Smells: map[string]int{"sour": 1, "foul": 1}})
	})
	c, _ := l.Current(hours(4))
	if r := c.Readings[0]; r.Smell != ferment.SmellFruity || len(r.Signs) != 1 {
		t.Errorf("first = %+v", r)
	}
	if r := c.Readings[1]; r.Smell != ferment.SmellFoul {
		t.Errorf("second = %+v", r)
	}
}

// A culture fed on the counter and put into the refrigerator two hours later is
// due a week after, and its forecast knows of the warm hours.
func TestMovesWithinAFeeding(t *testing.T) {
	c := &journal.Culture{Born: born, Home: journal.Counter, Usual: new(formula.Celsius(22))}
	l := tell(t, c, func(_ journal.ID, put func(any)) {
		put(fed(0, 20, 40, 40))
		put(&journal.Move{At: hours(2), To: journal.Refrigerator, Temp: new(formula.Celsius(4))})
	})
	got, _ := l.Current(hours(5))
	if got.Feeding.Place != ferment.Refrigerator || got.Feeding.Room != ferment.Measured(4) {
		t.Errorf("feeding = %+v", got.Feeding)
	}
	if got.Temps[0].Temp != 22 || got.Temps[len(got.Temps)-1].Temp != 4 {
		t.Errorf("temperatures = %v", got.Temps)
	}
	due, _ := l.Due(hours(5))
	if due.Reason != ferment.DueWeekly || !due.By.Equal(hours(7*24)) {
		t.Errorf("due = %+v", due)
	}
	if l.Home(hours(1)) != journal.Counter || l.Home(hours(3)) != journal.Refrigerator {
		t.Error("the home does not follow the moves")
	}
}

func TestLogsAreCutToTheFeeding(t *testing.T) {
	var points []journal.TempPoint
	for h := range 72 {
		points = append(points, journal.TempPoint{At: hours(float64(h)), C: formula.Celsius(20 + h)})
	}
	packed, err := journal.PackTemps(points)
	if err != nil {
		t.Fatal(err)
	}
	l := tell(t, &journal.Culture{Born: born}, func(_ journal.ID, put func(any)) {
		put(fed(0, 0, 60, 60))
		put(fed(24, 25, 50, 50))
		put(fed(48, 25, 50, 50))
		put(&journal.TempLog{From: hours(0), To: hours(71), Count: 72, Packed: packed})
	})
	c := l.Courses(hours(100))[1]
	first, last := c.Temps[0].At, c.Temps[len(c.Temps)-1].At
	if first.Before(hours(22)) || first.After(hours(24)) || last.Before(hours(48)) || last.After(hours(50)) {
		t.Errorf("log of the second feeding from %v to %v", first, last)
	}
}

func TestJar(t *testing.T) {
	c := &journal.Culture{Born: born}
	l := tell(t, c, func(_ journal.ID, put func(any)) {
		put(fed(0, 0, 60, 60))
		put(fed(24, 30, 60, 30))
		put(fed(30, 20, 0, 0))
	})
	s, ok := l.Jar(hours(25))
	if !ok || math.Abs(float64(s.Mix.Flour)-75) > 1e-9 || math.Abs(float64(s.Mix.Water)-45) > 1e-9 || math.Abs(s.Original-0.25) > 1e-9 {
		t.Errorf("after the feeding: %+v", s)
	}
	s, _ = l.Jar(hours(31))
	if math.Abs(float64(s.Mix.Total())-20) > 1e-9 || math.Abs(s.Mix.Hydration()-0.6) > 1e-9 || math.Abs(s.Original-0.25) > 1e-9 {
		t.Errorf("after the taking: %+v", s)
	}
	if _, ok := l.Jar(hours(-1)); ok {
		t.Error("something is in the jar before the first mix")
	}
}

// A culture that always peaks after five hours is forecast to do so again, its
// back-test says how far off, and a rhythm set by hand comes first.
func TestForecastFromItsOwnPast(t *testing.T) {
	rise := func(h float64) float64 { return 1 + 1.2*math.Exp(-math.Exp(0.55*math.E/1.2*(1-h)+1)) }
	c := &journal.Culture{Born: born, Usual: new(formula.Celsius(24))}
	l := tell(t, c, func(_ journal.ID, put func(any)) {
		for i := range 14 {
			at := float64(24 * i)
			put(fed(at, 20, 40, 40))
			for h := 1.0; h <= 7; h++ {
				put(read(at+h, rise(h)))
			}
			put(read(at+10, rise(7)-0.4))
		}
		put(fed(24*14, 20, 40, 40))
	})
	now := hours(24*14 + 0.1)
	f, err := l.Forecast(now)
	if err != nil {
		t.Fatal(err)
	}
	if f.Basis != ferment.BasisHistory || f.Feedings != 14 {
		t.Errorf("rests on %q, %d feedings", f.Basis, f.Feedings)
	}
	told, err := l.Told(l.Feedings[13].ID)
	if err != nil {
		t.Fatal(err)
	}
	want := told.Peak.Mid.Sub(told.Fed).Hours()
	if got := f.Peak.Mid.Sub(hours(24 * 14)).Hours(); math.Abs(got-want) > 0.3 {
		t.Errorf("peak after %.2f h, the others after %.2f h", got, want)
	}
	test := l.BackTest()[0]
	if len(test.Misses) != 10 || test.Median > 15*time.Minute {
		t.Errorf("back-test over %d, off by %v", len(test.Misses), test.Median)
	}
	if due, _ := l.Due(now); due.Reason != ferment.DueRipe {
		t.Errorf("due = %+v", due)
	}
	l.Culture.FeedEvery = 12 * time.Hour
	if due, _ := l.Due(now); due.Reason != ferment.DueRhythm || !due.By.Equal(hours(24*14+12)) {
		t.Errorf("due by its rhythm = %+v", due)
	}
}

// A first mix is known to whoever plans in the minute it was made: nothing rose yet.
func TestPlannedInTheMinuteOfTheMix(t *testing.T) {
	l := tell(t, &journal.Culture{Born: hours(0)}, func(_ journal.ID, put func(any)) { put(fed(0, 0, 50, 50)) })
	next := ferment.Course{Feeding: ferment.Feeding{At: hours(0), Kept: 50, Flour: 50, Water: 50}}
	if f, err := l.Planner(hours(0)).Predict(next, hours(0)); !errors.Is(err, ferment.ErrNotYet) {
		t.Errorf("the first feeding is foretold to peak at %v (%v)", f.Peak.Mid, err)
	}
}

// A young culture leans on the same ones beside it, whether it is read alone or with all.
func TestReadAloneAndWithAllItExpectsTheSame(t *testing.T) {
	j := keep(t, func(tx *journal.Tx) error {
		for i := range 6 {
			c := &journal.Culture{Born: born, Usual: new(formula.Celsius(24))}
			if err := journal.Put(tx, c); err != nil {
				return err
			}
			for day := range 5 {
				f := fed(float64(24*day), 20, 40, 40)
				f.Culture = c.ID
				if err := journal.Put(tx, f); err != nil {
					return err
				}
				for h := 1.0; h < 10 && day < 4; h++ { // each is slower than the one before it
					r := read(float64(24*day)+h, 1+1.2*math.Exp(-math.Exp(0.55*math.E/1.2*(2+float64(i)/2-h)+1)))
					r.Culture = c.ID
					if err := journal.Put(tx, r); err != nil {
						return err
					}
				}
			}
		}
		return nil
	})
	all, err := histories.All(j)
	if err != nil {
		t.Fatal(err)
	}
	now := hours(24*4 + 0.1)
	for i, l := range all {
		with, err := l.Forecast(now)
		if err != nil {
			t.Fatal(err)
		}
		one, err := histories.Of(j, l.Culture.ID)
		if err != nil {
			t.Fatal(err)
		}
		if alone, err := one.Forecast(now); err != nil || alone.Peak != with.Peak {
			t.Errorf("%d: peak %v, alone %v (%v)", i+1, with.Peak, alone.Peak, err)
		}
	}
}

func TestThresholds(t *testing.T) {
	l := &histories.CultureHistory{Culture: &journal.Culture{Ready: journal.Thresholds{Within: 6 * time.Hour, Feedings: 2}}}
	got, usual := l.Thresholds(), ferment.UsualThresholds()
	if got.Within != 6*time.Hour || got.InARow != 2 || got.Rise != usual.Rise || got.MinAge != usual.MinAge {
		t.Errorf("thresholds = %+v", got)
	}
}

func BenchmarkOf(b *testing.B) {
	var id journal.ID
	j := keep(b, func(tx *journal.Tx) error {
		c := &journal.Culture{Born: born}
		if err := journal.Put(tx, c); err != nil {
			return err
		}
		id = c.ID
		for day := range 300 {
			f := fed(float64(24*day), 20, 40, 40)
			f.Culture = id
			if err := journal.Put(tx, f); err != nil {
				return err
			}
			for h := 1.0; h < 7; h++ {
				r := read(float64(24*day)+h, 1+1.2*math.Exp(-math.Exp(0.55*math.E/1.2*(1-h)+1)))
				r.Culture = id
				if err := journal.Put(tx, r); err != nil {
					return err
				}
			}
		}
		return nil
	})
	now := hours(300 * 24)
	for b.Loop() {
		l, err := histories.Of(j, id)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := l.Forecast(now); err != nil {
			b.Fatal(err)
		}
		l.BackTest()
	}
}

// A culture with mould is barred from everything, and so is what was split off it and what
// was baked with it about then, until the baker says it was something else.
func TestACondemnedCultureIsBarred(t *testing.T) {
	parent := &journal.Culture{Name: "Gorse", Born: born}
	child := &journal.Culture{Name: "Broom", Born: hours(24 * 9)}
	old := &journal.Culture{Name: "Heath", Born: hours(24 * 2)}
	before, after := &journal.Bake{At: hours(24 * 3)}, &journal.Bake{At: hours(24 * 9)}
	line := &journal.Bake{At: hours(24 * 9), Levains: []journal.LevainBuild{{Lines: []journal.Ingredient{{Name: "gorse", Role: formula.Culture, Grams: 20}}}}}
	clock := hours(24 * 12)
	j, err := journal.Open(context.Background(), t.TempDir(), journal.Options{Clock: func() time.Time { return clock }})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := j.Close(); err != nil {
			t.Error(err)
		}
	})
	do := func(f func(tx *journal.Tx) error) {
		t.Helper()
		if err := j.Do("a test", f); err != nil {
			t.Fatal(err)
		}
	}
	do(func(tx *journal.Tx) error {
		if err := journal.Put(tx, parent); err != nil {
			return err
		}
		child.Parent, old.Parent = parent.ID, parent.ID
		before.Culture, after.Culture = parent.ID, parent.ID
		f := fed(24*11, 20, 40, 40)
		f.Culture = parent.ID
		return errors.Join(journal.Put(tx, child), journal.Put(tx, old), journal.Put(tx, before), journal.Put(tx, after), journal.Put(tx, f),
			journal.Put(tx, &journal.Reading{Culture: parent.ID, At: hours(24 * 10), Mould: true}))
	})
	barred := func(want bool) {
		t.Helper()
		for _, c := range []struct {
			err  error
			want bool
			what string
		}{
			{histories.Barred(j, parent.ID, clock), want, "the culture"},
			{histories.Barred(j, child.ID, clock), want, "what was split off a day before"},
			{histories.Barred(j, old.ID, clock), false, "what was split off a week before"},
			{histories.Barred(j, "", clock), false, "no culture"},
			{histories.BarredLoaf(j, after), want, "a loaf of the day before"},
			{histories.BarredLoaf(j, line), want, "a loaf that names no culture, with a line of it"},
			{histories.BarredDough(j, line, clock), want, "a dough that names no culture, with a line of it"},
			{histories.BarredDough(j, &journal.Bake{}, clock), false, "a dough without a culture"},
			{histories.BarredLoaf(j, before), false, "a loaf of a week before"},
			{histories.BarredLoaves(j, before.ID, after.ID), want, "a tasting of the two"},
			{histories.BarredLoaves(j, before.ID, "gone"), false, "a tasting of the one and a bake that is gone"},
		} {
			if (c.err != nil) != c.want {
				t.Errorf("%s: %v, want barred %v", c.what, c.err, c.want)
			}
		}
		l, err := histories.Of(j, parent.ID)
		if err != nil {
			t.Fatal(err)
		}
		if due, _ := l.Due(clock); (due.Reason == ferment.DueNever) != want {
			t.Errorf("due %q", due.Reason)
		}
	}
	barred(true)
	clock = clock.Add(time.Hour)
	do(func(tx *journal.Tx) error {
		return journal.Change(tx, parent.ID, func(c *journal.Culture) { c.Cleared = clock })
	})
	barred(false)
}

func TestCacheReadsAgainAfterAChangeAlone(t *testing.T) {
	c := &journal.Culture{Name: "Gorse", Born: born}
	j := keep(t, func(tx *journal.Tx) error { return journal.Put(tx, c) })
	var kept histories.Cache
	all := func() *histories.CultureHistory {
		t.Helper()
		found, err := kept.All(j)
		if err != nil || len(found) != 1 {
			t.Fatalf("%d histories, %v", len(found), err)
		}
		return found[0]
	}
	first := all()
	change := func(write func(tx *journal.Tx) error) {
		t.Helper()
		if err := j.Do("a change", write); err != nil {
			t.Fatal(err)
		}
	}
	feed := func(tx *journal.Tx) error {
		return journal.Put(tx, &journal.Feeding{Culture: c.ID, At: hours(1), Kept: 20, Flour: 40, Water: 40})
	}
	change(func(tx *journal.Tx) error { return journal.Put(tx, &journal.Bake{Name: "Saturday"}) })
	if all() != first {
		t.Error("a bake has the cultures read again")
	}
	change(feed)
	if got := all(); got == first || len(got.Feedings) != 1 {
		t.Errorf("after a feeding %d feedings are known", len(got.Feedings))
	}
	if _, err := j.Undo(); err != nil {
		t.Fatal(err)
	}
	if got := all(); len(got.Feedings) != 0 {
		t.Errorf("after it was undone %d feedings are known", len(got.Feedings))
	}
	ended, cancel := context.WithCancel(t.Context())
	cancel()
	change(feed)
	if _, err := kept.All(j.Until(ended)); !errors.Is(err, context.Canceled) {
		t.Errorf("a reading that was called off gives %v", err)
	}
	if got := all(); len(got.Feedings) != 1 {
		t.Errorf("after one that was called off %d feedings are known", len(got.Feedings))
	}
}
