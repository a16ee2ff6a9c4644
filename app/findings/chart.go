package findings

import (
	"math"
	"slices"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/pages"
	"twinloaf/app/past"
	"twinloaf/charts"
	"twinloaf/journal/measure"
)

// chartOf draws every bake as a point, with the trend or the medians. pointOf turns
// a mark of it into a row of the record.
func chartOf(r *past.BakeIndex, a answer, u measure.Units) (figure charts.Spec, pointOf func(charts.Mark) (row int, ok bool)) {
	y := charts.Axis{Title: a.outcome.Axis(), Format: a.outcome.Measure.Format}
	if a.outcome.Key.IsScore() {
		y.Min, y.Max, y.Whole = 1, 9, true
	}
	if a.x == nil {
		return groupsOf(r, a, y)
	}
	rows := a.rows
	px, py, notes := make([]float64, len(rows)), make([]float64, len(rows)), make([]string, len(rows))
	for i, row := range rows {
		px[i], py[i] = a.x[row], a.y[row]
		notes[i] = past.Name(r.Bakes[row].Name) + ", " + u.Day(r.Bakes[row].At, r.Bakes[row].At)
	}
	bakes := lang.L("bakes")
	var layers []charts.Layer // the bakes last, so that they lie above the line
	if t := a.trend; !a.few && len(px) > 0 {
		low, high := slices.Min(px), slices.Max(px)
		look := charts.SeriesStyle{Hue: charts.Accent}
		if t.Limits.Level > 0 {
			layers = append(layers, wedge(px, py, t.Limits.Lower, t.Limits.Upper, look))
		}
		layers = append(layers, charts.Series{Name: lang.L("trend"), Look: look, Draw: charts.Line, Mute: true,
			X: []float64{low, high}, Y: []float64{t.Intercept + t.Slope*low, t.Intercept + t.Slope*high}})
	}
	layers = append(layers, charts.Series{Name: bakes, Look: charts.SeriesStyle{Hue: charts.Ink}, X: px, Y: py, Draw: charts.Points, Quiet: true, Piled: true, Notes: notes})
	plot := charts.Plot{
		X:      charts.Axis{Title: a.factor.Axis(), Format: a.factor.Measure.Format},
		Panels: []charts.Panel{{Y: y, Layers: layers}},
		Empty:  lang.L("No bake has both figures."),
	}
	return plot, func(m charts.Mark) (int, bool) {
		if m.Series != bakes || m.Index < 0 || m.Index >= len(rows) {
			return 0, false
		}
		return rows[m.Index], true
	}
}

// wedge is the band of the slopes within the limits, turned about the middle of the
// points.
func wedge(x, y []float64, lower, upper float64, look charts.SeriesStyle) charts.Ribbon {
	mx, my := middle(x), middle(y)
	const steps = 24
	low, high := slices.Min(x), slices.Max(x)
	out := charts.Ribbon{Name: lang.L("within the limits of the slope"), Look: look}
	for i := range steps + 1 {
		at := low + (high-low)*float64(i)/steps
		a, b := my+lower*(at-mx), my+upper*(at-mx)
		out.X = append(out.X, at)
		out.Low, out.High = append(out.Low, math.Min(a, b)), append(out.High, math.Max(a, b))
	}
	return out
}

func middle(list []float64) float64 {
	sorted := slices.Sorted(slices.Values(list))
	n := len(sorted)
	return (sorted[(n-1)/2] + sorted[n/2]) / 2
}

// groupLook is the mark of a culture where the groups are cultures, and otherwise the
// same for all.
func groupLook(r *past.BakeIndex, a answer, name string) charts.SeriesStyle {
	if m, ok := r.Marks[name]; ok && a.factor.Key == byCulture {
		return pages.LookOfMark(m)
	}
	return charts.SeriesStyle{Hue: charts.Accent}
}

// mostGroups is how many groups are drawn.
const mostGroups = 8

func groupsOf(r *past.BakeIndex, a answer, y charts.Axis) (charts.Spec, func(charts.Mark) (int, bool)) {
	rows := map[string][]int{}
	values := map[string][]float64{}
	for _, row := range a.rows {
		name := a.factor.words[row]
		rows[name] = append(rows[name], row)
		values[name] = append(values[name], a.y[row])
	}
	figure := charts.Groups{Y: y, Empty: lang.L("No bake has both figures.")}
	for i, g := range a.groups.Groups {
		if i == mostGroups {
			break
		}
		figure.Groups = append(figure.Groups, charts.Group{Name: g.Name, Look: groupLook(r, a, g.Name), Values: values[g.Name]})
	}
	return figure, func(m charts.Mark) (int, bool) {
		list := rows[m.Series]
		if m.Index < 0 || m.Index >= len(list) {
			return 0, false
		}
		return list[m.Index], true
	}
}
