package cultures

import (
	"slices"
	"strings"
	"testing"
	"time"

	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/histories"
	"twinloaf/journal/measure"
)

// The heading says which culture ripens first only where that is expected of it.
func TestTheListSaysWhatRipensFirst(t *testing.T) {
	now := time.Date(2026, 3, 4, 9, 0, 0, 0, time.UTC)
	ripe := func(name string, from, to time.Duration) row {
		return row{name: name, course: &courseCurve{}, ripe: [2]time.Time{now.Add(from), now.Add(to)}}
	}
	for _, c := range []struct {
		rows []row
		want string
	}{
		{nil, "No culture yet"},
		{[]row{{name: "Gorse"}}, "No feeding due"},
		{[]row{{name: "Gorse"}, {name: "Harbour"}}, "No feedings due"},
		{[]row{ripe("Gorse", 4*time.Hour, 9*time.Hour)}, "Gorse ripens from 13:00"},
		{[]row{ripe("Gorse", 4*time.Hour, 9*time.Hour), ripe("Harbour", 3*time.Hour, 9*time.Hour)}, "Harbour ripens first, from 12:00"},
		{[]row{ripe("Gorse", -time.Hour, time.Hour), ripe("Harbour", 3*time.Hour, 9*time.Hour)}, "Gorse is ripe now"},
		{[]row{ripe("Gorse", -4*time.Hour, -time.Hour), {name: "Harbour"}}, "No feedings due"},
		{[]row{{name: "Gorse", late: true}, ripe("Harbour", time.Hour, 2*time.Hour)}, "Hungry: Gorse"},
		{[]row{{name: "Gorse", danger: true}, {name: "Harbour", late: true}}, "Check Gorse first"},
	} {
		if got := listHeading(c.rows, now, measure.Units{}); got != c.want {
			t.Errorf("%d rows: %q, want %q", len(c.rows), got, c.want)
		}
	}
}

// The curves of all rows stand on one pair of axes, and hold no more than was read and is
// expected; the four weeks hold each living culture by its own mark, and nothing older.
func TestCurvesOfTheListShareTheirAxes(t *testing.T) {
	b := pagestest.New(t)
	now := b.Clock
	for i, name := range []string{"Gorse", "Harbour", "Given up"} {
		c := &journal.Culture{Name: name, Born: now.AddDate(0, 0, -40), Colour: i + 1, Home: journal.Counter}
		if i == 2 {
			c.Ended = now.AddDate(0, 0, -2)
		}
		putCulture(b, c)
		for day := range 40 {
			putDay(b, c.ID, now.Add(time.Duration(day-39)*24*time.Hour-time.Duration(3+i)*time.Hour), 2+0.2*float64(i), nil)
		}
	}
	l, err := listingOf(b.Journal, &b.Histories, b.Units())
	if err != nil {
		t.Fatal(err)
	}
	on := axesOf(l.rows, l.now)
	for _, r := range l.rows {
		if r.ended {
			if r.course != nil {
				t.Errorf("%s has ended and is still expected to rise", r.name)
			}
			continue
		}
		if r.course == nil {
			t.Fatalf("no curve of %s", r.name)
		}
		plot := r.course.plot(r.look, on, l.now, b.Units())
		if drawn(t, plot) == "" || plot.X.Min != charts.Seconds(on.from) || plot.X.Max != charts.Seconds(on.to) {
			t.Errorf("%s is drawn from %v to %v, want %v to %v", r.name, plot.X.Min, plot.X.Max, on.from, on.to)
		}
		if r.ripe[1].After(on.to) || r.course.top() > on.top {
			t.Errorf("%s lies beyond the axes %+v", r.name, on)
		}
	}
	if s := drawn(t, l.weeks.figure); !strings.Contains(s, "Gorse") || !strings.Contains(s, "Harbour") || strings.Contains(s, "Given up") {
		t.Errorf("the four weeks: %s", s)
	}
	for _, layer := range l.weeks.figure.Panels[0].Layers {
		s := layer.(charts.Series)
		if s.X[0] < charts.Seconds(now.AddDate(0, 0, -fourWeeksDays)) {
			t.Errorf("%s is drawn from before four weeks ago", s.Name)
		}
	}
	for i, name := range []string{"Gorse", "Harbour"} {
		if at := slices.IndexFunc(l.rows, func(r row) bool { return r.name == name }); l.rows[at].look != pages.LookOf(&journal.Culture{Colour: i + 1}) {
			t.Errorf("%s looks like %+v", name, l.rows[at].look)
		}
	}
}

// A feeding that was over long ago leaves no empty axes.
func TestAFeedingOfDaysAgoHasNoCurve(t *testing.T) {
	b := pagestest.New(t)
	c := &journal.Culture{Name: "Gorse", Born: b.Clock.AddDate(0, 0, -60), Home: journal.Counter}
	putCulture(b, c)
	for day := range 40 {
		putDay(b, c.ID, b.Clock.AddDate(0, 0, day-45), 2, nil)
	}
	for _, behind := range []time.Duration{0, 5*24*time.Hour + time.Hour} {
		b.Clock = b.Clock.Add(-behind)
		l, err := listingOf(b.Journal, &b.Histories, b.Units())
		if err != nil {
			t.Fatal(err)
		}
		if shown := l.rows[0].course != nil; shown != (behind > 0) {
			t.Errorf("six days after the last feeding, less %v, a curve is drawn: %v", behind, shown)
		}
	}
}

// The last feedings of a culture are told with the greatest rise that was read after each, and of
// the one that still climbs none is said.
func TestRecentFeedings(t *testing.T) {
	b := pagestest.New(t)
	now := b.Clock
	c := putCulture(b, &journal.Culture{Name: "Gorse", Born: now.AddDate(0, 0, -12), Home: journal.Counter})
	for day := range 10 {
		putDay(b, c.ID, now.Add(time.Duration(day-9)*24*time.Hour-2*time.Hour), 2.2, nil)
	}
	l, err := histories.Of(b.Journal, c.ID)
	if err != nil {
		t.Fatal(err)
	}
	rows := recentFeedings(sketch(l, now), b.Units())
	if len(rows) != 10 {
		t.Fatalf("%d feedings are told, want 10", len(rows))
	}
	want := []string{"yesterday 06:54", "1:2:2", "25", "g", "50", "g", "50", "g", "24.0", "°C", "2.20×", "7 h"}
	if got := strings.ReplaceAll(strings.Join(rows[1], "|"), "\u00a0", " "); got != strings.Join(want, "|") {
		t.Errorf("the last but one is told as %s, want %s", got, strings.Join(want, "|"))
	}
	if got := rows[0][10:]; got[0] != "–" || got[1] != "–" {
		t.Errorf("the one that climbs has its peak at %q", got)
	}
}
