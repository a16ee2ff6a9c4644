package pages

import (
	"context"
	"math"

	"fyne.io/fyne/v2/lang"

	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/crumb"
	"twinloaf/journal/measure"
)

// The size classes rise by the same ratio each, so that a chart shows them side by
// side, equally wide, with the diameters written at their edges.

// CrumbSeries is the sizes of the cells on one photo.
type CrumbSeries struct {
	Name  string
	Look  charts.SeriesStyle
	Sizes crumb.Summary
}

// CrumbSizes draws histograms and cumulative curves of one or more photos, or says that
// no sizes may be shown.
func CrumbSizes(all []CrumbSeries, u measure.Units) charts.Spec {
	lo, hi, ok := filled(all)
	if !ok {
		return charts.Plot{Empty: lang.L("No sizes can be shown: they are withheld.")}
	}
	edges := edgesOf(all[0].Sizes)
	unit := lang.L("mm")
	if all[0].Sizes.Relative {
		unit = lang.L("% of the slice's width")
	}
	x := charts.Axis{Title: lang.L("equivalent diameter, {{.Unit}}", map[string]any{"Unit": unit}),
		Min: float64(lo), Max: float64(hi), Whole: true,
		Format: func(v float64) string { return u.FormatNumber(edges[max(0, min(int(math.Round(v)), len(edges)-1))], 2) }}
	count := charts.Panel{Title: lang.L("Cells of each size"), Y: charts.Axis{Format: charts.Words{Locale: u.Locale()}.Percent, Include: []float64{0}}, Height: 1.1}
	sums := charts.Panel{Title: lang.L("Cells up to each size"), Y: charts.Axis{Format: charts.Words{Locale: u.Locale()}.Percent, Min: 0, Max: 1}}
	if len(all) > 1 {
		sums.Title = lang.L("Cells up to each size: drawn through by number, broken by area")
	}
	for _, s := range all {
		count.Layers = append(count.Layers, bins(s, lo, hi))
		sums.Layers = append(sums.Layers, curves(s, lo, hi, len(all) == 1)...)
	}
	return charts.Plot{X: x, Panels: []charts.Panel{count, sums}}
}

func edgesOf(s crumb.Summary) []float64 {
	var out []float64
	for _, c := range s.Sizes {
		out = append(out, c.From)
	}
	if n := len(s.Sizes); n > 0 {
		out = append(out, s.Sizes[n-1].To)
	}
	return out
}

// filled gives the edges between which any of the photos has cells, with an even
// number of classes between, so that round steps fit.
func filled(all []CrumbSeries) (lo, hi int, ok bool) {
	lo = math.MaxInt
	for _, s := range all {
		if s.Sizes.SizesTrust() == crumb.Withheld {
			return 0, 0, false
		}
		for i, c := range s.Sizes.Sizes {
			if c.Count > 0 {
				lo, hi, ok = min(lo, i), max(hi, i+1), true
			}
		}
	}
	if !ok {
		return 0, 0, false
	}
	if (hi-lo)%2 == 1 {
		if lo > 0 {
			lo--
		} else {
			hi++
		}
	}
	return lo, hi, true
}

func bins(s CrumbSeries, lo, hi int) charts.Bins {
	total := 0
	for _, c := range s.Sizes.Sizes {
		total += c.Count
	}
	out := charts.Bins{Name: s.Name, Look: s.Look}
	for i := lo; i <= hi; i++ {
		out.Edges = append(out.Edges, float64(i))
		if i < hi && i < len(s.Sizes.Sizes) {
			out.Counts = append(out.Counts, float64(s.Sizes.Sizes[i].Count)/float64(max(1, total)))
		} else if i < hi {
			out.Counts = append(out.Counts, 0)
		}
	}
	return out
}

