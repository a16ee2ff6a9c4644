package kit

import (
	"math"
	"slices"

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
	// of is what was measured: its words, and how wide it would like to be and the widest of them is.
	of               []Span
	words            wording
	natural, longest float32
}

func (r *textRenderer) Destroy()                     {}
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
	limit := min(r.width, r.t.longest())
	if limit <= 0 || r.t.oneRow {
		limit = -1
	}
	most := r.t.most
	if most == 0 {
		most = textRows
	}
	if !slices.Equal(r.of, r.t.spans) {
		r.read(r.t.spans)
	}
	r.pieces, r.min = breakText(&r.words, limit, most)
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
