package formula

import (
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Finding is what the name of an ingredient tells about allergens.
type Finding struct {
	Allergens []Allergen // in the order of [Allergens]
	// Known is false when the name, or a part of it, is not understood, or is
	// of a mixture: then "no allergens" must not be said of it.
	Known bool
}

// FindAllergens reads an ingredient's name. It knows English spellings of both
// sides of the Atlantic and the common words of the German, French and Italian
// mills. Flour with no grain named is taken as wheat, as the trade does.
func FindAllergens(name string) Finding {
	outside, inside := splitBrackets(parted(name))
	out := Finding{Known: true}
	said := false
	for _, part := range strings.FieldsFunc(outside, isBreak) {
		r := read(words(part))
		said = said || r.said
		out.Known = out.Known && (r.known || !r.said)
		out.Allergens = append(out.Allergens, r.allergens...)
	}
	out.Known = out.Known && said
	// What stands in brackets may add to the name, and never puts it in doubt.
	for _, part := range strings.FieldsFunc(inside, isBreak) {
		r := read(words(part))
		if len(r.allergens) > 0 && !out.Known {
			out.Known = r.known && len(out.Allergens) == 0 && !said
		}
		out.Allergens = append(out.Allergens, r.allergens...)
	}
	out.Allergens = inOrder(out.Allergens)
	return out
}

// reading is what one part of a name, between commas, says.
type reading struct {
	allergens []Allergen
	known     bool // its last word that means anything is understood, or it tells of an allergen
	said      bool // there was a word in it that means anything
}

func read(ws []string) reading {
	var out reading
	var unsure, freed, flour bool
	var last bool // whether the last word that is no filler was understood
	onlyFiller := true
	for i := 0; i < len(ws); {
		if n := withoutAt(ws[i:]); n > 0 {
			freed = true
			i += n
			continue
		}
		w, n := longest(ws[i:])
		switch {
		case n == 0:
			if !isTypeName(ws[i]) {
				onlyFiller, last = false, false
			}
			n = 1
		case w.filler:
			flour = flour || flourWords[ws[i]]
		default:
			onlyFiller, last = false, true
			unsure = unsure || w.unsure
			out.allergens = append(out.allergens, w.allergens...)
		}
		i += n
	}
	if flour && onlyFiller && !freed && !slices.ContainsFunc(ws, isRyeType) {
		out.allergens, last = []Allergen{Wheat}, true
	}
	if freed && slices.Contains(ws, "gluten") && slices.Contains(ws, "flour") {
		// "Gluten-free bread flour" is not the bread flour in the table.
		out.allergens = slices.DeleteFunc(out.allergens, func(a Allergen) bool { return a == Wheat })
		unsure = true
	}
	out.known = !unsure && (last || len(out.allergens) > 0)
	out.said = out.known || !onlyFiller || freed
	return out
}

// withoutAt says how many words from here on say that something is not in it.
func withoutAt(ws []string) int {
	switch {
	case len(ws) > 1 && (ws[0] == "without" || ws[0] == "no" || ws[0] == "ohne" || ws[0] == "sans"):
		return 2
	case len(ws) > 1 && ws[1] == "free" && (len(ws) == 2 || ws[2] != "range"):
		return 2
	}
	return 0
}

// longest finds the longest phrase that the words begin with, and how many
// words it has.
func longest(ws []string) (word, int) {
	for n := min(4, len(ws)); n > 0; n-- {
		if w, ok := phrases()[strings.Join(ws[:n], " ")]; ok {
			return w, n
		}
	}
	return word{}, 0
}

var flourWords = map[string]bool{"flour": true, "mehl": true, "farine": true, "farina": true, "harina": true}

// isTypeName says whether the word is a number or a type such as t65 or w300.
func isTypeName(w string) bool {
	return strings.Trim(strings.TrimLeft(w, "tw"), "0123456789") == ""
}

// isRyeType says whether the word is a type name that only rye has.
func isRyeType(w string) bool {
	w = strings.TrimPrefix(w, "t")
	rye := false
	for _, t := range flourTypes {
		if strings.TrimPrefix(t.Name, "T") != w {
			continue
		}
		if t.Grain != "rye" {
			return false
		}
		rye = true
	}
	return rye
}

func isBreak(r rune) bool { return strings.ContainsRune(",;/&+:.|", r) }

// joins are the words that put two things into one name.
var joins = map[string]bool{"and": true, "with": true, "in": true, "on": true, "und": true, "mit": true, "et": true, "avec": true, "con": true}

// parted writes a comma for every word that joins: of "brioche with olives" the brioche is
// read by itself. "Half and half" is one thing.
func parted(name string) string {
	ws := strings.Fields(name)
	for i, w := range ws {
		if joins[strings.ToLower(w)] && !(i > 0 && i+1 < len(ws) && strings.EqualFold(ws[i-1], ws[i+1])) {
			ws[i] = ","
		}
	}
	return strings.Join(ws, " ")
}

// splitBrackets parts the name into what stands outside brackets and inside.
func splitBrackets(name string) (outside, inside string) {
	var out, in strings.Builder
	depth := 0
	for _, r := range name {
		switch {
		case strings.ContainsRune("([{", r):
			depth++
			out.WriteByte(',')
		case strings.ContainsRune(")]}", r):
			depth = max(0, depth-1)
			in.WriteByte(',')
		case depth > 0:
			in.WriteRune(r)
		default:
			out.WriteRune(r)
		}
	}
	return out.String(), in.String()
}

// words parts text into folded words.
func words(s string) []string {
	s = norm.NFD.String(strings.ToLower(s))
	s = strings.NewReplacer("œ", "oe", "æ", "ae", "ß", "ss").Replace(s)
	s = strings.Map(func(r rune) rune {
		if unicode.Is(unicode.Mn, r) {
			return -1
		}
		return r
	}, s)
	ws := strings.FieldsFunc(s, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	for i, w := range ws {
		ws[i] = singular(w)
	}
	return ws
}

func foldPhrase(s string) string { return strings.Join(words(s), " ") }

// singular takes the plural's ending off. It need not be good English: names
// and table go through it alike.
func singular(w string) string {
	switch {
	case len(w) > 4 && strings.HasSuffix(w, "ies"):
		return w[:len(w)-3] + "y"
	case len(w) > 4 && (strings.HasSuffix(w, "oes") || strings.HasSuffix(w, "ches") || strings.HasSuffix(w, "shes") || strings.HasSuffix(w, "xes")):
		return w[:len(w)-2]
	case len(w) > 3 && strings.HasSuffix(w, "s") && !strings.HasSuffix(w, "ss") && !strings.HasSuffix(w, "us"):
		return w[:len(w)-1]
	}
	return w
}

// inOrder sorts by the order of [Allergens] and drops repeats.
func inOrder(as []Allergen) []Allergen {
	all := Allergens()
	slices.SortFunc(as, func(a, b Allergen) int { return slices.Index(all, a) - slices.Index(all, b) })
	return slices.Compact(as)
}
