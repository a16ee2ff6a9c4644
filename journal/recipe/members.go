package recipe

import (
	"encoding/json"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
)

// Bounds of what one recipe may hold.
const (
	mostLines = 500
	mostNotes = 100
	mostNote  = 500 // runes
)

// toRecipe reads a Recipe. Every member is read, or noted.
func toRecipe(v map[string]any) Recipe {
	var r Recipe
	rest := maps.Clone(v)
	delete(rest, "@type")
	delete(rest, "@context")
	take := func(name string) any { one := rest[name]; delete(rest, name); return one }
	words := func(name string) string {
		s, ok := rest[name].(string)
		if ok {
			delete(rest, name)
		}
		return plain(s)
	}
	r.Name = oneLine(words("name"))
	r.Description = words("description")
	r.Yield, r.Loaves = yield(rest)
	if d, ok := rest["totalTime"].(string); ok {
		if r.Total, ok = ParseDuration(d); ok {
			delete(rest, "totalTime")
		}
	}
	var steps reader
	steps.note = r.note
	steps.read(take("recipeInstructions"), "", 0)
	r.Steps = steps.steps
	for _, old := range []string{"recipeIngredient", "ingredients"} { // the second by its former name
		for _, one := range list(take(old)) {
			text, ok := one.(string)
			if !ok {
				r.note("ingredient", one)
				continue
			}
			for _, text := range strings.Split(plain(text), "\n") {
				if text = strings.TrimSpace(text); text == "" {
					continue
				}
				if len(r.Lines) == mostLines {
					r.note("ingredient", text)
					continue
				}
				r.Lines = append(r.Lines, partOf(ParseLine(text), steps.parts))
			}
		}
	}
	for _, n := range steps.notes {
		r.note(n.name, n.value)
	}
	for _, name := range sorted(rest) {
		r.note(name, rest[name])
	}
	return r
}

// partOf tells a line for a levain by the name of a section at its end.
func partOf(l Line, parts []string) Line {
	for _, p := range parts {
		if name, ok := strings.CutSuffix(l.Name, " ("+p+")"); ok && l.Weighed && p != "" {
			l.Name, l.Part = name, p
			break
		}
	}
	return l
}

// note keeps a member in words.
func (r *Recipe) note(name string, value any) {
	words := ""
	if one, ok := value.([]any); ok && len(one) == 1 {
		value = one[0]
	}
	switch v := value.(type) {
	case nil:
		return
	case string:
		words = oneLine(plain(v))
	default:
		if named, ok := v.(map[string]any); ok && len(named) <= 2 { // an author, a publisher
			words, _ = named["name"].(string)
			words = oneLine(plain(words))
		}
		if words == "" {
			// What was read from JSON can be written as JSON.
			b, _ := json.Marshal(v)
			words = string(b)
		}
	}
	if words == "" {
		return
	}
	if cut := []rune(words); len(cut) > mostNote {
		words = string(cut[:mostNote]) + "…"
	}
	if len(r.Notes) == mostNotes {
		r.Left++
		return
	}
	r.Notes = append(r.Notes, oneLine(plain(name))+": "+words)
}

var firstNumber = regexp.MustCompile(`\d+`)

// yield reads recipeYield: words, a number, a list of such, or a QuantitativeValue.
func yield(rest map[string]any) (words string, loaves int) {
	var read func(v any) string
	read = func(v any) string {
		switch v := v.(type) {
		case string:
			return oneLine(plain(v))
		case float64:
			return strconv.FormatFloat(v, 'f', -1, 64)
		case []any:
			best := ""
			for _, one := range v {
				if s := read(one); len(s) > len(best) { // "2 loaves" says more than 2
					best = s
				}
			}
			return best
		case map[string]any:
			if isType(v, "QuantitativeValue") {
				return strings.TrimSpace(read(v["value"]) + " " + read(v["unitText"]))
			}
		}
		return ""
	}
	words = read(rest["recipeYield"])
	if words == "" {
		return "", 0
	}
	delete(rest, "recipeYield")
	if n, err := strconv.Atoi(firstNumber.FindString(words)); err == nil && n > 0 && n <= 1000 {
		loaves = n
	}
	return words, loaves
}

// reader reads instructions into steps.
type reader struct {
	steps []Step
	parts []string // the names of the sections
	notes []named
	note  func(string, any)
}

type named struct {
	name  string
	value any
}

// read reads words, a list, or a section or step of schema.org.
func (r *reader) read(v any, part string, depth int) {
	switch v := v.(type) {
	case string:
		for _, line := range strings.Split(plain(v), "\n") {
			r.add(Step{Part: part, Text: strings.TrimSpace(line)})
		}
	case []any:
		for _, one := range v {
			if depth < mostDeep {
				r.read(one, part, depth+1)
			}
		}
	case map[string]any:
		r.object(v, part, depth)
	}
}

func (r *reader) object(v map[string]any, part string, depth int) {
	rest := maps.Clone(v)
	name, _ := v["name"].(string)
	name = oneLine(plain(name))
	delete(rest, "name")
	items, listed := v["itemListElement"]
	delete(rest, "itemListElement")
	delete(rest, "@type")
	switch {
	case depth >= mostDeep:
		r.notes = append(r.notes, named{"step", v})
		return
	case isType(v, "HowToSection"), isType(v, "ItemList"):
		if name != "" {
			part = name
			r.parts = append(r.parts, name)
		}
		r.read(items, part, depth+1)
	default: // a step, or something like one
		s := Step{Part: part, Name: name}
		s.Text, _ = v["text"].(string)
		s.Text = plain(s.Text)
		delete(rest, "text")
		s.Length = length(rest)
		if listed && s.Text == "" {
			s.Text = joined(items, depth+1)
		}
		if s.Text == s.Name {
			s.Text = ""
		}
		r.add(s)
	}
	for _, key := range sorted(rest) {
		r.notes = append(r.notes, named{strings.TrimSpace("step " + strconv.Itoa(len(r.steps)) + ", " + key), rest[key]})
	}
}

// length reads how long a step takes, under any of the names that it may have.
func length(rest map[string]any) time.Duration {
	for _, key := range []string{"timeRequired", "totalTime", "performTime"} {
		if s, ok := rest[key].(string); ok {
			if d, ok := ParseDuration(s); ok {
				delete(rest, key)
				return d
			}
		}
	}
	return 0
}

// joined is the text of a step's directions and tips, a line each.
func joined(items any, depth int) string {
	var lines []string
	for _, one := range list(items) {
		switch one := one.(type) {
		case string:
			lines = append(lines, plain(one))
		case map[string]any:
			text, _ := one["text"].(string)
			if text == "" {
				text, _ = one["name"].(string)
			}
			lines = append(lines, plain(text))
			if inner, ok := one["itemListElement"]; ok && depth < mostDeep {
				lines = append(lines, joined(inner, depth+1))
			}
		}
	}
	return strings.TrimSpace(strings.Join(lines, "\n"))
}

func (r *reader) add(s Step) {
	if s.Name == "" && s.Text == "" {
		return
	}
	if len(r.steps) == mostLines {
		r.notes = append(r.notes, named{"step", s.Name + " " + s.Text})
		return
	}
	r.steps = append(r.steps, s)
}

// list makes a list of one thing, and none of nothing.
func list(v any) []any {
	switch v := v.(type) {
	case nil:
		return nil
	case []any:
		return v
	}
	return []any{v}
}

func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }

func sorted(m map[string]any) []string { return slices.Sorted(maps.Keys(m)) }
