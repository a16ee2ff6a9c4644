package charts

import (
	"math"
	"time"

	"twinloaf/journal/say"
)

// Seconds is a time as an axis with a Zone takes it.
func Seconds(t time.Time) float64 {
	return float64(t.Unix()) + float64(t.Nanosecond())/1e9
}

func moment(seconds float64, zone *time.Location) time.Time {
	whole := math.Floor(seconds)
	return time.Unix(int64(whole), int64((seconds-whole)*1e9)).In(zone)
}

const daySeconds = 24 * 60 * 60

// clockTicks are at round times of the clock on the wall. They are found on the
// calendar, not by adding hours, so that they stay round on the days a clock is
// put forward or back: an hour that is skipped has no tick, one that comes twice
// has one.
func clockTicks(lo, hi float64, want int, zone *time.Location, w Words) []tick {
	length := hi - lo
	fits := func(step float64) bool { return length/step <= float64(max(1, want)) }
	for _, minutes := range []int{5, 10, 15, 30, 60, 120, 180, 360, 720} {
		if fits(float64(minutes) * 60) {
			return hourTicks(lo, hi, minutes, zone, w)
		}
	}
	for _, days := range []int{1, 2, 7} {
		if fits(float64(days) * daySeconds) {
			return dayTicks(lo, hi, days, zone, w)
		}
	}
	for _, months := range []int{1, 3, 6} {
		if fits(float64(months) * 30.44 * daySeconds) {
			return monthTicks(lo, hi, months, zone, w)
		}
	}
	const yearSeconds = 365.2425 * daySeconds
	years := tickStep(0, length/yearSeconds, want, true)
	return yearTicks(lo, hi, int(years), zone)
}

func hourTicks(lo, hi float64, minutes int, zone *time.Location, w Words) []tick {
	var out []tick
	label := w.Hour
	if minutes < 60 {
		label = w.Clock
	}
	y, m, d := moment(lo, zone).Date()
	for day := 0; len(out) < mostTicks; day++ {
		if Seconds(time.Date(y, m, d+day, 0, 0, 0, 0, zone)) > hi {
			break
		}
		begun := false
		for minute := 0; minute < 24*60; minute += minutes {
			t := time.Date(y, m, d+day, 0, minute, 0, 0, zone)
			if t.Hour()*60+t.Minute() != minute {
				continue
			}
			first := !begun // of its day, which may have no midnight
			begun = true
			if !within(t, lo, hi) {
				continue
			}
			tk := tick{at: Seconds(t), label: label(t), major: first}
			if tk.major || len(out) == 0 {
				tk.sub = w.weekdayDay(t, w.ShortDay(t))
			}
			out = append(out, tk)
		}
	}
	return out
}

func dayTicks(lo, hi float64, days int, zone *time.Location, w Words) []tick {
	var out []tick
	y, m, d := moment(lo, zone).Date()
	for i := range mostTicks * days {
		t := dayBegins(y, m, d+i, zone)
		if Seconds(t) > hi {
			break
		}
		// The first day of the common calendar's count was a Thursday: three
		// days later the weeks begin on Monday.
		count := int(time.Date(y, m, d+i, 0, 0, 0, 0, time.UTC).Unix()/daySeconds) + 3
		if !within(t, lo, hi) || count%days != 0 {
			continue
		}
		tk := tick{at: Seconds(t), label: t.Format("2")}
		if days == 1 {
			tk.label = w.Say(say.Of("{{.Weekday}} {{.Day}}", say.With{"Weekday": w.Weekday(t), "Day": t.Day()}))
		}
		if len(out) == 0 || moment(out[len(out)-1].at, zone).Month() != t.Month() {
			tk.sub, tk.major = w.Say(say.Of("{{.Month}} {{.Year}}", say.With{"Month": w.Month(t), "Year": t.Year()})), len(out) > 0
		}
		out = append(out, tk)
	}
	return out
}

// dayBegins is the first moment of a day: midnight, or an hour later where the clock is put
// forward then. For a time that is skipped [time.Date] may give one of the day before.
func dayBegins(y int, m time.Month, d int, zone *time.Location) time.Time {
	t := time.Date(y, m, d, 0, 0, 0, 0, zone)
	if t.Hour() > 12 {
		t = t.Add(time.Hour)
	}
	return t
}

func monthTicks(lo, hi float64, months int, zone *time.Location, w Words) []tick {
	var out []tick
	start := moment(lo, zone)
	for i := range mostTicks {
		t := dayBegins(start.Year(), time.Month(1+i*months), 1, zone)
		if Seconds(t) > hi {
			break
		}
		if !within(t, lo, hi) {
			continue
		}
		tk := tick{at: Seconds(t), label: w.ShortMonth(t), major: t.Month() == time.January}
		if tk.major || len(out) == 0 {
			tk.sub = t.Format("2006")
		}
		out = append(out, tk)
	}
	return out
}

func yearTicks(lo, hi float64, years int, zone *time.Location) []tick {
	var out []tick
	years = max(1, years)
	first := moment(lo, zone).Year() / years * years
	for i := range mostTicks {
		t := time.Date(first+i*years, time.January, 1, 0, 0, 0, 0, zone)
		if Seconds(t) > hi {
			break
		}
		if within(t, lo, hi) {
			out = append(out, tick{at: Seconds(t), label: t.Format("2006")})
		}
	}
	return out
}

func within(t time.Time, lo, hi float64) bool {
	s := Seconds(t)
	return s >= lo-0.5 && s <= hi+0.5
}
