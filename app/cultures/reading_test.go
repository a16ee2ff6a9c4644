package cultures

import (
	"math"
	"strings"
	"testing"
	"time"

	"twinloaf/app/pages/pagestest"
	"twinloaf/assets/words"
	"twinloaf/journal"
	"twinloaf/journal/ferment"
	"twinloaf/journal/measure"
)

// The mark of a jar that was never fed here is kept with the reading: there is no feeding to keep
// it with.
func TestTheMarkOfAReadingBeforeTheFirstFeeding(t *testing.T) {
	b := pagestest.New(t)
	c := putCulture(b, &journal.Culture{Name: "Gorse"})
	b.Loop.Own()
	s := read(b.Env, lifeOf(t, b, c.ID))
	b.Type(s.height, "92 mm")
	b.Type(s.start, "46")
	s.keep()
	peaks := lifeOf(t, b, c.ID).Peaks(b.Clock)
	if len(peaks) != 1 || math.Abs(peaks[0].Rise-2) > 1e-9 {
		t.Errorf("peaks %+v, %v", peaks, b.Failed)
	}
}

// A reading that is put before another feeding is read against the mark of that one, and shows it.
func TestTheMarkFollowsTheHourOfAReading(t *testing.T) {
	b := pagestest.New(t)
	c := putCulture(b, &journal.Culture{Name: "Gorse"})
	b.Put(func(tx *journal.Tx) error {
		for h, mark := range map[int]*float64{1: new(44.0), 24: nil, 48: new(50.0)} {
			if err := journal.Put(tx, &journal.Feeding{Culture: c.ID, At: b.Clock.Add(-time.Duration(h) * time.Hour), Kept: 20, Flour: 40, Water: 40, StartMM: mark}); err != nil {
				return err
			}
		}
		return nil
	})
	b.Loop.Own()
	s := read(b.Env, lifeOf(t, b, c.ID))
	for _, tt := range []struct {
		when string
		mark float64 // 0: not known
	}{{"08:00", 44}, {"07:00", 0}, {"yesterday 07:00", 50}, {"08:00", 44}} {
		b.Type(s.when, tt.when)
		if v, ok := s.start.Value(); ok != (tt.mark > 0) || v != tt.mark {
			t.Errorf("at %s the mark is %v, %v", tt.when, v, ok)
		}
	}
	b.Type(s.start, "60")
	b.Type(s.when, "yesterday 07:00")
	if v, _ := s.start.Value(); v != 60 {
		t.Errorf("a mark that was typed became %v", v)
	}
}

// A height that is typed is no longer that which was measured on the photo.
func TestATypedHeightIsNotMeasured(t *testing.T) {
	b := pagestest.New(t)
	c := putCulture(b, &journal.Culture{Name: "Gorse"})
	rec := &journal.Reading{Culture: c.ID, At: b.Clock.Add(-time.Hour), Lines: &journal.JarLines{Bottom: 0.9, Start: 0.6, Now: 0.3}}
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, rec) })
	b.Loop.Own()
	s := reread(b.Env, lifeOf(t, b, c.ID), rec)
	if s.photo.String() != "measured on its photo" {
		t.Fatalf("beside the button stands %q", s.photo.String())
	}
	b.Type(s.height, "1.8")
	if s.photo.String() != "" {
		t.Errorf("beside the button stands %q still", s.photo.String())
	}
}

// Flours with a decimal comma are those that a German baker writes.
func TestFloursWithADecimalComma(t *testing.T) {
	for text, want := range map[string]string{
		"Roggen 12,5, Weizen 87,5":       "Roggen 12.5; Weizen 87.5",
		"Roggen 12,5; Weizen 87,5":       "Roggen 12.5; Weizen 87.5",
		"12,5 % Roggen, Weizen":          "Roggen 12.5; Weizen 87.5",
		"strong white 80,whole rye 20":   "strong white 80; whole rye 20",
		"strong white 80, 20 whole rye":  "strong white 80; whole rye 20",
		"white 33.3,rye 33.3,spelt 33.4": "white 33.3; rye 33.3; spelt 33.4",
	} {
		var got []string
		for _, f := range parseFlours(text) {
			got = append(got, f.Name+" "+measure.Units{}.FormatNumber(float64(f.Share), 1))
		}
		if s := strings.Join(got, "; "); s != want {
			t.Errorf("%q: %q, want %q", text, s, want)
		}
	}
}

// A threshold of nought is refused with a word, and the one before stays.
func TestAThresholdOfNought(t *testing.T) {
	b := pagestest.New(t)
	c := putCulture(b, &journal.Culture{Name: "Gorse", Born: b.Clock.AddDate(0, 0, -5), Ready: journal.Thresholds{Feedings: 2}})
	p := showCulture(b, c.ID)
	b.Loop.Own()
	b.Type(p.ready.inARow, "0")
	if p.ready.inARow.Problem() == "" {
		t.Error("nothing is said against it")
	}
	if got := pagestest.Stored[journal.Culture](b, c.ID); got.Ready.Feedings != 2 {
		t.Errorf("%d feedings in a row", got.Ready.Feedings)
	}
}

// Days of age that are no whole ones are shown as they count.
func TestDaysOfAgeAreShownAsTheyCount(t *testing.T) {
	b := pagestest.New(t)
	c := putCulture(b, &journal.Culture{Name: "Gorse", Born: b.Clock.AddDate(0, 0, -14), Ready: journal.Thresholds{MinAge: 14*24*time.Hour + 12*time.Hour}})
	p := portraitOf(t, b, c.ID, "")
	for _, cond := range p.ready.Conditions {
		if words := conditionWords(cond, p, b.Units()); cond.Code == ferment.ConditionAge && words != "14 days old (14.5 needed)." {
			t.Errorf("it is said that %q", words)
		}
	}
}

// One forecast that can be checked is spoken of as one.
func TestOneForecastThatWasChecked(t *testing.T) {
	if err := words.Load(); err != nil {
		t.Fatal(err)
	}
	one := []ferment.BackTest{{Misses: make([]ferment.Miss, 1), Median: 40 * time.Minute, Inside: 1},
		{After: 2 * time.Hour, Misses: make([]ferment.Miss, 1), Median: 20 * time.Minute}}
	if words := backDerived(one, measure.Units{}); strings.Contains(words, "last 1") || strings.Contains(words, "Half") {
		t.Errorf("it is said that %q", words)
	}
}
