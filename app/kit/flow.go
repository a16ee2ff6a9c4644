package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"twinloaf/app/look"
)

// Flow puts things side by side at their least size and goes on to the next line
// when the width runs out, as words do. The toolkit's RowWrapLayout makes every line as high
// as the highest thing of all and sets nothing in the middle of its line.
func Flow(gap float32, things ...fyne.CanvasObject) *fyne.Container {
	return container.New(&flowLayout{gap: look.Space(gap)}, things...)
}

// FlowEnd is Flow whose lines end where the width does.
func FlowEnd(gap float32, things ...fyne.CanvasObject) *fyne.Container {
	return container.New(&flowLayout{gap: look.Space(gap), end: true}, things...)
}

// flowLayout remembers the width it was last given: its height follows from it.
type flowLayout struct {
	gap   float32
	width float32
	end   bool // lines end where the width does
	whole bool // it would rather stand on one line
	begin bool // the words of a quiet button that begins a line do so where the line does
	even  bool // lines are broken so that none is much shorter than the others
}

func (l *flowLayout) MinSize(things []fyne.CanvasObject) fyne.Size {
	width := float32(0)
	for i, o := range visible(things) {
		switch {
		case !l.whole:
			width = max(width, o.MinSize().Width)
		case i > 0:
			width += l.gap
			fallthrough
		default:
			width += flowSize(o, 0).Width
		}
	}
	return fyne.NewSize(width, l.run(things, l.width, nil))
}

func (l *flowLayout) Layout(things []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	l.run(things, size.Width, func(o fyne.CanvasObject, pos fyne.Position, s fyne.Size) {
		Put(o, pos, s)
	})
}

// flowSize is the least size of a thing; a link has all its words, up to the width.
func flowSize(o fyne.CanvasObject, width float32) fyne.Size {
	m := o.MinSize()
	if wish := linkWish(o); wish > m.Width {
		m.Width = wish
		if width > 0 {
			m.Width = max(o.MinSize().Width, min(wish, width))
		}
	}
	return m
}

// linkWish is how wide a thing is in which links have all their words.
func linkWish(o fyne.CanvasObject) float32 {
	switch o := o.(type) {
	case *Link:
		return o.natural()
	case *fyne.Container:
		l, ok := o.Layout.(rowLayout)
		if !ok {
			break
		}
		wish := float32(0)
		for i, c := range visible(o.Objects) {
			if i > 0 {
				wish += l.gap
			}
			wish += linkWish(c)
		}
		return wish
	}
	return o.MinSize().Width
}

// between is the room between two lines: things far apart on one need less of it than that.
func (l *flowLayout) between() float32 { return min(l.gap, look.Space(4)) }

// run walks the lines and gives the height they need; place may be nil. Without a
// known width everything stands on one line.
func (l *flowLayout) run(things []fyne.CanvasObject, width float32, place func(fyne.CanvasObject, fyne.Position, fyne.Size)) float32 {
	y := float32(0)
	for _, line := range l.lines(things, width) {
		at, tall := float32(0), float32(0)
		for _, o := range line {
			tall = max(tall, flowSize(o, width).Height)
		}
		if b, ok := line[0].(*Button); ok && l.begin && b.kind == quietKind {
			at = -quietPad
		}
		if l.end {
			at = width + l.gap
			for _, o := range line {
				at -= flowSize(o, width).Width + l.gap
			}
		}
		for _, o := range line {
			m := flowSize(o, width)
			if place != nil {
				place(o, fyne.NewPos(at, y+(tall-m.Height)/2), m)
			}
			at += m.Width + l.gap
		}
		y += tall + l.between()
	}
	return max(0, y-l.between())
}

// lines shares the things among lines.
func (l *flowLayout) lines(things []fyne.CanvasObject, width float32) [][]fyne.CanvasObject {
	seen := visible(things)
	if len(seen) == 0 {
		return nil
	}
	widths := make([]float32, len(seen))
	for i, o := range seen {
		widths[i] = flowSize(o, width).Width
	}
	broken := func(width float32) [][]fyne.CanvasObject {
		lines, from, x := [][]fyne.CanvasObject{}, 0, float32(0)
		for i, w := range widths {
			if width > 0 && i > from && x+w > width {
				lines = append(lines, seen[from:i])
				from, x = i, 0
			}
			x += w + l.gap
		}
		return append(lines, seen[from:])
	}
	lines := broken(width)
	if !l.even || len(lines) == 1 {
		return lines
	}
	short, long := float32(1), width // the least width in which there are no more lines
	for long-short > 1 {
		mid := (short + long) / 2
		if again := broken(mid); len(again) > len(lines) {
			short = mid
		} else {
			lines, long = again, mid
		}
	}
	return lines
}
