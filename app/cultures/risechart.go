package cultures

import (
	"errors"
	"math"
	"slices"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/charts"
	"twinloaf/journal/ferment"
	"twinloaf/journal/measure"
)

// A rise is one feeding with the curve fitted to its readings.
type rise struct {
	course ferment.Course
	fit    ferment.RiseFit
	// none is why no growth curve was fitted; nil if one was.
	none error
	// forecast is what is expected of the feeding that the culture is in, or what the
	// readings tell of one that is over; unknown is why there is none.
	forecast ferment.Forecast
	unknown  error
	current  bool // the culture is still in it
}

// told says that the readings of a feeding tell of its whole rise: it is over, or was
// read after its peak.
func (r rise) told() bool {
	if r.unknown != nil || r.forecast.Readings == 0 {
		return false
	}
	past := func(seen ferment.Reading) bool { return seen.Rise > 0 && seen.At.After(r.forecast.Peak.High) }
	return !r.current || slices.ContainsFunc(r.course.Readings, past)
}

// riseOf fits a feeding.
func riseOf(c ferment.Course) rise {
	r := rise{course: c}
	r.fit, r.none = ferment.FitRise(ferment.RisePoints(c))
	return r
}

// expected says that more is foretold of the feeding than its readings show.
func (r rise) expected() bool {
	return r.current && r.unknown == nil && r.forecast.Readings > 0 && !r.told()
}

// riseHeading says in words what the readings show.
func riseHeading(r rise, u measure.Units) string {
	var few *ferment.TooFewError
	switch {
	case r.told():
		hours := r.forecast.Peak.Mid.Sub(r.forecast.Fed).Hours()
		return lang.L("{{.Rise}} after {{.Hours}} h", map[string]any{"Rise": u.Times().Write(float64(r.forecast.PeakRise.Mid)), "Hours": u.FormatNumber(hours, 1)})
	case r.expected():
		return lang.L("Still climbing")
	case errors.As(r.none, &few):
		n := few.Want - few.Have
		if n <= 1 {
			return lang.L("Needs one more reading")
		}
		return lang.L("Needs {{.N}} more readings", map[string]any{"N": n})
	case errors.Is(r.none, ferment.ErrNoRise):
		return lang.L("It has not risen")
	case r.none != nil:
		return lang.L("No curve can be drawn")
	}
	return lang.L("Still climbing")
}

// riseWords explain the heading.
func riseWords(r rise, u measure.Units) string {
	told := ""
	if r.told() {
		told = lang.L("The shaded band is where the rise lay, by the readings and by how the culture rose before; in the darker stretch it was ripe, above 90 % of its height.")
	}
	if r.expected() {
		told = lang.L("The shaded band is made to hold the rise eight times in ten; in the darker stretch it is ripe, above 90 % of its height.")
	}
	switch {
	case r.none != nil && told != "":
		return told
	case r.none != nil:
		return u.ErrorText(r.none)
	}
	s := lang.L("The curve is a {{.Shape}}, fitted by least squares to {{.N}} readings.", map[string]any{"Shape": u.Say(r.fit.Best.Curve.Shape.Line()), "N": len(r.fit.Used)})
	switch other := r.fit.Other; {
	case other == nil:
	case other.AICcKnown && r.fit.Best.AICcKnown:
		s = joined(s, lang.L("Of the two shapes tried it is the one with the lower AICc."))
	default: // with so few readings there is none
		s = joined(s, lang.L("Of the two shapes tried it lies closer to the readings."))
	}
	if r.fit.Collapsed() {
		s = joined(s, lang.L("Readings after it fell are shown hollow and left out: {{.N}}.", map[string]any{"N": len(r.fit.LeftOut)}))
	}
	return joined(told, s)
}

// A metric is one number of a rise with its interval.
type metric struct{ label, value, unit, origin, derived string }

// metricsOf reads the figures of a rise.
func metricsOf(r rise, u measure.Units) []metric {
	var out []metric
	if r.told() {
		f := r.forecast
		how := lang.L("The interval is made to hold the true figure eight times in ten.")
		after := func(t time.Time) string { return u.FormatNumber(t.Sub(f.Fed).Hours(), 1) }
		span := func(low, high string) string {
			return lang.L("{{.Low}} to {{.High}}", map[string]any{"Low": low, "High": high})
		}
		rise := func(r ferment.Rise) string { return u.Times().Write(float64(r)) }
		out = append(out,
			metric{lang.L("Peak"), rise(f.PeakRise.Mid), "", span(rise(f.PeakRise.Low), rise(f.PeakRise.High)), joined(lang.L("The greatest height over the mark."), how)},
			metric{lang.L("Peak after"), after(f.Peak.Mid), "h", span(after(f.Peak.Low), after(f.Peak.High)), joined(lang.L("Hours until it stood highest."), how)},
			metric{lang.L("Ripe for"), u.FormatNumber(f.RipeTo.Mid.Sub(f.RipeFrom.Mid).Hours(), 1), "h", "", lang.L("Hours above 90 % of its greatest rise.")})
	}
	if r.none != nil {
		return out
	}
	interval := lang.L("The interval holds the true figure in about 95 of 100 such fits, if readings scatter alike.")
	add := func(label string, e ferment.Estimate, digits int, unit, how string) {
		origin := ""
		if e.SEKnown {
			origin = lang.L("{{.Low}} to {{.High}}", map[string]any{"Low": u.FormatNumber(e.Low, digits), "High": u.FormatNumber(e.High, digits)})
		}
		out = append(out, metric{label, u.FormatNumber(e.Value, digits), unit, origin, joined(how, interval)})
	}
	add(lang.L("Lag"), r.fit.Lag, 1, "h", lang.L("Hours until it rises in earnest: where the steepest tangent meets the mark."))
	add(lang.L("Greatest rate"), r.fit.Rate, 2, lang.L("of the mark an hour"), lang.L("The steepest slope of the curve."))
	return out
}

