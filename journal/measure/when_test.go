package measure_test

import (
	"encoding/json"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"twinloaf/assets/words"
	"twinloaf/journal/measure"
)

// now is a Wednesday, in a zone with summer time.
func someNow(t testing.TB) time.Time {
	t.Helper()
	zone, err := time.LoadLocation("Europe/London")
	if err != nil {
		t.Fatalf("loading a zone: %v", err)
	}
	return time.Date(2026, 11, 25, 8, 54, 30, 0, zone)
}

func TestParseWhen(t *testing.T) {
	now := someNow(t)
	us := measure.Units{MonthFirst: true}
	cases := []struct {
		u    measure.Units
		text string
		want string
	}{
		{measure.Units{}, "now", "2026-11-25 08:54"},
		{measure.Units{}, "-20 min", "2026-11-25 08:34"},
		{measure.Units{}, "−20", "2026-11-25 08:34"},
		{measure.Units{}, "1 h 30 min ago", "2026-11-25 07:24"},
		{measure.Units{}, "3 days ago", "2026-11-22 08:54"},
		{measure.Units{}, "in 40 min", "2026-11-25 09:34"},
		{measure.Units{}, "+2 h", "2026-11-25 10:54"},
		{measure.Units{}, "7:30", "2026-11-25 07:30"},
		{measure.Units{}, "07:30:15", "2026-11-25 07:30"},
		{measure.Units{}, "7:30 pm", "2026-11-25 19:30"},
		{measure.Units{}, "7.30 p.m.", "2026-11-25 19:30"},
		{measure.Units{}, "12 am", "2026-11-25 00:00"},
		{measure.Units{}, "12:15pm", "2026-11-25 12:15"},
		{measure.Units{}, "7h30", "2026-11-25 07:30"},
		{measure.Units{}, "0730", "2026-11-25 07:30"},
		{measure.Units{}, "noon", "2026-11-25 12:00"},
		{measure.Units{}, "yesterday 21:10", "2026-11-24 21:10"},
		{measure.Units{}, "Yesterday, 9 pm", "2026-11-24 21:00"},
		{measure.Units{}, "21:10 yesterday", "2026-11-24 21:10"},
		{measure.Units{}, "tomorrow at 6", "2026-11-26 06:00"},
		{measure.Units{}, "today", "2026-11-25 12:00"},
		{measure.Units{}, "tue 7:30", "2026-11-24 07:30"},
		{measure.Units{}, "Saturday 8", "2026-11-28 08:00"},
		{measure.Units{}, "sunday 8:00", "2026-11-22 08:00"},
		{measure.Units{}, "24 Nov 07:30", "2026-11-24 07:30"},
		{measure.Units{}, "24 November", "2026-11-24 12:00"},
		{measure.Units{}, "Nov 24th, 7:30 pm", "2026-11-24 19:30"},
		{measure.Units{}, "24 Nov 2025 07:30", "2025-11-24 07:30"},
		{measure.Units{}, "2 jan 10:00", "2027-01-02 10:00"},
		{measure.Units{}, "2 jul", "2026-07-02 12:00"},
		{measure.Units{}, "24/11 07:30", "2026-11-24 07:30"},
		{measure.Units{}, "4/3/2026", "2026-03-04 12:00"},
		{us, "4/3/2026", "2026-04-03 12:00"},
		{us, "11/24 7:30 pm", "2026-11-24 19:30"},
		{measure.Units{}, "24.11. 07:30", "2026-11-24 07:30"},
		{measure.Units{}, "24.11.2026 07:30", "2026-11-24 07:30"},
		{measure.Units{}, "2026-11-24", "2026-11-24 12:00"},
		{measure.Units{}, "2026-11-24 07:30", "2026-11-24 07:30"},
		{measure.Units{}, "2026-11-24T07:30", "2026-11-24 07:30"},
		{measure.Units{}, "2026-11-24T07:30:00Z", "2026-11-24 07:30"},
		{measure.Units{}, "2026-06-24T07:30:00Z", "2026-06-24 08:30"},
		{measure.Units{}, "29 Feb 2024 06:00", "2024-02-29 06:00"},
	}
	for _, c := range cases {
		got, err := c.u.ParseWhen(c.text, now)
		if err != nil || got.Format("2006-01-02 15:04") != c.want {
			t.Errorf("ParseWhen(%q) = %v, %v; want %s", c.text, got.Format("2006-01-02 15:04"), err, c.want)
		}
	}
}

func TestParseWhenRefuses(t *testing.T) {
	now := someNow(t)
	for _, bad := range []string{"", "soon", "25:00", "7:61", "13 pm", "31 Feb", "29 Feb 2025", "99/99", "24 Nov Nov",
		"7:30 8:30", "yesterday tomorrow", "24", "-", "in", "2026-13-01", "-20 parsecs", "0 am"} {
		if got, err := (measure.Units{}).ParseWhen(bad, now); err == nil {
			t.Errorf("ParseWhen(%q) = %v; want a sentence", bad, got)
		}
	}
}

