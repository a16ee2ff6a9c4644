package pages

import (
	"cmp"
	"strings"

	"twinloaf/assets"
	"twinloaf/journal/paper"
)

// Paper is how this baker's pages look.
func (e *Env) Paper() paper.Style {
	return paper.Style{
		Fonts:  paper.Fonts{Text: assets.TextRegular, Bold: assets.TextBold, Heading: assets.Heading},
		Letter: e.Units().Letter,
		Made:   e.Now(),
	}
}

// FileName makes a name for a file out of what the baker calls a thing, or else out
// of another, with its ending.
func FileName(name, other, ending string) string {
	const most = 80 // runes; some systems take no more than 255 bytes
	clean := []rune(strings.Map(func(r rune) rune {
		if strings.ContainsRune(`/\:*?"<>|`, r) || r < ' ' {
			return '-'
		}
		return r
	}, strings.TrimSpace(name)))
	out := cmp.Or(strings.Trim(string(clean[:min(most, len(clean))]), ". "), other)
	return out + ending
}
