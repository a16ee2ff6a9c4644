// Package sheet prints a formula and a plan on paper for the kitchen: a PDF
// with large type, boxes to tick, embedded fonts and real text.
package sheet

import (
	"io"
	"time"

	"twinloaf/journal/formula"
	"twinloaf/journal/paper"
	"twinloaf/journal/plan"
	"twinloaf/journal/say"
)

// Sheet is what stands on the paper. Every word is handed in, or put into the
// baker's language by [Style.Say].
type Sheet struct {
	Title    string
	Subtitle string
	// Tables are the builds of the levains and the final dough, each under its
	// name.
	Tables []formula.Table
	// Total is what the last row of a table is called.
	Total string
	// Figures stand in one line under the tables.
	Figures []Fact
	// PlanTitle stands above Moments.
	PlanTitle string
	Moments   []plan.Moment
	// Notes stand at the end, one paragraph each: allergens, cautions.
	Notes []string
}

// Fact is a name with its value, such as "Hydration" and "72 %".
type Fact struct{ Name, Value string }

// Style is how figures are put into words, and what the paper is like. Say puts
// what a moment is called into the baker's language. None may be nil.
type Style struct {
	// Paper is the fonts and the size of the paper; its scale is chosen here.
	Paper   paper.Style
	Clock   func(time.Time) string
	Day     func(time.Time) string
	Weight  func(formula.Grams) string
	Percent func(formula.Percent) string
	Say     func(say.Line) string
}

// The sizes that are tried, the largest first, to get the sheet on one page. It is
// read from the bench, at arm's length and more.
var sizes = []float64{1.25, 1.18, 1.1, 1.03}

// Write prints the sheet to w as a PDF: on one page if it fits with type a
// little smaller, else on as many as it needs.
func Write(w io.Writer, s Sheet, l Style) error {
	for _, size := range sizes {
		if p := lay(s, l, size); !p.page.OK() || p.page.Pages() == 1 {
			return p.page.Write(w)
		}
	}
	return lay(s, l, sizes[0]).page.Write(w)
}
