package backup

import (
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	_ "twinloaf/journal/journaltest/race" // few draws under the race detector
)

func day(s string) time.Time {
	t, err := time.Parse("2006-01-02 15:04", s)
	if err != nil {
		panic(err)
	}
	return t
}

// The expected days are counted by hand on the calendar of 2026; 28 November is a
// Saturday.
func TestBackupsAreThinned(t *testing.T) {
	now := day("2026-11-28 21:00")
	var daily []time.Time
	for i := range 400 {
		daily = append(daily, now.AddDate(0, 0, -i).Add(-time.Hour))
	}
	for _, tt := range []struct {
		what string
		made []time.Time
		want []string
	}{
		{"none", nil, nil},
		{"one, however old", []time.Time{day("2019-01-01 10:00")}, []string{"2019-01-01 10:00"}},
		{"all of one day stay for 24 hours",
			[]time.Time{day("2026-11-28 08:00"), day("2026-11-28 09:00"), day("2026-11-27 22:00"), day("2026-11-27 20:00")},
			[]string{"2026-11-28 08:00", "2026-11-28 09:00", "2026-11-27 22:00"}},
		{"a time to come stays and counts for nothing",
			[]time.Time{day("2099-01-01 08:00"), day("2026-11-28 09:00")},
			[]string{"2099-01-01 08:00", "2026-11-28 09:00"}},
		{"a daily one for over a year", daily, []string{
			// Seven days, of which 23 to 28 November are one week and 22 the one before.
			"2026-11-28 20:00", "2026-11-27 20:00", "2026-11-26 20:00", "2026-11-25 20:00", "2026-11-24 20:00", "2026-11-23 20:00", "2026-11-22 20:00",
			// Two Sundays more make four weeks.
			"2026-11-15 20:00", "2026-11-08 20:00",
			// The ends of eleven months more.
			"2026-10-31 20:00", "2026-09-30 20:00", "2026-08-31 20:00", "2026-07-31 20:00", "2026-06-30 20:00", "2026-05-31 20:00",
			"2026-04-30 20:00", "2026-03-31 20:00", "2026-02-28 20:00", "2026-01-31 20:00", "2025-12-31 20:00"}},
	} {
		var got []string
		for i, stays := range Kept(tt.made, now) {
			if stays {
				got = append(got, tt.made[i].Format("2006-01-02 15:04"))
			}
		}
		if !slices.Equal(got, tt.want) {
			t.Errorf("%s: kept\n%v, want\n%v", tt.what, got, tt.want)
		}
	}
}

// Whatever was made when: the latest stays, so does everything of the last day and of
// times to come; what stays is never more than the rule allows; and thinning what is
// thin already takes nothing away.
func TestThinningLosesNoSpan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		now := day("2026-11-28 21:00").Add(time.Duration(rapid.IntRange(0, 1e6).Draw(t, "minutes")) * time.Minute)
		var made []time.Time
		for _, m := range rapid.SliceOfN(rapid.IntRange(-3000, 1e6), 0, 80).Draw(t, "made") {
			made = append(made, now.Add(-time.Duration(m)*time.Minute))
		}
		kept := Kept(made, now)
		var stay []time.Time
		old := 0
		var newest time.Time
		for i, m := range made {
			if !m.After(now) && m.After(newest) {
				newest = m
			}
			if kept[i] {
				stay = append(stay, m)
				if now.Sub(m) >= 24*time.Hour {
					old++
				}
			} else if now.Sub(m) < 24*time.Hour {
				t.Fatalf("%v is gone at %v", m, now)
			}
		}
		if old > 7+4+12 {
			t.Fatalf("%d stay", old)
		}
		if !newest.IsZero() && !slices.ContainsFunc(stay, newest.Equal) {
			t.Fatalf("the latest, %v, is gone", newest)
		}
		if again := Kept(stay, now); slices.Contains(again, false) {
			t.Fatalf("thinned twice, %v loses %v", stay, again)
		}
	})
}

func TestABackupIsDueEachDay(t *testing.T) {
	now := day("2026-11-28 00:30")
	for _, tt := range []struct {
		last time.Time
		want bool
	}{
		{time.Time{}, true},
		{day("2026-11-28 00:01"), false},
		{day("2026-11-27 23:59"), true},
		{day("2025-11-28 00:10"), true},
		{day("2027-01-01 00:00"), true}, // the clock was wrong then, or is now
	} {
		if got := due(tt.last, now); got != tt.want {
			t.Errorf("the last at %v: due %v", tt.last, got)
		}
	}
}
