// Package say holds sentences before they are put into a language. The
// computing rooms know what is to be said, and neither the language nor the
// units that the baker reads; they hand out a Line, the window looks its words
// up in the catalogue and writes the quantities as the baker wants them. In
// tests and on paper a Line says itself in English with metric units.
package say

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// With names what stands in a line: {"Loaf": "Harbour"} fills {{.Loaf}}. A
// value may be another Line, a quantity of this package, or anything that
// fmt.Sprint writes the same in every language.
type With map[string]any

// A Line is one thing said: a sentence, or a part of one. The zero Line says
// nothing.
type Line struct {
	// Text is the English, and the key in the catalogue. It is a template:
	// {{.Name}} stands for what With has under that name.
	Text string
	// One is the English for a count of one, or empty where nothing is
	// counted; Text is then for all other counts.
	One string
	// Count chooses between One and Text; it fills {{.N}}.
	Count int
	// Begins has the first letter written large.
	Begins bool
	With   With
}

// Of makes a line without a count.
func Of(text string, with ...With) Line { return Line{Text: text, With: merged(with)} }

// N makes a line that counts n of something. Both texts may hold {{.N}}.
func N(one, many string, n int, with ...With) Line {
	w := merged(with)
	if w == nil {
		w = With{}
	}
	w["N"] = n
	return Line{Text: many, One: one, Count: n, With: w}
}

func merged(with []With) With {
	switch len(with) {
	case 0:
		return nil
	case 1:
		return with[0]
	}
	all := With{}
	for _, w := range with {
		for name, value := range w {
			all[name] = value
		}
	}
	return all
}

// IsZero tells whether the line says nothing.
func (l Line) IsZero() bool { return l.Text == "" }

// String says the line in English with metric units.
func (l Line) String() string {
	return l.Fill(Locale{}.find, func(value any) string { return fmt.Sprint(value) })
}

// Fill says the line with the words that look gives for an English text and
// the spelling that write gives a value. Look is told the singular and the
// count too; the singular is empty where nothing is counted. Lines among the
// values are filled the same way and are not given to write.
func (l Line) Fill(look func(text, one string, n int) string, write func(any) string) string {
	if l.IsZero() {
		return ""
	}
	said := l.fill(look, write)
	if l.Begins && said != "" {
		return capital(said)
	}
	return said
}

func (l Line) fill(look func(text, one string, n int) string, write func(any) string) string {
	return Fill(look(l.Text, l.One, l.Count), func(name string) string {
		switch value := l.With[name].(type) {
		case nil:
			return ""
		case Line:
			return value.Fill(look, write)
		default:
			return write(value)
		}
	})
}

// Fill puts values in the place of their names in a template: {{.Name}} is what value
// gives for "Name". What a value holds is never taken for a template.
func Fill(text string, value func(name string) string) string {
	var b strings.Builder
	for {
		before, after, found := strings.Cut(text, "{{.")
		name, rest, closed := strings.Cut(after, "}}")
		if !found || !closed {
			b.WriteString(text)
			return b.String()
		}
		b.WriteString(before)
		b.WriteString(value(name))
		text = rest
	}
}

// And lists lines, names or quantities as a sentence does: "a, b and c".
func And[T any](items ...T) Line {
	switch len(items) {
	case 0:
		return Line{}
	case 1:
		return Of("{{.Only}}", With{"Only": items[0]})
	}
	most := Of("{{.Only}}", With{"Only": items[0]})
	for _, item := range items[1 : len(items)-1] {
		most = Of("{{.Some}}, {{.Next}}", With{"Some": most, "Next": item})
	}
	return Of("{{.Some}} and {{.Last}}", With{"Some": most, "Last": items[len(items)-1]})
}

// Join says sentences one after the other and leaves out those that say nothing.
func Join(lines ...Line) Line {
	var all Line
	for _, l := range lines {
		switch {
		case l.IsZero():
		case all.IsZero():
			all = l
		default:
			all = Of("{{.Before}} {{.After}}", With{"Before": all, "After": l})
		}
	}
	return all
}

// Begin gives the line as the beginning of a sentence: its first letter is
// written large once it is in the reader's language.
func Begin(l Line) Line {
	l.Begins = true
	return l
}

func capital(s string) string {
	first, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(first)) + s[size:]
}

// Printable writes a name from outside, such as a file's, without what no line of text
// can show.
func Printable(name string) string {
	quoted := strconv.Quote(name)
	return quoted[1 : len(quoted)-1]
}
