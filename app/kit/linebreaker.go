package kit

import (
	"strings"
	"unicode/utf8"

	"fyne.io/fyne/v2"
)

// lineBreaker gathers words into lines.
type lineBreaker struct {
	spans  []Span
	limit  float32
	most   int // rows at most, the last of which ends in "…" if there are more
	rows   int
	short  bool // something was left out
	done   []textPiece
	line   []textPiece
	x, y   float32
	widest float32
	adv    *advances
}

// add puts a word on the line, or begins the next line.
func (b *lineBreaker) add(w word) {
	s := b.spans[w.span]
	if b.rows >= b.most {
		b.short = true
		return
	}
	if b.limit >= 0 && b.x > 0 && b.x+w.bare.Width > b.limit {
		b.endLine(s)
	}
	if b.limit >= 0 && w.bare.Width > b.limit {
		rest := strings.TrimRight(w.text, " \t")
		spaces := w.text[len(rest):]
		for b.rows < b.most {
			head, tail := b.cut(s, rest)
			if tail == "" {
				break
			}
			b.put(w.span, head, s)
			b.endLine(s)
			rest = tail
		}
		if b.rows >= b.most {
			b.short = true
			return
		}
		w = s.word(w.span, rest+spaces)
	}
	if n := len(b.line); n > 0 && b.line[n-1].span == w.span {
		p := &b.line[n-1]
		p.text += w.text
		p.w += w.width
		b.x += w.width
		return
	}
	b.line = append(b.line, textPiece{span: w.span, text: w.text, x: b.x, w: w.width, h: w.bare.Height, baseline: w.baseline})
	b.x += w.width
}

func (b *lineBreaker) put(span int, text string, s Span) {
	size, base := s.measure(text)
	b.line = append(b.line, textPiece{span: span, text: text, x: b.x, w: size.Width, h: size.Height, baseline: base})
	b.x += size.Width
}

// cut finds as much of a word as fits the limit: at least one character.
func (b *lineBreaker) cut(s Span, word string) (head, rest string) {
	n := b.advances(s).fit(word, b.limit)
	if n == 0 {
		_, n = utf8.DecodeRuneInString(word)
	}
	return word[:n], word[n:]
}

func (b *lineBreaker) advances(s Span) *advances {
	s.Text = ""
	if b.adv == nil || b.adv.style != s {
		b.adv = newAdvances(s)
	}
	return b.adv
}

// endLine sets the line on one baseline and moves down. An empty line takes the
// height of the style it stands in.
func (b *lineBreaker) endLine(style Span) {
	if b.rows >= b.most {
		return
	}
	b.rows++
	height := style.size() * style.leading()
	var above, below float32
	for _, p := range b.line {
		s := b.spans[p.span]
		height = max(height, s.size()*s.leading())
		above = max(above, p.baseline)
		below = max(below, p.h-p.baseline)
	}
	height = max(height, above+below)
	top := b.y + (height-above-below)/2
	for _, p := range b.line {
		p.y = top + above - p.baseline
		b.done = append(b.done, p)
		b.widest = max(b.widest, p.x+p.w)
	}
	b.line = b.line[:0]
	b.x = 0
	b.y += fyne.Max(height, 1)
}
