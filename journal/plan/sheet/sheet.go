// Package sheet prints a formula and a plan on paper for the kitchen: a PDF
// with large type, boxes to tick, embedded fonts and real text.
package sheet

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"time"

	"twinloaf/journal/formula"
	"twinloaf/journal/plan"
	"twinloaf/journal/say"
)

// Sheet is what stands on the paper. Every word is handed in, or put into the
// baker's language by [Look.Say].
type Sheet struct {
	Title    string
	Subtitle string
	// Tables are the builds of the levains and the final dough, each under its
	// name.
	Tables []formula.Table
	// Total is what the last row of a table is called.
	Total string
	// Figures stand in one line under the tables.
	Figures []Figure
	// PlanTitle stands above Moments.
	PlanTitle string
	Moments   []plan.Moment
	// Notes stand at the end, one paragraph each: allergens, cautions.
	Notes []string
}

// Figure is a name with its value, such as "Hydration" and "72 %".
type Figure struct{ Name, Value string }

// Fonts are TrueType files.
type Fonts struct{ Text, Bold, Heading []byte }

// Paper is a size of paper.
type Paper string

// The sizes of paper.
const (
	A4     Paper = "A4"
	Letter Paper = "Letter"
)

// Look is how figures are put into words, and what the paper is like. Clock,
// Day, Weight and Percent have defaults: "15:04", "Saturday 28 November",
// "1234 g" and "67.5 %". Say puts what a moment is called into the baker's
// language; nil says it in English.
type Look struct {
	Fonts   Fonts
	Paper   Paper // A4 when empty
	Clock   func(time.Time) string
	Day     func(time.Time) string
	Weight  func(formula.Grams) string
	Percent func(formula.Percent) string
	Say     func(say.Line) string
	// Made is when the file was made, for its properties.
	Made time.Time
}

// ErrNoFonts is returned when a font is missing or is no TrueType font: without
// its own fonts a PDF could not hold every letter.
var ErrNoFonts = errors.New("a font is missing or is no TrueType font")

// Write prints the sheet to w as a PDF: on one page if it fits with type a
// little smaller, else on as many as it needs.
func Write(w io.Writer, s Sheet, l Look) error {
	for _, font := range [][]byte{l.Fonts.Text, l.Fonts.Bold, l.Fonts.Heading} {
		if !bytes.HasPrefix(font, []byte{0, 1, 0, 0}) {
			return fmt.Errorf("print %q: %w", s.Title, ErrNoFonts)
		}
	}
	if err := lay(s, l.withDefaults()).pdf.Output(w); err != nil {
		return fmt.Errorf("print %q: %w", s.Title, err)
	}
	return nil
}

func (l Look) withDefaults() Look {
	if l.Paper == "" {
		l.Paper = A4
	}
	if l.Clock == nil {
		l.Clock = func(t time.Time) string { return t.Format("15:04") }
	}
	if l.Say == nil {
		l.Say = say.Line.String
	}
	if l.Day == nil {
		l.Day = func(t time.Time) string { return t.Format("Monday 2 January") }
	}
	if l.Weight == nil {
		l.Weight = weight
	}
	if l.Percent == nil {
		l.Percent = func(p formula.Percent) string { return fmt.Sprintf("%.1f %%", float64(p)) }
	}
	return l
}

// weight shows tenths of a gram only where a kitchen scale could matter.
func weight(g formula.Grams) string {
	if g < 10 {
		return fmt.Sprintf("%.1f g", float64(g))
	}
	return fmt.Sprintf("%.0f g", float64(g))
}
