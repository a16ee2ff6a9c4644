package kit

import (
	"strings"
	"unicode"

	"fyne.io/fyne/v2"
)

func longestWord(spans []Span, most float32) float32 {
	longest := float32(0)
	for _, s := range spans {
		for _, w := range strings.Fields(s.Text) {
			size, _ := s.measure(w)
			longest = max(longest, size.Width)
			if longest >= most {
				return most
			}
		}
	}
	return longest
}

// breakText sets spans into lines no wider than limit (-1: as wide as they are).
// A word wider than the limit is cut.
func breakText(spans []Span, limit float32) ([]textPiece, fyne.Size) {
	b := lineBreaker{spans: spans, limit: limit}
	for i, s := range spans {
		for n, para := range strings.Split(s.Text, "\n") {
			if n > 0 {
				b.endLine(s)
			}
			for _, w := range splitWords(para) {
				b.add(i, w)
			}
		}
	}
	if len(spans) > 0 {
		b.endLine(spans[len(spans)-1])
	}
	return b.done, fyne.NewSize(b.widest, b.y)
}

// splitWords cuts after each run of spaces, so that "a  b" gives "a  " and "b".
// A no-break space does not part words, nor does a space before a per cent sign.
func splitWords(s string) []string {
	var out []string
	start, space := 0, false
	for i, r := range s {
		isSpace := unicode.IsSpace(r) && r != '\u00a0' && r != '\u202f'
		if space && !isSpace && r != '%' {
			out = append(out, s[start:i])
			start = i
		}
		space = isSpace
	}
	if start < len(s) {
		out = append(out, s[start:])
	}
	return out
}
