package recipe

import (
	"cmp"
	"encoding/json"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"twinloaf/journal/limit"
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
	steps.read(take("recipeInstructions"), "", 0)
	r.Steps = steps.steps
	for _, old := range []string{"recipeIngredient", "ingredients"} { // the second by its former name
		for _, one := range list(take(old)) {
			text, ok := one.(string)
			if !ok {
				r.note("ingredient", one)
				continue
			}
			for text := range strings.SplitSeq(plain(text), "\n") {
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

// firstNumber finds the first number of a yield and what follows it.
var firstNumber = regexp.MustCompile(`^\D*(\d+)\s*(\S*)`)

// noLoaves are the words after a number of something else than loaves, rolls or tins.
var noLoaves = strings.Fields("g gr gram grams gramm grm kg kgm kilo kilos oz onz ounce ounces lb lbs lbr pound pounds pfund ml l litre litres liter liters cup cups " +
	"cm mm inch inches hours minutes serving servings portion portions portionen person persons personen people slice slices scheibe scheiben to or bis oder")

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
			var all []string
			for _, one := range v {
				s := read(one)
				if slices.ContainsFunc(all, func(other string) bool { return strings.HasPrefix(other, s) }) {
					continue
				}
				all = slices.DeleteFunc(all, func(other string) bool { return strings.HasPrefix(s, other) }) // "2 loaves" says more than 2
				all = append(all, s)
			}
			return strings.Join(all, ", ")
		case map[string]any:
			if isType(v, "QuantitativeValue") {
				return strings.TrimSpace(read(v["value"]) + " " + cmp.Or(read(v["unitText"]), read(v["unitCode"])))
			}
		}
		return ""
	}
	words = read(rest["recipeYield"])
	if words == "" {
		return "", 0
	}
	delete(rest, "recipeYield")
	if m := firstNumber.FindStringSubmatch(words); m != nil {
		n, err := strconv.ParseFloat(m[1], 64)
		of := strings.ToLower(strings.TrimRight(m[2], ",.;:)"))
		ranged := strings.IndexAny(m[2], ".,/-–½¼¾%\"″'′") == 0 || strings.ContainsAny(m[2], "0123456789") && m[2][0] != '('
		if err == nil && !ranged && !slices.Contains(noLoaves, of) && limit.Check(limit.Loaves, n) == nil {
			loaves = int(n)
		}
	}
	return words, loaves
}

// reader reads instructions into steps.
type reader struct {
	steps []Step
	parts []string // the names of the sections
	notes []named
}

type named struct {
	name  string
	value any
}

// read reads words, a list, or a section or step of schema.org.
func (r *reader) read(v any, part string, depth int) {
	one, object := v.(map[string]any)
	words, text := v.(string)
	switch {
	case v == nil:
	case text:
		for line := range strings.SplitSeq(plain(words), "\n") {
			r.add(Step{Part: part, Text: strings.TrimSpace(line)})
		}
	case depth >= mostDeep:
		r.notes = append(r.notes, named{"step", v})
	case object:
		r.object(one, part, depth)
	default:
		items, ok := v.([]any)
		if !ok { // a number, true or false
			r.notes = append(r.notes, named{"step", v})
		}
		for _, one := range items {
			r.read(one, part, depth+1)
		}
	}
}

// object reads a section, a step, or something like one. The places that it gives its
// items are not noted: they stand in their order.
func (r *reader) object(v map[string]any, part string, depth int) {
	rest := maps.Clone(v)
	words := func(key string) string {
		s, ok := rest[key].(string)
		if ok {
			delete(rest, key)
		}
		return plain(s)
	}
	name, items := oneLine(words("name")), rest["itemListElement"]
	for _, key := range []string{"itemListElement", "@type", "position"} {
		delete(rest, key)
	}
	if isType(v, "HowToSection") || isType(v, "ItemList") {
		if name != "" {
			part = name
			r.parts = append(r.parts, name)
		}
		r.read(items, part, depth+1)
	} else {
		s := Step{Part: part, Name: name, Text: words("text"), Length: length(rest)}
		var inner reader // its directions and tips, a line each
		inner.read(items, "", depth+1)
		var took time.Duration
		for _, one := range inner.steps {
			took += one.Length
			if line := strings.TrimSpace(one.Name + "\n" + one.Text); !strings.Contains(s.Text, line) {
				s.Text = strings.TrimSpace(s.Text + "\n" + line)
			}
		}
		s.Length = cmp.Or(s.Length, took)
		if s.Text == s.Name {
			s.Text = ""
		}
		r.add(s)
		r.notes = append(r.notes, inner.notes...)
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