// riseChart draws the heights over the hours since a feeding, with the fitted curve
// and, for the feeding that the culture is in, what is expected of it.
func riseChart(r rise, look charts.SeriesStyle, name string, u measure.Units) charts.Plot {
	panel := charts.Panel{Title: lang.L("Height over the mark"), Y: charts.Axis{Ratio: true, Include: []float64{1, 2}}}
	hoursOf := func(t time.Time) float64 { return t.Sub(r.course.Feeding.At).Hours() }
	if known := r.current && r.unknown == nil || r.told(); known && len(r.forecast.Band) > 0 {
		words := lang.L("expected")
		if !r.current {
			words = lang.L("by the readings")
		}
		band := charts.Ribbon{Name: words, Look: charts.SeriesStyle{Hue: charts.Faint}}
		mid := charts.Series{Name: words, Look: charts.SeriesStyle{Hue: charts.Faint, Dashed: true}, Draw: charts.Line, Quiet: true}
		for _, b := range r.forecast.Band {
			band.X = append(band.X, hoursOf(b.At))
			band.Low, band.High = append(band.Low, float64(b.Low)), append(band.High, float64(b.High))
			mid.X, mid.Y = append(mid.X, hoursOf(b.At)), append(mid.Y, float64(b.Mid))
		}
		panel.Layers = append(panel.Layers,
			charts.Band{From: hoursOf(r.forecast.RipeFrom.Mid), To: hoursOf(r.forecast.RipeTo.Mid), Label: lang.L("ripe")}, band, mid,
			charts.Series{Name: lang.L("peak"), Look: charts.SeriesStyle{Hue: charts.Ink, Shape: charts.Diamond, Hollow: true}, // named where it lies
				X: []float64{hoursOf(r.forecast.Peak.Mid)}, Y: []float64{float64(r.forecast.PeakRise.Mid)}})
		panel.Y.Include = append(panel.Y.Include, 1.12*slices.Max(band.High)) // room for the word over the band
	}
	last := 0.0
	points := charts.Series{Name: lang.L("readings"), Look: look, Draw: charts.Points, Quiet: true}
	left := map[float64]bool{}
	for _, p := range r.fit.LeftOut {
		left[p.Hours] = true
	}
	for _, p := range ferment.RisePoints(r.course) {
		points.X, points.Y = append(points.X, p.Hours), append(points.Y, 1+p.Height)
		points.LeftOut = append(points.LeftOut, left[p.Hours])
		last = max(last, p.Hours)
	}
	if r.none == nil {
		curve := charts.Series{Name: name, Look: look, Draw: charts.Line, Quiet: true}
		curve.Look.Dashed = false
		to := last
		for _, p := range r.fit.LeftOut {
			to = min(to, p.Hours) // the curve says nothing of the fall
		}
		const steps = 120
		for i := range steps + 1 {
			h := math.Max(to, 0.1) * float64(i) / steps
			curve.X, curve.Y = append(curve.X, h), append(curve.Y, 1+r.fit.Best.Curve.At(h))
		}
		panel.Layers = append(panel.Layers, curve)
	}
	panel.Layers = append(panel.Layers, points)
	panels := []charts.Panel{panel}
	acid := charts.Series{Name: lang.L("pH"), Look: look, Draw: charts.Points, Quiet: true}
	for _, seen := range r.course.Readings {
		if seen.PH > 0 && !seen.At.Before(r.course.Feeding.At) {
			acid.X, acid.Y = append(acid.X, hoursOf(seen.At)), append(acid.Y, seen.PH)
		}
	}
	if len(acid.X) > 0 {
		panels = append(panels, charts.Panel{Title: lang.L("pH"), Y: charts.Axis{Include: []float64{4}}, Layers: joinedUp(acid)})
	}
	if sour, ok := acidityPanel(r.course, look); ok {
		panels = append(panels, sour)
	}
	return charts.Plot{X: charts.Axis{Title: lang.L("hours since the feeding"), Include: []float64{0}}, Panels: panels,
		Empty: lang.L("No height has been recorded since this feeding.")}
}

// acidityPanel draws the titrations of a feeding that were made alike: as its first that
// says of what sample and to what pH; false if there is none.
func acidityPanel(c ferment.Course, look charts.SeriesStyle) (charts.Panel, bool) {
	points := charts.Series{Name: lang.L("acidity"), Look: look, Draw: charts.Points, Quiet: true}
	var first ferment.Titration
	for _, seen := range c.Readings {
		ml, ok := seen.Acid.PerTenGrams()
		if !ok || ml == 0 || seen.At.Before(c.Feeding.At) || first.Sample > 0 && first.EndPoint != seen.Acid.EndPoint {
			continue
		}
		if first.Sample == 0 {
			first = seen.Acid
		}
		points.X, points.Y = append(points.X, seen.At.Sub(c.Feeding.At).Hours()), append(points.Y, ml)
	}
	if len(points.X) == 0 {
		return charts.Panel{}, false
	}
	return charts.Panel{Title: lang.L("Acidity, ml of 0.1 M NaOH per 10 g"), Y: charts.Axis{Include: []float64{0}}, Layers: joinedUp(points)}, true
}

// joinedUp draws points, and the line through them where there are several.
func joinedUp(points charts.Series) []charts.Layer {
	if len(points.X) < 2 {
		return []charts.Layer{points}
	}
	line := points
	line.Draw = charts.Line
	return []charts.Layer{line, points}
}
