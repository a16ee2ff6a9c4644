package crumb

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/charts"
)

// mostLead is how many figures are shown large.
const mostLead = 3

// leadFigures shows large the figures that say most: those that differ, then the first of the
// others that neither photo withholds; nil without any.
func leadFigures(rows []pairRow, looks [2]charts.SeriesStyle) fyne.CanvasObject {
	rows = slices.DeleteFunc(slices.Clone(rows), func(r pairRow) bool { return r.change == nothing })
	slices.SortStableFunc(rows, func(a, b pairRow) int {
		switch {
		case a.stands == b.stands:
			return 0
		case a.stands:
			return -1
		}
		return 1
	})
	var figures []fyne.CanvasObject
	for _, r := range rows[:min(mostLead, len(rows))] {
		one := kit.Stack(1, kit.NewText(kit.Span{Text: r.name, Bold: true}, kit.Span{Text: " " + r.unit, Size: look.TextSmall, Color: look.ColorFaint}))
		for i, figure := range []string{r.a, r.b} {
			one.Add(kit.Marked(looks[i], kit.NewLine(large(figure)...)))
		}
		said := r.change
		if r.verdict != "" {
			said += ", " + r.verdict
		}
		one.Add(kit.Faint(said))
		figures = append(figures, one)
	}
	if len(figures) == 0 {
		return nil
	}
	return kit.Columns(look.Space(50), figures...)
}

// large sets a figure large, and small what is said of its uncertainty.
func large(figure string) []kit.Span {
	at := strings.Index(figure, " ±")
	if at < 0 {
		at = strings.Index(figure, " (")
	}
	if at < 0 {
		at = len(figure)
	}
	return []kit.Span{{Text: figure[:at], Size: look.TextTitle, Bold: true}, {Text: figure[at:], Size: look.TextSmall, Color: look.ColorFaint}}
}
