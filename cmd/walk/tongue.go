package main

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"twinloaf/assets/words"
)

// A tongue puts what a walk reads in English into another language of the window, by the
// catalogue. The nil tongue says it as it is.
type tongue struct {
	name     string // as its speakers call it
	exact    map[string]string
	patterns []pattern
}

// A pattern is a sentence with places in it.
type pattern struct {
	english *regexp.Regexp
	other   string
}

// A place in a sentence, as it stands and within a quoted pattern, and the name in it.
var (
	named  = regexp.MustCompile(`\{\{\.(\w+)\}\}`)
	quoted = regexp.MustCompile(`\\\{\\\{\\\.(\w+)\\\}\\\}`)
	word   = regexp.MustCompile(`\w+`)
)

// readTongue reads the catalogue of a language; data is the repository's testdata.
func readTongue(data, tag string) *tongue {
	text, err := os.ReadFile(filepath.Join(data, "..", "assets", "words", "catalogue", tag+".json"))
	if err != nil {
		panic(fmt.Errorf("reading the words of %q: %w", tag, err))
	}
	var entries []struct{ ID, Other string }
	check(json.Unmarshal(text, &entries))
	t := &tongue{name: words.Spoken(tag).Name, exact: map[string]string{}}
	for _, e := range entries {
		t.exact[e.ID] = e.Other
		// A sentence that begins or ends with a place and says little else fits anything.
		if literal := named.ReplaceAllString(e.ID, ""); !named.MatchString(e.ID) || len(literal) < 4 {
			continue
		}
		seen := map[string]bool{}
		p := quoted.ReplaceAllStringFunc(regexp.QuoteMeta(e.ID), func(s string) string {
			name := word.FindString(s)
			if seen[name] {
				return ".+"
			}
			seen[name] = true
			return "(?P<" + name + ">.+)"
		})
		t.patterns = append(t.patterns, pattern{regexp.MustCompile("^" + p + "$"), e.Other})
	}
	return t
}

// exactly gives the words for a whole entry of the catalogue; what is none, such as what the
// baker called something, stays as it is.
func (t *tongue) exactly(english string) string {
	if t == nil {
		return english
	}
	if other, ok := t.exact[english]; ok {
		return other
	}
	return english
}

// say gives the words of the language for English ones; those that the catalogue does not
// have, such as a name, stay as they are.
func (t *tongue) say(english string) string {
	if t == nil {
		return english
	}
	if other := t.exactly(english); other != english {
		return other
	}
	if other, ok := t.beginning(english); ok {
		return other
	}
	best, length := english, 0
	for _, p := range t.patterns {
		m := p.english.FindStringSubmatch(english)
		if m == nil {
			continue
		}
		said, names := p.other, p.english.SubexpNames()
		literal := len(english)
		for i, name := range names {
			if name != "" {
				said = strings.ReplaceAll(said, "{{."+name+"}}", m[i])
				literal -= len(m[i])
			}
		}
		if literal > length {
			best, length = said, literal
		}
	}
	return best
}

// beginning gives some words of the shortest sentence that holds a part of it: a long one
// stands in several lines, and who waits for it waits for a few of its words.
func (t *tongue) beginning(part string) (string, bool) {
	const telling = 10 // fewer letters stand in more sentences than one
	if len(part) < telling {
		return "", false
	}
	var whole string
	for id := range t.exact {
		shorter := whole == "" || len(id) < len(whole) || len(id) == len(whole) && id < whole
		if shorter && strings.Contains(id, part) {
			whole = id
		}
	}
	if whole == "" {
		return "", false
	}
	between := slices.MaxFunc(named.Split(t.exact[whole], -1), func(a, b string) int { return len(a) - len(b) })
	words := strings.Fields(between)
	return strings.Join(words[:min(3, len(words))], " "), true
}
