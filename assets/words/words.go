// Package words holds the catalogue of what the window says, and says it. The key of an
// entry is the English itself, so that English needs entries only for what is counted;
// every other language is a file of its own beside it (see catalogue/README.md). What a
// language does not have is said in English.
package words

import (
	"cmp"
	"embed"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"sync/atomic"

	"github.com/jeandeaual/go-locale"
	"golang.org/x/text/feature/plural"
	"golang.org/x/text/language"
)

//go:embed catalogue/*.json
var files embed.FS

// A Language is one that the window can speak.
type Language struct {
	Tag    string // of its file: "de"
	Name   string // as those call it who speak it
	Locale string // whose numbers, clock and dates go with it where the computer speaks another
	// Capitals says that nouns keep their capital within a sentence.
	Capitals bool
}

// Languages lists every language that has a file, English first.
func Languages() []Language {
	return []Language{
		{Tag: "en", Name: "English", Locale: "en-GB"},
		{Tag: "de", Name: "Deutsch", Locale: "de-DE", Capitals: true},
	}
}

// A Catalogue says the window's words in one language.
type Catalogue struct {
	tag     language.Tag
	entries map[string]entry
}

// An entry is one message: one form for each plural category of the Unicode CLDR that the
// language has. What is not counted has the last alone.
type entry struct {
	ID    string `json:"id"`
	Zero  string `json:"zero"`
	One   string `json:"one"`
	Two   string `json:"two"`
	Few   string `json:"few"`
	Many  string `json:"many"`
	Other string `json:"other"`
}

// Read reads the catalogue of a language. Errors tell of JSON that is none, an entry
// without words, and a tag that names no language.
func Read(tag string, data []byte) (*Catalogue, error) {
	t, err := language.Parse(tag)
	if err != nil {
		return nil, fmt.Errorf("reading the catalogue of %q: %w", tag, err)
	}
	var list []entry
	if err := json.Unmarshal(data, &list); err != nil {
		return nil, fmt.Errorf("reading the catalogue of %s: %w", tag, err)
	}
	c := &Catalogue{tag: t, entries: make(map[string]entry, len(list))}
	for _, e := range list {
		if e.ID == "" || e.Other == "" {
			return nil, fmt.Errorf("reading the catalogue of %s: %q has no words", tag, e.ID)
		}
		c.entries[e.ID] = e
	}
	return c, nil
}

// text finds the words for an English text; itself where there are none, or no catalogue.
func (c *Catalogue) text(english string) string {
	if c == nil {
		return english
	}
	if e, ok := c.entries[english]; ok {
		return e.Other
	}
	return english
}

// counted finds the words for n of what an English text counts.
func (c *Catalogue) counted(english string, n int) string {
	if c == nil {
		return english
	}
	e, ok := c.entries[english]
	if !ok {
		return english
	}
	form := e.Other
	abs := n
	if abs < 0 {
		abs = -abs
	}
	switch plural.Cardinal.MatchPlural(c.tag, abs, 0, 0, 0, 0) {
	case plural.Zero:
		form = e.Zero
	case plural.One:
		form = e.One
	case plural.Two:
		form = e.Two
	case plural.Few:
		form = e.Few
	case plural.Many:
		form = e.Many
	}
	return cmp.Or(form, e.Other)
}

// Capitals says whether nouns keep their capital within a sentence of the language in use.
func Capitals() bool {
	c := spoken.Load()
	return c != nil && slices.ContainsFunc(Languages(), func(l Language) bool { return l.Capitals && l.Tag == c.tag.String() })
}

// spoken is the catalogue in use, one for the whole program as the toolkit's own is. It
// can change while the program runs.
var spoken atomic.Pointer[Catalogue]

// Use has the window's words come from this catalogue from now on. What is on the screen
// already stays as it is.
func (c *Catalogue) Use() { spoken.Store(c) }

// L says an English text in the language in use, filled with the first of data, a map
// from names to values. It stands in the place of the toolkit's function of that name.
func L(english string, data ...any) string { return fill(spoken.Load().text(english), data) }

// N says n of what an English text counts, likewise.
func N(english string, n int, data ...any) string {
	return fill(spoken.Load().counted(english, n), data)
}

// Find gives the words for an English text, or for n of what it counts, in the language
// in use, for a [say.Locale] to fill: one is the English for a count of one, or empty.
func Find(text, one string, n int) string {
	switch c := spoken.Load(); {
	case one == "":
		return c.text(text)
	case c == nil && n == 1:
		return one
	default:
		return c.counted(text, n)
	}
}

// InUse gives the tag of the catalogue in use; empty before there is one.
func InUse() string {
	if c := spoken.Load(); c != nil {
		return c.tag.String()
	}
	return ""
}

// Load has the window speak as the computer does. Call it before the window is made.
func Load() error { return Speak("") }

// Speak has the window speak a language; an empty tag, or one that no file has, is the
// computer's, or else English.
func Speak(tag string) error {
	l := Spoken(tag)
	data, err := files.ReadFile("catalogue/" + l.Tag + ".json")
	if err != nil {
		return errors.Join(fmt.Errorf("finding the words of %s", l.Name), err)
	}
	c, err := Read(l.Tag, data)
	if err != nil {
		return err
	}
	c.Use()
	return nil
}

// System is the locale that the computer is set to, such as "de_AT"; "en" where it is not known.
func System() string {
	if l, err := locale.GetLocale(); err == nil && len(l) > 1 {
		return l
	}
	return "en"
}

// Spoken tells which language [Speak] takes for a tag.
func Spoken(tag string) Language {
	all := Languages()
	for _, l := range all {
		if l.Tag == tag {
			return l
		}
	}
	var tags []language.Tag
	for _, l := range all {
		tags = append(tags, language.Make(l.Tag))
	}
	_, i, sure := language.NewMatcher(tags).Match(language.Make(System()))
	if sure == language.No {
		return all[0]
	}
	return all[i]
}
