// Package recipe writes a formula as a schema.org Recipe in JSON-LD, and reads one: from
// such a file, or from a page saved as HTML that carries one in a script element of
// type application/ld+json.
//
// Source of the names: the vocabulary of schema.org (Recipe, HowTo, HowToSection,
// HowToStep, HowToDirection, HowToTip, QuantitativeValue), JSON-LD 1.1 for @context,
// @graph and @type, and ISO 8601 for durations. All from memory: nothing was fetched.
//
// A file from elsewhere is read as far as it is understood: what has no weight, and
// members that are not known here, are handed over as words, so that nothing that was
// written is lost without a word.
package recipe

import (
	"time"

	"twinloaf/journal/formula"
	"twinloaf/journal/say"
)

// Recipe is a formula as others read it. The zero value is an empty one.
type Recipe struct {
	Name        string
	Description string // with paragraphs, if any
	Yield       string // "2 loaves of 900 g"
	Loaves      int    // how many the yield names; 0 when it does not
	Lines       []Line
	Steps       []Step
	Total       time.Duration // from the first step to the bread; 0 when not told
	// Notes are what was read and has no place of its own: "author: Ines".
	Notes []string
	// Left is how many more such there were than Notes may hold.
	Left int
}

// Line is an ingredient.
type Line struct {
	Name  string
	Grams formula.Grams
	// Part is the levain that it is for, empty for the final dough.
	Part string
	// Text is the line as it was read; where Weighed is false it is all that is known.
	Text    string
	Weighed bool
}

// Step is one thing to do. Part is the section that it stands under.
type Step struct {
	Part, Name, Text string
	Length           time.Duration // 0 when not told
}

// The kinds of refusal, to tell with errors.Is.
var (
	ErrNotJSON  = say.NewError("the file is neither JSON nor a page with a recipe in it")
	ErrNoRecipe = say.NewError("no recipe is in the file (a Recipe in the words of schema.org)")
	ErrTooLong  = say.NewError("the file is longer than 16 MB, more than a recipe can need")
)