func TestMomentIsReadBack(t *testing.T) {
	now := someNow(t)
	rapid.Check(t, func(t *rapid.T) {
		u := measure.Units{TwelveHour: rapid.Bool().Draw(t, "12 h"), MonthFirst: rapid.Bool().Draw(t, "month first")}
		// Half past anything: an hour that a change of the clock repeats is left out.
		minutes := rapid.IntRange(-2_000_000, 2_000_000).Draw(t, "minutes")
		when := now.Add(time.Duration(minutes) * time.Minute).Truncate(time.Minute)
		if when.Hour() == 1 {
			return
		}
		got, err := u.ParseWhen(u.Moment(when, now), now)
		if err != nil || !got.Equal(when) {
			t.Fatalf("%v was written %q and read as %v, %v", when, u.Moment(when, now), got, err)
		}
	})
}

func TestWhenAsABakerSaysIt(t *testing.T) {
	now := someNow(t)
	cases := []struct {
		away time.Duration
		want string
	}{
		{0, "now"},
		{20 * time.Second, "now"},
		{40 * time.Minute, "in 40 min"},
		{-20 * time.Minute, "20 min ago"},
		{6 * time.Hour, "14:54"},
		{-12 * time.Hour, "yesterday 20:54"},
		{24 * time.Hour, "tomorrow 08:54"},
		{-4 * 24 * time.Hour, "Sat 21\u00a0Nov 08:54"},
		{3 * 24 * time.Hour, "Sat 28\u00a0Nov 08:54"},
		{-30 * 24 * time.Hour, "26\u00a0Oct 08:54"},
		{-365 * 24 * time.Hour, "25\u00a0Nov 2025 08:54"},
	}
	for _, c := range cases {
		if got := (measure.Units{}).When(now.Add(c.away), now); got != c.want {
			t.Errorf("%v from now is %q, want %q", c.away, got, c.want)
		}
	}
	if got := (measure.Units{TwelveHour: true, MonthFirst: true}).Moment(now, now); got != "Nov\u00a025 8:54\u00a0am" {
		t.Errorf("moment in the other face is %q", got)
	}
	for hours, want := range map[time.Duration]string{47: "47\u00a0h", 48: "2 days", 71: "3 days", 75: "3 days", -75: "3 days"} {
		if got := (measure.Units{}).Span(hours * time.Hour); got != want {
			t.Errorf("%d hours are %q, want %q", hours, got, want)
		}
	}
}

func FuzzParseWhen(f *testing.F) {
	for _, s := range []string{"now", "24 Nov 07:30", "-20 min", "7h30 pm", "2026-11-24T07:30:00Z", "24.11.26", "midnight sunday", "١٢:٣٠"} {
		f.Add(s, false)
	}
	now := someNow(f)
	f.Fuzz(func(t *testing.T, text string, monthFirst bool) {
		got, err := (measure.Units{MonthFirst: monthFirst}).ParseWhen(text, now)
		if err != nil {
			if err.Error() == "" || !got.IsZero() {
				t.Errorf("ParseWhen(%q) = %v, %q", text, got, err)
			}
			return
		}
		if got.Second() != 0 || got.Nanosecond() != 0 {
			t.Errorf("ParseWhen(%q) = %v, which is not a whole minute", text, got)
		}
	})
}

// A date is read back in whatever words the catalogue writes it.
func TestMomentIsReadBackInAnotherLanguage(t *testing.T) {
	say := func(march, mar, am, pm string) {
		t.Helper()
		var list []map[string]string
		for english, word := range map[string]string{"March": march, "Mar": mar, "am": am, "pm": pm} {
			list = append(list, map[string]string{"id": english, "other": word})
		}
		data, err := json.Marshal(list)
		if err != nil {
			t.Fatal(err)
		}
		c, err := words.Read("en", data)
		if err != nil {
			t.Fatal(err)
		}
		c.Use()
	}
	say("März", "Mär", "früh", "spät")
	t.Cleanup(func() {
		if err := words.Speak("en"); err != nil {
			t.Error(err)
		}
	})
	u := measure.Units{TwelveHour: true}
	now := time.Date(2026, time.March, 20, 12, 0, 0, 0, time.UTC)
	for _, at := range []time.Time{now.Add(-30 * time.Hour), now.Add(-37 * time.Hour)} {
		text := u.Moment(at, now)
		if !strings.Contains(text, "Mär") {
			t.Errorf("%v is written %q", at, text)
		}
		if got, err := u.ParseWhen(text, now); err != nil || !got.Equal(at) {
			t.Errorf("%q is read as %v (%v), want %v", text, got, err, at)
		}
	}
	if got, err := u.ParseWhen("5 march 7pm", now); err != nil || got.Hour() != 19 {
		t.Errorf("English is read as %v (%v)", got, err)
	}
}
