package charts

import (
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

func zone(t testing.TB, name string) *time.Location {
	t.Helper()
	z, err := time.LoadLocation(name)
	if err != nil {
		t.Fatal(err)
	}
	return z
}

// In Europe/Berlin the clock goes forward from 02:00 to 03:00 on 29 March 2026
// and back from 03:00 to 02:00 on 25 October 2026 (Directive 2000/84/EC: the
// last Sundays of March and October, at 01:00 UTC).
func TestTicksOnDaysTheClockIsSet(t *testing.T) {
	z := zone(t, "Europe/Berlin")
	for _, c := range []struct {
		name     string
		from, to time.Time
		want     int
		labels   []string
		gaps     []time.Duration // between the ticks
	}{
		{"forward", time.Date(2026, 3, 28, 22, 0, 0, 0, z), time.Date(2026, 3, 29, 5, 0, 0, 0, z), 7,
			[]string{"22", "23", "00", "01", "03", "04", "05"},
			[]time.Duration{time.Hour, time.Hour, time.Hour, time.Hour, time.Hour, time.Hour}},
		{"back", time.Date(2026, 10, 24, 22, 0, 0, 0, z), time.Date(2026, 10, 25, 5, 0, 0, 0, z), 9,
			[]string{"22", "23", "00", "01", "02", "03", "04", "05"}, nil},
		{"back, every six hours", time.Date(2026, 10, 24, 12, 0, 0, 0, z), time.Date(2026, 10, 26, 0, 0, 0, 0, z), 7,
			[]string{"12", "18", "00", "06", "12", "18", "00"},
			[]time.Duration{6 * time.Hour, 6 * time.Hour, 7 * time.Hour, 6 * time.Hour, 6 * time.Hour, 6 * time.Hour}},
		{"days over the change", time.Date(2026, 3, 27, 12, 0, 0, 0, z), time.Date(2026, 3, 31, 12, 0, 0, 0, z), 4,
			[]string{"Sat 28", "Sun 29", "Mon 30", "Tue 31"},
			[]time.Duration{24 * time.Hour, 23 * time.Hour, 24 * time.Hour}},
		{"weeks begin on Monday", time.Date(2026, 3, 1, 0, 0, 0, 0, z), time.Date(2026, 4, 5, 0, 0, 0, 0, z), 6,
			[]string{"2", "9", "16", "23", "30"}, nil},
		{"months", time.Date(2026, 1, 15, 0, 0, 0, 0, z), time.Date(2026, 5, 15, 0, 0, 0, 0, z), 5,
			[]string{"Feb", "Mar", "Apr", "May"}, nil},
		{"years", time.Date(2019, 6, 1, 0, 0, 0, 0, z), time.Date(2026, 6, 1, 0, 0, 0, 0, z), 8,
			[]string{"2020", "2021", "2022", "2023", "2024", "2025", "2026"}, nil},
		{"minutes", time.Date(2026, 3, 1, 8, 2, 0, 0, z), time.Date(2026, 3, 1, 8, 21, 0, 0, z), 5,
			[]string{"08:05", "08:10", "08:15", "08:20"}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := clockTicks(Seconds(c.from), Seconds(c.to), c.want, z, Words{})
			var labels []string
			for _, tk := range got {
				labels = append(labels, tk.label)
			}
			if len(labels) != len(c.labels) {
				t.Fatalf("ticks %v, want %v", labels, c.labels)
			}
			for i := range labels {
				if labels[i] != c.labels[i] {
					t.Fatalf("ticks %v, want %v", labels, c.labels)
				}
			}
			for i, want := range c.gaps {
				if gap := time.Duration(got[i+1].at-got[i].at) * time.Second; gap != want {
					t.Errorf("from %s to %s is %v, want %v", labels[i], labels[i+1], gap, want)
				}
			}
		})
	}
}

// Where the clock is put forward at midnight, the day begins an hour later and is still told
// by its own name, once.
func TestADayWithoutAMidnightIsTold(t *testing.T) {
	for _, c := range []struct {
		zone string
		day  time.Time // that begins at one
	}{
		{"America/Santiago", time.Date(2025, 9, 7, 0, 0, 0, 0, time.UTC)},
		{"Asia/Beirut", time.Date(2026, 3, 29, 0, 0, 0, 0, time.UTC)},
		{"Africa/Cairo", time.Date(2026, 4, 24, 0, 0, 0, 0, time.UTC)},
	} {
		z := zone(t, c.zone)
		y, m, d := c.day.Date()
		at := func(day, hour int) time.Time { return time.Date(y, m, d+day, hour, 0, 0, 0, z) }
		days := dayTicks(Seconds(at(-1, 0)), Seconds(at(1, 0)), 1, z, Words{})
		if len(days) != 3 || !strings.HasSuffix(days[1].label, c.day.Format(" 2")) || days[1].at != Seconds(at(0, 1)) {
			t.Errorf("%s: the days are %+v", c.zone, days)
		}
		named := false
		for _, tk := range hourTicks(Seconds(at(-1, 12)), Seconds(at(0, 12)), 60, z, Words{}) {
			named = named || strings.HasPrefix(tk.sub, c.day.Format("Mon")) && tk.at == Seconds(at(0, 1)) && tk.major
		}
		if !named {
			t.Errorf("%s: nothing says where the day begins", c.zone)
		}
	}
}

// Whatever the range and the zone, ticks rise, lie in the range, are not many,
// and those of whole days are midnights.
func TestTicksOfTimeHoldTogether(t *testing.T) {
	names := []string{"UTC", "Europe/Berlin", "America/St_Johns", "Australia/Lord_Howe", "Asia/Kathmandu", "America/Sao_Paulo", "Pacific/Apia"}
	zones := make([]*time.Location, len(names))
	for i, n := range names {
		zones[i] = zone(t, n)
	}
	rapid.Check(t, func(t *rapid.T) {
		z := rapid.SampledFrom(zones).Draw(t, "zone")
		lo := rapid.Float64Range(0, 4e9).Draw(t, "from")
		length := rapid.Float64Range(600, 3e9).Draw(t, "length")
		want := rapid.IntRange(1, 30).Draw(t, "want")
		last := lo - 1
		ticks := clockTicks(lo, lo+length, want, z, Words{})
		if len(ticks) > 2*want+3 {
			t.Fatalf("%d ticks where %d were asked for", len(ticks), want)
		}
		for _, tk := range ticks {
			if tk.at <= last || tk.at < lo-1 || tk.at > lo+length+1 {
				t.Fatalf("tick %q at %v after %v in %v to %v", tk.label, tk.at, last, lo, lo+length)
			}
			last = tk.at
		}
	})
}
