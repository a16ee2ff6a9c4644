package safekeeping

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/pages"
	"twinloaf/journal/carry"
	"twinloaf/journal/measure"
)

// itemTitle names a record of an archive.
func itemTitle(it *carry.Item) string {
	kind := pages.KindName(it.Kind)
	if it.Name == "" {
		return kind
	}
	return lang.L("{{.Kind}} “{{.Name}}”", map[string]any{"Kind": kind, "Name": it.Name})
}

// refusedWords say which record cannot be brought in, and why.
func refusedWords(it *carry.Item, when string, u measure.Units) string {
	what := itemTitle(it)
	if it.Name == "" && !it.At.IsZero() {
		what = lang.L("{{.What}}, {{.When}}", map[string]any{"What": what, "When": when})
	}
	with := map[string]any{"What": what}
	switch it.Why {
	case carry.Newer:
		return lang.L("{{.What}}: a newer version of Twinloaf wrote it.", with)
	case carry.SealedThere:
		return lang.L("{{.What}}: it is sealed, and what is sealed does not travel.", with)
	case carry.SealedHere:
		return lang.L("{{.What}}: yours is sealed and stays as it is.", with)
	case carry.DamagedHere:
		return lang.L("{{.What}}: yours cannot be read and stays as it is.", with)
	case carry.NoPicture:
		return lang.L("{{.What}}: its file is not in the archive.", with)
	case carry.Impossible:
		with["Why"] = u.ErrorText(it.Figure)
		return lang.L("{{.What}}: {{.Why}}", with)
	case carry.NoOwner:
		return lang.L("{{.What}}: what it belongs to cannot be brought in.", with)
	}
	return lang.L("{{.What}}: it does not hold what such a record holds.", with)
}

// memberWord says a member of a record; empty where it has no word of its own.
func memberWord(member string) string {
	words := map[string]string{
		"name": lang.L("name"), "at": lang.L("time"), "binned": lang.L("in the bin or not"), "notes": lang.L("notes"), "note": lang.L("notes"),
		"ingredients": lang.L("dough"), "levains": lang.L("levain"), "steps": lang.L("steps"), "outcome": lang.L("result"),
		"water": lang.L("temperatures"), "state": lang.L("how far it is"), "culture": lang.L("culture"), "formula": lang.L("formula"),
		"keptG": lang.L("weights"), "flourG": lang.L("weights"), "waterG": lang.L("weights"), "flours": lang.L("flours"),
		"rise": lang.L("height"), "heightMM": lang.L("height"), "c": lang.L("temperature"), "smells": lang.L("smell"),
		"caption": lang.L("caption"), "slice": lang.L("the slice drawn on it"), "hash": lang.L("the picture"), "bytes": lang.L("the picture"),
		"loaves": lang.L("number of loaves"), "ended": lang.L("whether it is retired"), "home": lang.L("where it is kept"),
		"lots": lang.L("bags"), "facts": lang.L("what is known of it"), "session": lang.L("scores"), "result": lang.L("result"),
	}
	return words[member]
}

// memberWords say in what two versions differ.
func memberWords(members []string) string {
	var out []string
	other := false
	for _, m := range members {
		w := memberWord(m)
		other = other || w == ""
		if w != "" && !slices.Contains(out, w) {
			out = append(out, w)
		}
	}
	if other {
		out = append(out, lang.L("other details"))
	}
	return lang.L("Different: {{.What}}", map[string]any{"What": strings.Join(out, ", ")})
}
