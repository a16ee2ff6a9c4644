package demo_test

import (
	"slices"
	"testing"
	"time"

	"twinloaf/assets/demo"
	"twinloaf/journal"
	"twinloaf/journal/ferment"
	"twinloaf/journal/histories"
	"twinloaf/journal/journaltest/race"
)

// The new culture's first weeks read as its baker would read them: an early
// burst, a lull on days 4 and 5, and ready by now.
func TestGorseHasItsLullAndWakes(t *testing.T) {
	for _, now := range race.Few([]time.Time{morning, morning.AddDate(0, 4, 0), morning.AddDate(0, 8, 21)}, 1) {
		gorseWakes(t, now)
	}
}

func gorseWakes(t *testing.T, now time.Time) {
	t.Helper()
	life := lifeOf(t, build(t, now, demo.Options{NoPictures: true}), "Gorse", now)
	guide := ferment.FirstWeeks(life)
	if l := guide.Lull; !l.Found || l.First != 4 || l.Last != 5 || l.BurstDay != 2 {
		t.Errorf("on %v the guide reads the lull as %+v", now, l)
	}
	if guide.Stage != ferment.StageSteady {
		t.Errorf("on %v the guide says %q", now, guide.Stage)
	}
	if r := ferment.Ready(life, ferment.UsualThresholds()); !r.Ready {
		t.Errorf("on %v it is not ready: %+v", now, r)
	}
}

// No jar sinks in the first three hours after it was fed.
func TestNoFreshJarSinks(t *testing.T) {
	j := build(t, morning, demo.Options{})
	fedAt := map[journal.ID][]time.Time{}
	for _, f := range all[journal.Feeding](t, j) {
		fedAt[f.Culture] = append(fedAt[f.Culture], f.At)
	}
	readings := all[journal.Reading](t, j)
	slices.SortFunc(readings, func(a, b *journal.Reading) int { return a.At.Compare(b.At) })
	type course struct {
		culture journal.ID
		fed     time.Time
	}
	last := map[course]float64{}
	for _, r := range readings {
		if r.Rise == nil {
			continue
		}
		c := course{culture: r.Culture}
		for _, at := range fedAt[r.Culture] {
			if !at.After(r.At) && at.After(c.fed) {
				c.fed = at
			}
		}
		// What is read is off by a hundredth or two.
		if *r.Rise < last[c]-0.03 && r.At.Sub(c.fed) <= 3*time.Hour {
			t.Errorf("the jar fed at %v stood at %.2f, and at %v at %.2f", c.fed, last[c], r.At, *r.Rise)
		}
		last[c] = *r.Rise
	}
}

// What is foretold of a culture comes true as well as it does for one that is well
// kept, and its days are those of a person.
func TestForecastsComeTrue(t *testing.T) {
	for _, now := range race.Few([]time.Time{morning, morning.Add(-4 * time.Hour), morning.Add(9 * time.Hour), morning.AddDate(0, 5, 3)}, 1) {
		j := build(t, now, demo.Options{NoPictures: true})
		all, err := histories.All(j)
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range all {
			if l.Culture.Name != "Gorse" && l.Culture.Name != "Harbour" {
				continue
			}
			test := l.BackTest()[0]
			t.Logf("at %v the last %d forecasts of %s were off by %v, %d inside", now, len(test.Misses), l.Culture.Name, test.Median, test.Inside)
			if len(test.Misses) < 8 || test.Median > time.Hour || test.Inside < len(test.Misses)/2 {
				t.Errorf("at %v the forecasts of %s: %+v", now, l.Culture.Name, test)
			}
			fed := time.Time{}
			for _, c := range l.Courses(now) {
				if gap := c.Feeding.At.Sub(fed); gap < 6*time.Hour {
					t.Errorf("at %v: %s is fed at %v, %v after the feeding before", now, l.Culture.Name, c.Feeding.At, gap)
				}
				fed = c.Feeding.At
				for _, r := range c.Readings {
					if after := r.At.Sub(fed); r.Rise > 1.3 && after < 30*time.Minute {
						t.Errorf("at %v: %s stood at %v %v after its feeding", now, l.Culture.Name, r.Rise, after)
					}
				}
			}
		}
	}
}

func lifeOf(t *testing.T, j *journal.Journal, name string, now time.Time) ferment.Life {
	t.Helper()
	cultures := all[journal.Culture](t, j)
	c := cultures[slices.IndexFunc(cultures, func(c *journal.Culture) bool { return c.Name == name })]
	feedings, err := journal.Linked[journal.Feeding](j, c.ID)
	if err != nil {
		t.Fatal(err)
	}
	readings, err := journal.Linked[journal.Reading](j, c.ID)
	if err != nil {
		t.Fatal(err)
	}
	life := ferment.Life{Born: c.Born, Now: now}
	for i, f := range feedings {
		course := ferment.Course{Feeding: ferment.Feeding{
			ID: string(f.ID), At: f.At, Kept: f.Kept, Flour: f.Flour, Water: f.Water,
		}}
		for _, r := range readings {
			if r.At.Before(f.At) || i+1 < len(feedings) && !r.At.Before(feedings[i+1].At) {
				continue
			}
			reading := ferment.Reading{ID: string(r.ID), At: r.At, Rise: ferment.Rise(*r.Rise)}
			strongest := 0
			for smell, n := range r.Smells {
				if n > strongest {
					reading.Smell, strongest = ferment.Smell(smell), n
				}
			}
			course.Readings = append(course.Readings, reading)
		}
		life.Courses = append(life.Courses, course)
	}
	return life
}
