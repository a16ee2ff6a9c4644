package kit

import (
	"strings"

	"fyne.io/fyne/v2"
)

// lineBreaker gathers words into lines.
type lineBreaker struct {
	spans  []Span
	limit  float32
	done   []textPiece
	line   []textPiece
	x, y   float32
	widest float32
}

// add puts a word (with the spaces after it) on the line, or begins the next line.
func (b *lineBreaker) add(span int, word string) {
	s := b.spans[span]
	bare := strings.TrimRight(word, " \t")
	size, base := s.measure(bare)
	if b.limit >= 0 && b.x > 0 && b.x+size.Width > b.limit {
		b.endLine(s)
	}
	if b.limit >= 0 && size.Width > b.limit {
		head, rest := b.cut(s, bare)
		if rest != "" {
			b.put(span, head, s)
			b.endLine(s)
			b.add(span, rest+word[len(bare):])
			return
		}
	}
	full, _ := s.measure(word)
	if n := len(b.line); n > 0 && b.line[n-1].span == span {
		p := &b.line[n-1]
		p.text += word
		joined, _ := s.measure(p.text)
		p.w = joined.Width
		b.x = p.x + p.w
		return
	}
	b.line = append(b.line, textPiece{span: span, text: word, x: b.x, w: full.Width, h: size.Height, baseline: base})
	b.x += full.Width
}

func (b *lineBreaker) put(span int, text string, s Span) {
	size, base := s.measure(text)
	b.line = append(b.line, textPiece{span: span, text: text, x: b.x, w: size.Width, h: size.Height, baseline: base})
	b.x += size.Width
}

// cut finds as much of a word as fits the limit: at least one character.
func (b *lineBreaker) cut(s Span, word string) (head, rest string) {
	runes := []rune(word)
	n := len(runes)
	for n > 1 {
		if size, _ := s.measure(string(runes[:n])); size.Width <= b.limit {
			break
		}
		n--
	}
	return string(runes[:n]), string(runes[n:])
}

// endLine sets the line on one baseline and moves down. An empty line takes the
// height of the style it stands in.
func (b *lineBreaker) endLine(style Span) {
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
