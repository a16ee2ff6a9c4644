// Package charts turns plain series of numbers, with their names and units,
// into pictures: an image in device pixels for a screen, a PNG or an SVG for a
// file, a CSV table of the same figures, and a sentence for whoever cannot see
// the picture.
//
// A picture starts as a figure, a plain value that says what is to be shown:
//
//   - Plot: panels of layers over one shared X axis (numbers or time)
//   - Bars, Spark: amounts by name, and a tiny histogram without axes
//   - Groups, Slopes, Pairs: every value of several groups, scores in pairs
//   - Lanes: blocks and ticks along time, one lane under the other
//   - Calendar: a year, day by day
//
// New checks a figure once and for all; what it returns can always be drawn:
//
//	chart, err := charts.New(charts.Plot{
//		X: charts.Axis{Title: "day of age", Whole: true},
//		Panels: []charts.Panel{{
//			Title:  "Peak rise after each feeding",
//			Y:      charts.Axis{Ratio: true, Include: []float64{1}},
//			Layers: []charts.Layer{charts.Series{Name: "First", X: days, Y: rises}},
//		}},
//	}, style)
//
// A value that is missing is written NaN and leaves a gap. Infinite values,
// and values beyond a million billion, count as missing. What lies outside an
// axis of fixed range is cut off at the edge of the panel.
//
// The rasteriser is that of go-chart. Its ready-made charts are not used: they
// have no gaps, no clipping, no marker shapes and no hit testing, and they hang
// on a NaN; nor is its SVG writer, which knows whole units only.
package charts
