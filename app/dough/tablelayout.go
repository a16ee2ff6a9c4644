package dough

import (
	"slices"

	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/look"
)

// tableLayout sets the lines of a table in columns, and where a name has no room beside the others
// it stands over them. What more is said of a line opens beneath it. It remembers its width, from
// which its height follows.
type tableLayout struct {
	t     *Table
	width float32
}

// The widths of the columns beside the name, in points.
const (
	roleWidth    = 112
	gramsWidth   = 92
	percentWidth = 84
	signWidth    = 20
	columnGap    = 12
	leastName    = 84 // beside the other columns
	figureEnds   = 58 // where the figures of a column end, before their unit

	// A figure too far from its name is read on the wrong line.
	widestTable = 760
)

func (d *tableLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(look.Space(30)+roleWidth+gramsWidth+percentWidth+2*signWidth+5*columnGap, d.run(d.width, false))
}

func (d *tableLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	d.width = size.Width
	d.run(d.width, true)
}

// run walks the lines, placing them if asked to, and gives the height.
func (d *tableLayout) run(width float32, place bool) float32 {
	t := d.t
	width = min(width, widestTable)
	drop := width - signWidth
	more := drop - signWidth - columnGap
	percent := more - percentWidth - columnGap
	grams := percent - gramsWidth - columnGap
	role := grams - roleWidth - columnGap
	named := role - columnGap // where a name ends
	stacked := width > 0 && named < leastName
	if stacked {
		role, named = 0, grams-columnGap
	}
	put := func(o fyne.CanvasObject, x, y, w float32) float32 {
		h := o.MinSize().Height
		if place {
			kit.Put(o, fyne.NewPos(x, y), fyne.NewSize(w, h))
		}
		return h
	}
	ending := func(o fyne.CanvasObject, x, y float32) float32 { // as the figures do
		w := o.MinSize().Width
		return put(o, x+max(0, figureEnds-w), y, w)
	}
	if place {
		kit.SetVisible(t.head[0], !stacked)
	}
	put(t.head[0], 0, 0, roleWidth)
	put(t.head[1], role, 0, roleWidth)
	ending(t.head[2], grams, 0)
	ending(t.head[3], percent, 0)
	y := t.head[0].MinSize().Height + look.Space(0.5)
	for _, l := range append(slices.Clone(t.lines), t.spare) {
		h := put(l.name, 0, y, named)
		if stacked && l != t.spare {
			y += put(l.name, 0, y, width)
		}
		h = max(h, put(l.grams, grams, y, gramsWidth+columnGap-2))
		if l == t.spare {
			y += h + look.Space(1)
			continue
		}
		h = max(h, put(l.percent, percent, y, percentWidth+columnGap-2))
		put(l.role, role, y, roleWidth)
		put(l.more, more, y+(kit.LineHeight()-l.more.MinSize().Height)/2, signWidth)
		put(l.drop, drop, y+(kit.LineHeight()-l.drop.MinSize().Height)/2, signWidth)
		y += h + look.Space(0.5)
		if t.factsO != nil && t.facts.id == l.id {
			if place { // twice: its height follows from its width
				put(t.factsO, look.Space(4), y, width-look.Space(4))
			}
			y += put(t.factsO, look.Space(4), y, width-look.Space(4)) + look.Space(2)
		}
	}
	for _, r := range append(slices.Clone(t.ripe), t.total) {
		put(r.name, 0, y, named)
		ending(r.grams, grams, y)
		h := ending(r.percent, percent, y)
		down := (h - r.gramsUnit.MinSize().Height) * 0.75 // on their baseline
		put(r.gramsUnit, grams+figureEnds+look.Space(1.5), y+down, signWidth)
		put(r.percentUnit, percent+figureEnds+look.Space(1.5), y+down, signWidth)
		y += h + look.Space(1)
	}
	return y
}
