package kit

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"twinloaf/app/look"
)

// textPiece is one run of characters in one style on one line.
type textPiece struct {
	span     int
	text     string
	x, y     float32 // top left, within the text
	w        float32
	baseline float32
	h        float32
}

type textRenderer struct {
	t       *Text
	objects []fyne.CanvasObject
	pieces  []textPiece
	min     fyne.Size
	width   float32
	// of is what was measured: its words, how wide it would like to be and the widest of them is,
	// and whether one is as long as a path.
	of               []Span
	words            wording
	natural, longest float32
	path             bool
}

func (r *textRenderer) Destroy()                     { r.t.drawn = nil }
func (r *textRenderer) Objects() []fyne.CanvasObject { return r.objects }
func (r *textRenderer) MinSize() fyne.Size           { return r.min }

func (r *textRenderer) Layout(size fyne.Size) {
	if r.width != size.Width && !r.t.oneRow {
		r.build()
		return
	}
	r.place(size.Width)
}

func (r *textRenderer) Refresh() {
	r.build()
	canvas.Refresh(r.t)
}

// build breaks the text for the width of the widget and makes a canvas text for
// each piece.
func (r *textRenderer) build() {
	r.width = r.t.width
	if !slices.Equal(r.of, r.t.spans) {
		r.read(r.t.spans)
	}
	limit := r.width
	if !r.path {
		limit = min(limit, r.t.longest())
	}
	if limit <= 0 || r.t.oneRow {
		limit = -1
	}
	most := cmp.Or(r.t.most, textRows)
	r.pieces, r.min = breakText(&r.words, limit, most)
	switch n := len(r.pieces); {
	case limit < 0 || n < 2:
	case r.words.span < len(r.words.spans) || strings.HasSuffix(r.pieces[n-1].text, "…"): // its end is not seen
	case r.t.even:
		r.evenOut(limit, most)
	default:
		r.keepCompany(limit, most)
	}
	r.t.natural = r.min.Width
	if !r.t.oneRow {
		r.t.natural, r.min.Width = r.natural, r.longest
	}
	for len(r.objects) < len(r.pieces) {
		r.objects = append(r.objects, &canvas.Text{})
	}
	r.objects = r.objects[:len(r.pieces)]
	for i, p := range r.pieces {
		styleText(r.objects[i].(*canvas.Text), r.t.spans[p.span], p.text)
	}
	r.place(r.t.Size().Width)
}

// read measures other spans.
func (r *textRenderer) read(spans []Span) {
	r.of = slices.Clone(spans)
	r.words = wording{spans: r.of}
	if r.t.oneRow {
		r.words.spans = oneRow(r.of)
		return
	}
	r.natural = float32(math.Ceil(float64(r.words.natural())))
	r.longest = longestWord(spans, look.Space(30))
	r.path = slices.ContainsFunc(spans, holdsPath)
}

// evenOut breaks the text anew to the narrowest lines of which it needs no more than it has, and
// that cut no word for it.
func (r *textRenderer) evenOut(limit float32, most int) {
	if r.pieces[0].line() == r.pieces[len(r.pieces)-1].line() {
		return
	}
	for low, high := longestWord(r.of, limit), limit; high-low > 4; {
		narrower := (low + high) / 2
		if pieces, min := breakText(&r.words, narrower, most); min.Height <= r.min.Height {
			r.pieces, r.min, high = pieces, min, narrower
		} else {
			low = narrower
		}
	}
}

// keepCompany breaks the text anew with its last two words kept together, where the last would
// stand on a line of its own and the text needs no more lines for that.
func (r *textRenderer) keepCompany(limit float32, most int) {
	n := len(r.pieces)
	if len(splitWords(r.pieces[n-1].text)) > 1 || r.pieces[n-2].line() == r.pieces[n-1].line() {
		return
	}
	all := slices.Collect(r.words.all)
	k := len(all) - 2
	if k < 1 || all[k].text == "" || all[k+1].text == "" || all[k].span != all[k+1].span || all[k-1].text == "" {
		return
	}
	tied := wording{spans: r.words.spans, span: len(r.words.spans)}
	tied.read = append(all[:k:k], r.words.spans[all[k].span].word(all[k].span, all[k].text+all[k+1].text))
	if pieces, min := breakText(&tied, limit, most); min.Height <= r.min.Height && tied.read[k].bare.Width <= limit {
		r.pieces, r.min = pieces, min
	}
}

// place moves the pieces, line by line, as the alignment asks.
func (r *textRenderer) place(width float32) {
	for i := 0; i < len(r.pieces); {
		j, right := i, float32(0)
		for ; j < len(r.pieces) && r.pieces[j].line() == r.pieces[i].line(); j++ {
			right = r.pieces[j].x + r.pieces[j].w
		}
		shift := float32(0)
		switch r.t.align {
		case fyne.TextAlignTrailing:
			shift = max(0, width-right)
		case fyne.TextAlignCenter:
			shift = max(0, (width-right)/2)
		}
		for ; i < j; i++ {
			o := r.objects[i]
			Put(o, fyne.NewPos(r.pieces[i].x+shift, r.pieces[i].y), fyne.NewSize(r.pieces[i].w, r.pieces[i].h))
		}
	}
}

// line is the same for the pieces that share a line: the height of their baseline.
func (p textPiece) line() float32 { return p.y + p.baseline }
