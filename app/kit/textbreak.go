package kit

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"fyne.io/fyne/v2"
)

// textRows is how many rows of a text are shown at most: no page is read further, and
// what is typed there is not to stop the window.
const textRows = 400

// oneRow is as much of spans as is of use in one row.
func oneRow(spans []Span) []Span {
	const most = 600
	left := most
	for i, s := range spans {
		if len(s.Text) > left {
			out := append([]Span(nil), spans[:i+1]...)
			out[i].Text = strings.ToValidUTF8(s.Text[:left], "") + "…"
			return out
		}
		left -= len(s.Text)
	}
	return spans
}

// wordMost is how long a word is measured letter by letter with how they move together.
const wordMost = 60

// measureWord measures a word, a long one by the widths of its letters.
func (s Span) measureWord(word string) (fyne.Size, float32) {
	if len(word) <= wordMost {
		return s.measure(word)
	}
	size, base := s.measure("M")
	a := newAdvances(s)
	return fyne.NewSize(a.width(word), size.Height), base
}

// A word is a run of letters and the spaces after it, measured, or the end of a paragraph.
type word struct {
	span     int
	text     string    // empty: the line ends here
	bare     fyne.Size // without the spaces
	baseline float32
	width    float32 // with them
}

// A wording is the words of spans, read and measured as far as somebody asked, once.
type wording struct {
	spans    []Span
	read     []word
	span, at int // where it goes on
}

// all goes through the words, each of which is measured when it is first come by.
func (w *wording) all(yield func(word) bool) {
	for i := 0; ; i++ {
		for i >= len(w.read) {
			if w.span == len(w.spans) {
				return
			}
			w.more()
		}
		if !yield(w.read[i]) {
			return
		}
	}
}

// more reads on: a piece of a paragraph, or the end of one.
func (w *wording) more() {
	s := w.spans[w.span]
	rest := s.Text[w.at:]
	switch para, _, _ := strings.Cut(rest, "\n"); {
	case rest == "":
		w.span, w.at = w.span+1, 0
	case para == "":
		w.read = append(w.read, word{span: w.span})
		w.at++
	default:
		piece := chunk(para)
		for _, text := range splitWords(piece) {
			w.read = append(w.read, s.word(w.span, text))
		}
		w.at += len(piece)
	}
}

// word measures a word of a span.
func (s Span) word(span int, text string) word {
	bare := strings.TrimRight(text, " \t")
	size, base := s.measureWord(bare)
	w := word{span: span, text: text, bare: size, baseline: base, width: size.Width}
	if bare != text {
		whole, _ := s.measureWord(text)
		w.width = whole.Width
	}
	return w
}

// naturalMost is how wide a text would like to be at most: no window is wider.
const naturalMost = 4000

// natural is how wide the text is on as few lines as it can have.
func (w *wording) natural() float32 {
	widest, x := float32(0), float32(0)
	for word := range w.all {
		if x += word.width; word.text == "" {
			x = 0
		}
		if widest = max(widest, x); widest >= naturalMost {
			return naturalMost
		}
	}
	return widest
}

// longestWord is how wide the widest word at the beginning of a text is, up to most.
func longestWord(spans []Span, most float32) float32 {
	longest, left := float32(0), breakAtATime
	for _, s := range spans {
		for w := range strings.FieldsSeq(s.Text) {
			size, _ := s.measureWord(w)
			longest = max(longest, size.Width)
			if left -= len(w); longest >= most || left < 0 {
				return min(longest, most)
			}
		}
	}
	return longest
}

// holdsPath says that a text holds, near its beginning, a word as long as the way to a file: to be
// typed off and not read, it takes the room there is, since it would else be cut.
func holdsPath(s Span) bool {
	for w := range strings.FieldsSeq(s.Text[:min(len(s.Text), breakAtATime)]) {
		if len(w) > 50 {
			return true
		}
	}
	return false
}

// breakText sets words into lines no wider than limit (-1: as wide as they are).
// A word wider than the limit is cut. Of more rows than most the last ends in "…".
func breakText(w *wording, limit float32, most int) ([]textPiece, fyne.Size) {
	b := lineBreaker{spans: w.spans, limit: limit, most: most}
	for word := range w.all {
		if word.text == "" {
			b.endLine(b.spans[word.span])
			continue
		}
		if b.add(word); b.short {
			break
		}
	}
	if n := len(b.spans); n > 0 && !b.short {
		b.endLine(b.spans[n-1])
	}
	if n := len(b.done); n > 0 && b.short {
		p := &b.done[n-1]
		p.text = strings.TrimRight(p.text, " ") + " …"
	}
	return b.done, fyne.NewSize(b.widest, b.y)
}

// chunk is the beginning of a paragraph, up to a space.
func chunk(para string) string {
	if len(para) > breakAtATime {
		if cut := strings.LastIndexByte(para[:breakAtATime], ' '); cut > 0 {
			return para[:cut+1]
		}
	}
	return para
}

// breakAtATime is how many bytes of a paragraph are taken apart before looking whether
// there is room for more.
const breakAtATime = 2000

// splitWords cuts after each run of spaces, so that "a  b" gives "a  " and "b".
// A no-break space does not part words, nor does a space before a per cent sign or a dividing
// point, before a year, between a figure and its unit, or behind a word cut to one letter (E. coli).
func splitWords(s string) []string {
	var out []string
	start, space := 0, false
	for i, r := range s {
		isSpace := unicode.IsSpace(r) && r != '\u00a0' && r != '\u202f'
		if space && !isSpace && r != '%' && r != '·' && !isYear(s[i:]) && !ofOne(s[start:i], s[i:]) {
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

// isYear says that a text begins with a year, which is not torn from its month.
func isYear(s string) bool {
	n := strings.IndexFunc(s, func(r rune) bool { return !unicode.IsDigit(r) })
	if n < 0 {
		n = len(s)
	}
	return n == 4 && (s[:2] == "19" || s[:2] == "20")
}

// units are what stands behind a figure and is not torn from it at the end of a line.
var units = map[string]bool{"°C": true, "°F": true, "K": true, "g": true, "kg": true, "mg": true, "oz": true, "lb": true,
	"ml": true, "l": true, "mm": true, "cm": true, "m": true, "s": true, "min": true, "h": true, "Std.": true, "Min.": true,
	"kB": true, "KB": true, "MB": true, "GB": true, "J": true, "kJ": true, "ppm": true, "dpi": true, "px": true, "×": true}

// ofOne says that what follows a space belongs to the word before it: a unit to its figure, the
// second part of a unit such as kJ/(kg K) to the first, and what a single letter is short for.
func ofOne(before, after string) bool {
	before = strings.TrimRightFunc(before, unicode.IsSpace)
	before = before[strings.LastIndexFunc(before, unicode.IsSpace)+1:]
	if open := strings.LastIndexByte(before, '('); open > 0 && before[open-1] == '/' && !strings.Contains(before, ")") {
		return true
	}
	if short, ok := strings.CutSuffix(before, "."); ok && utf8.RuneCountInString(short) == 1 {
		return unicode.IsLetter([]rune(short)[0])
	}
	if last := len(before) - 1; last < 0 || before[last] < '0' || before[last] > '9' {
		return false
	}
	word, _, _ := strings.Cut(after, " ")
	word = strings.TrimRight(word, ",;:!?)")
	whole, _, _ := strings.Cut(word, "/")
	return units[word] || units[strings.TrimSuffix(word, ".")] || units[whole] || strings.Contains(word, "/cm")
}

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
