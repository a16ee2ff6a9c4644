package measure

import (
	"errors"
	"math"
	"strconv"
	"time"

	"twinloaf/journal/say"
)

// ParseWhen reads a moment as a baker writes it, in the zone of now, to the minute: see
// [shorthand.Style.When]. The error is a sentence for the user.
func (u Units) ParseWhen(text string, now time.Time) (time.Time, error) {
	t, err := u.Shorthand().When(text, now)
	if err != nil {
		return time.Time{}, errors.New(u.ErrorText(err))
	}
	return t, nil
}

// Clock writes the time of day: "07:30" or "7:30 am".
func (u Units) Clock(t time.Time) string { return u.Locale().Clock(t) }

// yearless is how far a day may be from now and still be written without its year;
// within half a year ParseWhen finds the same one.
const yearless = 170 * 24 * time.Hour

// Day writes a date where now is, without a time: "24 Nov", with the year when it is not now's or
// the day is far off.
func (u Units) Day(t, now time.Time) string {
	t = t.In(now.Location())
	s := u.Locale().ShortDay(t)
	if t.Year() != now.Year() || t.Sub(now).Abs() > yearless {
		s += " " + strconv.Itoa(t.Year())
	}
	return s
}

// Moment writes a date and time so that ParseWhen, asked on the same day, reads the
// same minute: "24 Nov 07:30".
func (u Units) Moment(t, now time.Time) string {
	return u.Day(t, now) + " " + u.Clock(t.In(now.Location()))
}

// When writes a moment as the baker says it: "now", "20 min ago", "in 40 min",
// "15:10", "yesterday 21:10", "tomorrow 06:00", "Mon 30 Nov 07:30", "24 Dec 07:30".
func (u Units) When(t, now time.Time) string {
	t = t.In(now.Location())
	away := t.Sub(now)
	minutes := int(math.Round(away.Minutes()))
	switch {
	case minutes == 0:
		return u.Say(say.Of("now"))
	case minutes > 0 && minutes <= 90:
		return u.Say(say.Of("in {{.N}} min", say.With{"N": minutes}))
	case minutes < 0 && minutes >= -90:
		return u.Say(say.Of("{{.N}} min ago", say.With{"N": -minutes}))
	}
	days := daysBetween(now, t)
	switch {
	case days == 0:
		return u.Clock(t)
	case days == -1:
		return u.Say(say.Of("yesterday {{.Clock}}", say.With{"Clock": u.Clock(t)}))
	case days == 1:
		return u.Say(say.Of("tomorrow {{.Clock}}", say.With{"Clock": u.Clock(t)}))
	case days > -7 && days < 7:
		return u.Locale().Weekday(t) + " " + u.Moment(t, now) // a weekday alone could be the last or the next
	}
	return u.Moment(t, now)
}

// Span writes how long something takes: "40 min", "4 h 30 min"; from two days on to the
// nearest day, "3 days".
func (u Units) Span(d time.Duration) string {
	if d = d.Abs(); d >= 48*time.Hour {
		return u.Say(say.N("{{.N}} day", "{{.N}} days", int(math.Round(d.Hours()/24))))
	}
	return writeMinutes(u, d.Minutes())
}

// daysBetween counts midnights from a to b, in the zone of a.
func daysBetween(a, b time.Time) int {
	b = b.In(a.Location())
	ya, ma, da := a.Date()
	yb, mb, db := b.Date()
	x := time.Date(ya, ma, da, 12, 0, 0, 0, time.UTC)
	y := time.Date(yb, mb, db, 12, 0, 0, 0, time.UTC)
	return int(math.Round(y.Sub(x).Hours() / 24))
}
