package kit

import (
	"image/color"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// A Share is one part of a whole, by its name.
type Share struct {
	Name string
	Part float64 // 0 to 1
	Text string  // the part in figures
}

// ScoreBar reads a score of nine as a line of ink as long as the score is high.
func ScoreBar(name string, score int) fyne.CanvasObject {
	return newBars([]Share{{Name: name, Part: float64(score) / 9, Text: strconv.Itoa(score)}}, false)
}

// ShareList reads the parts of a whole as stretches of one bar in one hue; beneath it, below
// one another, stand their names, which may be long, and figures, each behind a patch of its shade.
func ShareList(shares []Share) fyne.CanvasObject {
	names := Stack(0.5)
	for i, s := range shares {
		names.Add(RowGrow(1.5, 1, newPatch(i, len(shares)), NewElided(Span{Text: s.Name, Size: look.TextSmall, Color: look.ColorFaint}),
			NewLine(Span{Text: s.Text, Size: look.TextSmall, Color: look.ColorFaint})))
	}
	return Stack(2, newBars(shares, true), names)
}

// ShareLine is the bar alone, without names.
func ShareLine(shares []Share) fyne.CanvasObject { return newBars(shares, true) }

// shade is the hue of the i-th of n shares: each a little darker than the one before.
func shade(i, n int) color.Color {
	return mix(theme.Color(look.ColorDough), theme.Color(look.ColorInk), 0.75*float64(i)/float64(max(2, n)))
}

// patch is a small square of a share's shade.
type patch struct {
	widget.BaseWidget
	i, n int
}

func newPatch(i, n int) *patch {
	p := &patch{i: i, n: n}
	p.ExtendBaseWidget(p)
	return p
}

func (p *patch) CreateRenderer() fyne.WidgetRenderer {
	square := canvas.NewRectangle(shade(p.i, p.n))
	d := &Drawing{Of: p, Things: []fyne.CanvasObject{square}}
	d.Least = func() fyne.Size { return fyne.NewSize(look.Space(2.5), look.Space(4)) }
	d.Lay = func(size fyne.Size) {
		Put(square, fyne.NewPos(0, (size.Height-look.Space(2.5))/2), fyne.NewSquareSize(look.Space(2.5)))
	}
	d.Paint = func() {
		square.FillColor = shade(p.i, p.n)
	}
	return d
}

// bars draws one score on a track of its own, or shares side by side.
type bars struct {
	widget.BaseWidget
	shares []Share
	whole  bool // the shares make up the bar
}

func newBars(shares []Share, whole bool) *bars {
	b := &bars{shares: shares, whole: whole}
	b.ExtendBaseWidget(b)
	return b
}

func (b *bars) CreateRenderer() fyne.WidgetRenderer {
	r := &barsRenderer{b: b, track: canvas.NewRectangle(color.Transparent)}
	for _, s := range b.shares {
		r.parts = append(r.parts, canvas.NewRectangle(color.Transparent))
		if !b.whole {
			r.names = append(r.names, NewElided(Span{Text: s.Name, Color: look.ColorFaint}))
			r.texts = append(r.texts, NewLine(Span{Text: s.Text, Bold: true}))
		}
	}
	r.Refresh()
	return r
}

type barsRenderer struct {
	b     *bars
	track *canvas.Rectangle
	parts []*canvas.Rectangle
	names []*Elided
	texts []*Text
}

func (r *barsRenderer) Destroy() {}

func (r *barsRenderer) Objects() []fyne.CanvasObject {
	out := []fyne.CanvasObject{r.track}
	for _, p := range r.parts {
		out = append(out, p)
	}
	for i := range r.names {
		out = append(out, r.names[i], r.texts[i])
	}
	return out
}

func (r *barsRenderer) MinSize() fyne.Size {
	if r.b.whole {
		return fyne.NewSize(look.Space(40), look.Space(4))
	}
	return fyne.NewSize(look.Space(50), look.Space(6))
}

func (r *barsRenderer) Layout(size fyne.Size) {
	if !r.b.whole {
		r.layoutScore(size)
		return
	}
	x := float32(0)
	r.track.Resize(fyne.NewSize(0, 0))
	for i, s := range r.b.shares {
		w := size.Width * float32(s.Part)
		Put(r.parts[i], fyne.NewPos(x, 0), fyne.NewSize(max(1, w-2), look.Space(4)))
		x += w
	}
}

func (r *barsRenderer) layoutScore(size fyne.Size) {
	const thick = 3
	name := min(look.Space(24), size.Width*0.45)
	text := look.Space(5)
	h := r.names[0].MinSize().Height
	Put(r.names[0], fyne.NewPos(0, (size.Height-h)/2), fyne.NewSize(name-look.Space(2), h))
	room := max(0, size.Width-name-text)
	y := (size.Height - thick) / 2
	Put(r.track, fyne.NewPos(name, y), fyne.NewSize(room, thick))
	Put(r.parts[0], fyne.NewPos(name, y), fyne.NewSize(room*float32(r.b.shares[0].Part), thick))
	m := r.texts[0].MinSize()
	Put(r.texts[0], fyne.NewPos(size.Width-m.Width, (size.Height-m.Height)/2), m)
}

func (r *barsRenderer) Refresh() {
	r.track.FillColor = theme.Color(look.ColorRule)
	r.track.Refresh()
	for i, p := range r.parts {
		p.FillColor = theme.Color(look.ColorInk)
		if r.b.whole { // lighter flours first, each a shade darker: one hue
			p.FillColor = shade(i, len(r.parts))
		}
		p.CornerRadius = 2
		p.Refresh()
	}
	for i := range r.names {
		r.names[i].Refresh()
		r.texts[i].Refresh()
	}
	r.Layout(r.b.Size())
}
