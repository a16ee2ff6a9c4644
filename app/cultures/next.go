package cultures

import (
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/journal/ferment"
	"twinloaf/journal/measure"
	"twinloaf/journal/say"
)

// dueWords say when a culture wants feeding, and why then.
func dueWords(d ferment.Due, has bool, now time.Time, u measure.Units) (what, why string, late bool) {
	if !has {
		return "", "", false
	}
	if d.Reason == ferment.DueNever {
		return lang.L("Do not feed it"), u.Say(d.Reason.Line()), true
	}
	data := map[string]any{"When": clockAt(d.By, now, u)}
	if kit.Overdue(d.By, now) {
		data["When"] = u.When(d.By, now)
		return lang.L("Feeding was due {{.When}}", data), u.Say(d.Reason.Line()), true
	}
	return lang.L("Feed by {{.When}}", data), u.Say(d.Reason.Line()), false
}

// An outlook is a forecast in words.
type outlook struct {
	Label string // "Peak expected"
	When  string // with its interval
	Rests string // what it rests on
}

// outlookOf says when a feeding is expected to peak.
func outlookOf(f ferment.Forecast, unknown error, now time.Time, u measure.Units) outlook {
	if unknown != nil {
		return outlook{Label: lang.L("No forecast"), When: unknownWords(unknown, u)}
	}
	data := map[string]any{"Mid": u.When(f.Peak.Mid, now), "Low": clockAt(f.Peak.Low, now, u), "High": clockAt(f.Peak.High, now, u)}
	o := outlook{Label: lang.L("Peak expected"), Rests: restsWords(f, u)}
	if f.Peak.High.Before(now) {
		o.Label = lang.L("Peak was expected")
	}
	o.When = lang.L("{{.Mid}}, between {{.Low}} and {{.High}}", data)
	return o
}

// restsWords say what a forecast rests on, and what its hours are meant to hold.
func restsWords(f ferment.Forecast, u measure.Units) string {
	return joined(u.Say(f.Rests()), lang.L("The hours are meant to hold the peak eight times in ten."))
}

// clockAt is the time of day, with the day where it is another.
func clockAt(t, now time.Time, u measure.Units) string {
	t = t.In(now.Location())
	if t.YearDay() == now.YearDay() && t.Year() == now.Year() {
		return u.Clock(t)
	}
	if d := t.Sub(now); d > -6*24*time.Hour && d < 6*24*time.Hour {
		return u.Locale().Weekday(t) + " " + u.Clock(t)
	}
	return u.Moment(t, now)
}

// ripeWords say from when to when a feeding is ripe.
func ripeWords(f ferment.Forecast, now time.Time, u measure.Units) string {
	return lang.L("Ripe from {{.From}} to {{.To}}", map[string]any{
		"From": clockAt(f.RipeFrom.Mid, now, u), "To": clockAt(f.RipeTo.Mid, now, u)})
}

// unknownWords say why nothing can be foretold, as a part of a sentence.
func unknownWords(err error, u measure.Units) string {
	if l, ok := say.OfError(err); ok {
		return u.Say(l)
	}
	return u.ErrorText(err)
}

// backWords say how far off the last forecasts were that were made at the feeding.
func backWords(tests []ferment.BackTest, u measure.Units) string {
	if len(tests) == 0 || len(tests[0].Misses) == 0 {
		return ""
	}
	b := tests[0]
	n := len(b.Misses)
	data := map[string]any{"N": n, "Off": u.Span(b.Median), "Inside": b.Inside}
	if n == 1 {
		return lang.L("The one forecast that can be checked was off by {{.Off}}", data)
	}
	return lang.L("Half of the last {{.N}} forecasts were off by {{.Off}} or less", data)
}

// backDerived says how the back-test was done, on hover.
func backDerived(tests []ferment.BackTest, u measure.Units) string {
	b := tests[0]
	words := lang.N("We forecast each of the last {{.N}} feedings followed to a peak from the ones before it, with what was known at the feeding. Half were off by this or less; {{.Inside}} fell inside the interval, which should hold eight in ten.", len(b.Misses),
		map[string]any{"N": len(b.Misses), "Inside": b.Inside})
	for _, later := range tests[1:] {
		if len(later.Misses) == 0 {
			continue
		}
		words = joined(words, lang.L("Made {{.After}} later, with what was known by then: off by {{.Off}}, {{.Inside}} of {{.N}} inside.",
			map[string]any{"After": u.Span(later.After), "Off": u.Span(later.Median), "Inside": later.Inside, "N": len(later.Misses)}))
	}
	return words
}