// curves are the two cumulative curves: by number drawn through, by area broken.
func curves(s CrumbSeries, lo, hi int, alone bool) []charts.Layer {
	byNumber, byArea := s.Sizes.Cumulative()
	number := charts.Series{Name: joinWords(s.Name, lang.L("by number")), Look: s.Look, Draw: charts.Line, Quiet: !alone}
	area := charts.Series{Name: joinWords(s.Name, lang.L("by area")), Look: s.Look, Draw: charts.Line, Quiet: !alone}
	area.Look.Dashed = true
	for i := lo; i <= hi; i++ {
		n, a := 0.0, 0.0
		switch {
		case i > len(byNumber):
			n, a = 1, 1
		case i > 0:
			n, a = byNumber[i-1], byArea[i-1]
		}
		number.X, number.Y = append(number.X, float64(i)), append(number.Y, n)
		area.X, area.Y = append(area.X, float64(i)), append(area.Y, a)
	}
	return []charts.Layer{number, area}
}

func joinWords(a, b string) string {
	if a == "" {
		return b
	}
	return a + ", " + b
}

// OpenShare writes how open a crumb is, in per cent, with its uncertainty where that is
// known.
func OpenShare(f crumb.Measurement, u measure.Units) string {
	if f.Off > 0 {
		return WithUncertainty(100*f.Value, 100*f.Off, Places(100*f.Off, 1), u)
	}
	return u.FormatNumber(100*f.Value, 0)
}

// Places is how many figures after the point a figure has whose uncertainty is off: as many
// as the two figures that an uncertainty is given with (ISO/IEC Guide 98-3:2008, 7.2.6, from
// memory), and no more than most.
func Places(off float64, most int) int {
	return max(0, min(most, 1-int(math.Floor(math.Log10(off)))))
}

// WithUncertainty writes a figure and its uncertainty with as many figures after the point.
func WithUncertainty(v, off float64, decimals int, u measure.Units) string {
	return u.FixedNumber(v, decimals) + " ± " + Uncertainty(off, decimals, u)
}

// Uncertainty writes an uncertainty, rounded up, so that none is stated smaller than it is.
func Uncertainty(v float64, decimals int, u measure.Units) string {
	k := math.Pow10(decimals)
	return u.FixedNumber(math.Ceil(v*k-1e-9)/k, decimals)
}

// FitnessWord says in a word or two how far a crumb photo is fit for measuring.
func FitnessWord(s crumb.Summary) string {
	switch fit, _ := s.Fitness(); fit {
	case crumb.Fit:
		return lang.L("fit")
	case crumb.FitInPart:
		return lang.L("fit in part")
	}
	return lang.L("not fit")
}

// FitnessWords says it in a sentence, with what is wrong first and what to do about it.
func FitnessWords(s crumb.Summary, u measure.Units) string {
	fit, advice := s.Fitness()
	words := ""
	switch fit {
	case crumb.Fit:
		return lang.L("This photo is fit for measuring.")
	case crumb.FitInPart:
		words = lang.L("This photo is fit for measuring in part.")
	default:
		words = lang.L("This photo is not fit for measuring.")
	}
	if len(advice) > 0 {
		words += " " + u.Say(advice[0].Why)
		if do := advice[0].Do; !do.IsZero() {
			words += " " + u.Say(do)
		}
	}
	return words
}

// RateCrumb measures a crumb photo away from the main goroutine, unless its measures are kept,
// and hands over what came of it; false where it cannot be measured at all.
func RateCrumb(env *Env, id journal.ID, done func(crumb.Summary, bool)) {
	var s crumb.Summary
	ok := false
	env.Run(func(ctx context.Context) {
		ph, err := journal.Get[journal.Photo](env.Journal, id)
		if err != nil {
			return // it is gone: there is nothing to rate
		}
		if s, ok, err = journal.CrumbMeasures(env.Journal, ph); err == nil && ok {
			return
		}
		s, err = env.Journal.MeasureCrumb(ctx, id)
		ok = err == nil // why not is told where it is measured
	}, func() { done(s, ok) })
}
