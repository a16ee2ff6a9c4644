package bulk

import (
	"math"
	"time"

	"twinloaf/journal/plan"
	"twinloaf/journal/say"
)

// Line says when the bulk will be over, at which rise, and what that rests on. zone is that
// of the reader's clock.
func (f Forecast) Line(zone *time.Location) say.Line {
	clock := func(t time.Time) say.Moment { return say.Moment{At: t.In(zone).Round(5 * time.Minute)} }
	with := say.With{
		"Mid": clock(f.End.Mid), "Low": clock(f.End.Low), "High": clock(f.End.High),
		"Rise": say.Number{Value: f.Rise, Decimals: 1}, "N": f.Learned,
	}
	var line say.Line
	switch {
	case f.Overdue:
		line = say.Of("By what is known the bulk should be over: look at the dough now.")
	case f.End.High.Sub(f.End.Low) > 24*time.Hour:
		line = say.Of("Too little is known to say when the bulk will be over.")
	default:
		line = say.Of("The bulk should be over about {{.Mid}} ({{.Low}} to {{.High}}, eight times in ten), at about {{.Rise}}× its start.", with)
	}
	return say.Join(line, f.rests())
}

// rests says what the forecast rests on.
func (f Forecast) rests() say.Line {
	switch {
	case f.Learned == 0:
		return say.Of("A guess from common practice: no bulk of yours is recorded from mixing to shaping.")
	case f.Ends == 0:
		return say.N("From one bulk of yours; its rise at the end was not noted.", "From {{.N}} bulks of yours; no rise at the end was noted.", f.Learned)
	}
	return say.N("From one bulk of yours.", "From {{.N}} bulks of yours.", f.Learned)
}

// Line says how the end came against what was foretold; it took as long as lies between the
// minutes that a clock showed.
func (m Miss) Line() say.Line {
	with := say.With{
		"Took": plan.Minutes(m.Ended.Truncate(time.Minute).Sub(m.Began.Truncate(time.Minute)).Minutes()).Line(), "Mid": minutes(m.Told.Mid.Sub(m.Began)),
		"Low": minutes(m.Told.Low.Sub(m.Began)), "High": minutes(m.Told.High.Sub(m.Began)),
	}
	return say.Of("From mixing to shaping it took {{.Took}}. Forecast at mixing from the bulks before it: {{.Mid}} ({{.Low}} to {{.High}}).", with)
}

// Line says how far off forecasts were; it is empty without any.
func (b BackTest) Line() say.Line {
	n := len(b.Misses)
	if n == 0 {
		return say.Line{}
	}
	with := say.With{"Off": minutes(b.Median), "Inside": b.Inside, "Rule": minutes(b.Rule)}
	line := say.N("Your last bulk was forecast to within {{.Off}}.",
		"Of your last {{.N}} bulks, half were forecast to within {{.Off}}; {{.Inside}} ended inside the interval, which should hold eight in ten.", n, with)
	if b.RuleMisses == 0 {
		return line
	}
	return say.Join(line, say.Of("Going by the mean of up to five bulks before each, half would have been within {{.Rule}}.", with))
}

// minutes is a length to five minutes.
func minutes(d time.Duration) say.Line {
	return plan.Minutes(5 * math.Round(d.Minutes()/5)).Line()
}
