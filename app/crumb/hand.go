package crumb

import (
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/journal"
	"twinloaf/journal/crumb"
)

// mostStrokes bounds what one photo's record holds of a hand; more corrections than
// that are a sign that the photo is to be taken again.
const mostStrokes = 500

// kinds are what the tools of the hand do.
var kinds = map[tool]crumb.CorrectionKind{eraseTool: crumb.Erase, joinTool: crumb.Join, cutTool: crumb.Cut, paintTool: crumb.Paint}

// strokeHelp says how a tool of the hand is used.
func strokeHelp(t tool) string {
	switch t {
	case eraseTool:
		return lang.L("Drag over cells that are none, or click each. Ctrl+Z takes a stroke back, Esc puts the tool down.")
	case joinTool:
		return lang.L("Drag from one cell to the next to make one of them. Ctrl+Z takes a stroke back, Esc puts the tool down.")
	case cutTool:
		return lang.L("Drag across a cell to make two of it. Ctrl+Z takes a stroke back, Esc puts the tool down.")
	}
	return lang.L("Drag round a cell that was missed, or click corner after corner and close with Enter. Esc puts the tool down.")
}

// strokeLabel names a stroke in the history.
func strokeLabel(t tool) string {
	switch t {
	case eraseTool:
		return lang.L("erasing cells")
	case joinTool:
		return lang.L("joining cells")
	case cutTool:
		return lang.L("splitting a cell")
	}
	return lang.L("adding a cell")
}

// stroke takes a correction from the hand: one step of the history.
func (p *measurePage) stroke(t tool, points []kit.PicturePoint) {
	ph, err := journal.Get[journal.Photo](p.env.Journal, p.id)
	if p.env.Failed(err) {
		return
	}
	if len(sliceOf(ph).Strokes) >= mostStrokes {
		p.told.SetText(lang.L("That is {{.N}} corrections, and no more are kept: a photo in better light serves you better.", map[string]any{"N": mostStrokes}))
		return
	}
	if t != paintTool {
		points = simplify(points, p.picture.pad.reach(0.7))
	}
	p.write(strokeLabel(t), func(s *journal.Slice) {
		s.Strokes = append(s.Strokes, journal.CellStroke{Do: kinds[t], Path: spotsOf(points)})
	})
}

// widen moves the outline outwards by hundredths of the slice's width.
func (p *measurePage) widen(steps float64) {
	o := crumb.Outline(nil)
	for _, q := range p.picture.said {
		o = append(o, crumb.Point(q))
	}
	if len(o) < 3 {
		p.told.SetText(lang.L("There is no outline yet to widen or narrow."))
		return
	}
	lo, hi := boundsOf(o)
	wider := outlinePoints(o.Widened(steps * (hi.X - lo.X) / 100))
	for i, q := range wider {
		wider[i] = within(q, p.picture.full)
	}
	p.write(lang.L("outline of a slice"), func(s *journal.Slice) { s.Outline, s.Drawn = spotsOf(wider), true })
}
