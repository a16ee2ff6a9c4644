package series

import (
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/journal"
	"twinloaf/journal/jar"
	"twinloaf/journal/measure"
)

// lossWords say why a picture has no height.
func lossWords(l jar.Loss) string {
	switch l {
	case jar.Dark:
		return lang.L("too dark to see")
	case jar.Covered:
		return lang.L("covered: a hand, a lid or another thing was before it")
	case jar.Moved:
		return lang.L("the camera was moved, and the jar was not found again")
	case jar.Unsure:
		return lang.L("not sure: several heights would do")
	}
	return ""
}

// heightWords say one point; level is how high the level lies, in millimetres, 0 where that is
// not known.
func heightWords(p journal.SeriesPoint, level float64, u measure.Units) string {
	if p.Lost != jar.Kept {
		return lossWords(p.Lost)
	}
	rise := u.FixedNumber(p.Rise, 2) + "×"
	if level > 0 {
		rise += ", " + u.Length().Write(p.Rise*level)
	}
	if p.Drawn {
		return lang.L("{{.Rise}}, as you drew it", map[string]any{"Rise": rise})
	}
	return lang.L("{{.Rise}}, give or take {{.SD}}", map[string]any{"Rise": rise, "SD": u.FormatNumber(2*p.SD, 2)})
}

// curveHeading says in words what a curve shows.
func curveHeading(c journal.SeriesCurve, from time.Time, u measure.Units) string {
	if p, ok := c.Curve().Peak(); ok {
		at := map[string]any{"Rise": u.Times().Write(p.Rise), "Span": u.Span(p.At.Sub(from).Round(time.Minute))}
		if p.Unseen {
			return lang.L("{{.Rise}} after {{.Span}}, estimated", at)
		}
		return lang.L("{{.Rise}} after {{.Span}}", at)
	}
	top := 0.0
	for _, p := range c.Points {
		top = max(top, p.Rise)
	}
	switch {
	case top == 0:
		return lang.L("Nothing could be read")
	case top < 1.1:
		return lang.L("It has not risen")
	}
	return lang.L("{{.Rise}}, with no peak to be seen yet", map[string]any{"Rise": u.Times().Write(top)})
}

// peakWords say between which moments it stood highest; nothing where there is no peak.
func peakWords(c journal.SeriesCurve, zone *time.Location, u measure.Units) string {
	p, ok := c.Curve().Peak()
	if !ok {
		return ""
	}
	at := map[string]any{"From": u.Clock(p.From.In(zone)), "To": u.Clock(p.To.In(zone))}
	if p.Unseen {
		return lang.L("It stood highest between {{.From}} and {{.To}}. For part of that time no picture shows the height, so the time and the height of the peak are estimates.", at)
	}
	return lang.L("It stood highest between {{.From}} and {{.To}}, as far as the pictures show.", at)
}

// lostWords count the pictures that say nothing.
func lostWords(c journal.SeriesCurve) string {
	n := map[jar.Loss]int{}
	for _, p := range c.Points {
		n[p.Lost]++
	}
	out := ""
	for _, l := range []struct {
		loss jar.Loss
		word string
	}{{jar.Covered, lang.L("covered")}, {jar.Dark, lang.L("too dark")}, {jar.Moved, lang.L("jar not found")}, {jar.Unsure, lang.L("not sure")}} {
		if n[l.loss] == 0 {
			continue
		}
		if out != "" {
			out += ", "
		}
		out += lang.L("{{.N}} {{.What}}", map[string]any{"N": n[l.loss], "What": l.word})
	}
	if out == "" {
		return lang.L("All of them could be read.")
	}
	return lang.L("The curve has gaps where it could not be seen: {{.What}}.", map[string]any{"What": out})
}
