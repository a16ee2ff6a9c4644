package cultures

import (
	"errors"
	"math"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/charts"
	"twinloaf/journal/ferment"
)

// A rise is one feeding with the curve fitted to its readings.
type rise struct {
	course ferment.Course
	fit    ferment.RiseFit
	// none is why there is no curve; nil if there is one.
	none     error
	forecast ferment.Forecast
	unknown  error
	current  bool // the culture is still in it
}

// riseOf fits a feeding.
func riseOf(c ferment.Course) rise {
	r := rise{course: c}
	r.fit, r.none = ferment.FitRise(ferment.RisePoints(c), ferment.BaselineMark)
	return r
}

// riseHeading says in words what the readings show.
func riseHeading(r rise, u kit.Units) string {
	var few *ferment.TooFewError
	switch {
	case errors.As(r.none, &few):
		n := few.Want - few.Have
		if n <= 1 {
			return lang.L("Wants one more reading")
		}
		return lang.L("Wants {{.N}} more readings", map[string]any{"N": n})
	case errors.Is(r.none, ferment.ErrNoRise):
		return lang.L("It has not risen")
	case r.none != nil:
		return lang.L("No curve can be drawn")
	}
	data := map[string]any{"Rise": times(u, 1+r.fit.Peak.Value), "Hours": u.FormatNumber(r.fit.PeakTime.Value, 1)}
	if !r.fit.PeakSeen {
		return lang.L("Still climbing")
	}
	return lang.L("{{.Rise}} after {{.Hours}} h", data)
}

// riseWords explain the heading.
func riseWords(r rise, u kit.Units) string {
	if r.none != nil {
		return u.Why(r.none)
	}
	s := lang.L("The curve is a {{.Shape}}, fitted by least squares to {{.N}} readings.", map[string]any{"Shape": u.Say(r.fit.Best.Curve.Shape.Line()), "N": len(r.fit.Used)})
	if r.fit.Other != nil {
		s = joined(s, lang.L("Of the two shapes tried it is the one with the lower AICc."))
	}
	if r.fit.Collapsed() {
		s = joined(s, lang.L("Readings after it fell are shown hollow and left out: {{.N}}.", map[string]any{"N": len(r.fit.LeftOut)}))
	}
	if r.fit.FellBefore {
		s = joined(s, lang.L("It fell while the curve was still climbing: the highest reading is taken for the peak."))
	}
	if !r.fit.PeakSeen {
		s = joined(s, lang.L("The peak lies ahead of the last reading."))
	}
	return s
}

// A figure is one number of a rise with its interval.
type figure struct{ label, value, unit, origin, derived string }

// figuresOf reads the figures off a fit.
func figuresOf(f ferment.RiseFit, u kit.Units) []figure {
	number := func(e ferment.Estimate, add float64, digits int) (value, origin string) {
		value = u.FormatNumber(e.Value+add, digits)
		if e.SEKnown {
			origin = lang.L("{{.Low}} to {{.High}}", map[string]any{"Low": u.FormatNumber(e.Low+add, digits), "High": u.FormatNumber(e.High+add, digits)})
		}
		return value, origin
	}
	interval := lang.L("The interval holds the true figure in 95 of 100 such fits, if readings scatter alike.")
	var out []figure
	add := func(label string, e ferment.Estimate, plus float64, digits int, unit, how string) {
		value, origin := number(e, plus, digits)
		out = append(out, figure{label, value, unit, origin, joined(how, interval)})
	}
	add(lang.L("Peak"), f.Peak, 1, 2, "×", lang.L("The plateau of the curve, as the height over the mark."))
	add(lang.L("Peak after"), f.PeakTime, 0, 1, "h", lang.L("Hours until the curve is within 5 % of its plateau."))
	add(lang.L("Lag"), f.Lag, 0, 1, "h", lang.L("Hours until it rises in earnest: where the steepest tangent meets the mark."))
	add(lang.L("Greatest rate"), f.Rate, 0, 2, lang.L("of the mark an hour"), lang.L("The steepest slope of the curve."))
	ripe := u.FormatNumber(f.RipeHours, 1)
	how := lang.L("Hours above 90 % of the peak.")
	if f.RipeOpen {
		ripe = lang.L("at least {{.N}}", map[string]any{"N": ripe})
		how = joined(how, lang.L("It had not fallen by the last reading."))
	}
	return append(out, figure{lang.L("Near its peak"), ripe, "h", "", how})
}

// riseChart draws the heights over the hours since a feeding, with the fitted curve
// and, for the feeding that the culture is in, what is expected of it.
func riseChart(r rise, look charts.Look, name string, u kit.Units) charts.Plot {
	panel := charts.Panel{Title: lang.L("Height over the mark"), Y: charts.Axis{Format: u.ChartWords().Times, Include: []float64{1, 2}}}
	hoursOf := func(t time.Time) float64 { return t.Sub(r.course.Feeding.At).Hours() }
	if r.current && r.unknown == nil && len(r.forecast.Band) > 0 {
		band := charts.Ribbon{Name: lang.L("expected"), Look: charts.Look{Hue: charts.Faint}}
		for _, b := range r.forecast.Band {
			band.X = append(band.X, hoursOf(b.At))
			band.Low, band.High = append(band.Low, float64(b.Low)), append(band.High, float64(b.High))
		}
		panel.Layers = append(panel.Layers, band)
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
		panel.Layers = append(panel.Layers, curve,
			charts.Band{From: r.fit.RipeFrom.Value, To: math.Max(r.fit.RipeTo, r.fit.RipeFrom.Value+0.01), Label: lang.L("near its peak")})
	}
	panel.Layers = append(panel.Layers, points)
	return charts.Plot{X: charts.Axis{Title: lang.L("hours since the feeding"), Include: []float64{0}}, Panels: []charts.Panel{panel},
		Empty: lang.L("No height has been recorded since this feeding.")}
}
