package crumb

import (
	"image"
	"slices"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/journal"
	"twinloaf/journal/crumb"
)

// take takes up a tool, and says how it is used.
func (p *measurePage) take(t tool) {
	p.env.Window.Canvas().Unfocus() // Enter closes the outline, and presses no button
	p.picture.begin(t)
	switch t {
	case outlineTool:
		p.told.SetText(lang.L("Drag round the slice, or click corner after corner and close with Enter. Esc leaves it."))
	case boxTool:
		p.told.SetText(lang.L("Drag a box from corner to corner, within the crumb or round the slice. Esc leaves it."))
	case lengthTool:
		p.told.SetText(lang.L("Drag along a length that you know: a ruler, a coin, the slice. Esc leaves it."))
	case eraseTool, joinTool, cutTool, paintTool:
		p.told.SetText(strokeHelp(t))
	case cornerTool:
		p.told.SetText(lang.L("Click the four corners of a sheet of paper, a bank card or a board, or drag a box and then its corners. Esc leaves it."))
	default:
		p.told.SetText("")
	}
}

// hold gives what takes up a tool.
func (p *measurePage) hold(t tool) func() { return func() { p.take(t) } }

// write changes what is said of the slice, as one step of the history.
func (p *measurePage) write(label string, set func(*journal.Slice)) {
	p.env.Do(label, func(tx *journal.Tx) error {
		return journal.Change(tx, p.id, func(ph *journal.Photo) { set(saidOf(ph)) })
	})
}

// edit changes what is said of the slice as it is typed or nudged.
func (p *measurePage) edit(label string, set func(*journal.Slice)) {
	p.env.Fail(journal.Edit(p.env.Journal, p.id, label, func(ph *journal.Photo) { set(saidOf(ph)) }))
}

// saidOf is what is said of a slice, to be altered.
func saidOf(ph *journal.Photo) *journal.Slice {
	if ph.Slice == nil {
		ph.Slice = &journal.Slice{}
	}
	return ph.Slice
}

// setOutline takes an outline from the hand. A box within the crumb has no crust; in
// one that reaches beyond the slice that was found, or that was drawn where none was, the
// slice is looked for first.
func (p *measurePage) setOutline(points []kit.PicturePoint, box bool) {
	p.told.SetText("")
	if box && (len(p.found) == 0 || !boxInCrumb(points, p.found)) {
		p.searchBox(points)
		return
	}
	p.keepOutline(points, box)
}

// keepOutline takes an outline as it was drawn.
func (p *measurePage) keepOutline(points []kit.PicturePoint, box bool) {
	only := box && boxInCrumb(points, p.found)
	p.write(lang.L("outline of a slice"), func(s *journal.Slice) {
		s.Outline, s.Drawn = spotsOf(points), true
		if box {
			s.CrumbOnly = only
		}
	})
}

// searchBox looks for the slice in a box; where none stands out in it, the box itself
// is the outline.
func (p *measurePage) searchBox(points []kit.PicturePoint) {
	ph, err := journal.Get[journal.Photo](p.env.Journal, p.id)
	if p.env.Failed(err) {
		return
	}
	box := image.Rect(int(points[0].X), int(points[0].Y), int(points[2].X), int(points[2].Y))
	p.session.find(ph, box, func(found []crumb.Outline) {
		switch {
		case !p.Here() || p.loaded != ph.Hash:
		case len(found) == 0 || areaOf(outlinePoints(found[0])) < leastOfBox*areaOf(points):
			p.keepOutline(points, true)
		default:
			p.takeFound(found[0])
			p.told.SetText(lang.L("This stands out within the box. B draws another."))
		}
	})
}

// leastOfBox is the share of a box that what was found in it must take to be what the
// box was drawn round, and no large cell within the crumb.
const leastOfBox = 0.4

// takeFound takes an outline that was found in place of the first.
func (p *measurePage) takeFound(o crumb.Outline) {
	p.write(lang.L("another outline of a slice"), func(s *journal.Slice) {
		s.Outline, s.Drawn, s.CrumbOnly = spotsOf(outlinePoints(o)), false, false
	})
}

// nextOutline goes from one outline that may be the slice's to the next: from a board to
// what lies on it.
func (p *measurePage) nextOutline() {
	p.take(noTool)
	ph, err := journal.Get[journal.Photo](p.env.Journal, p.id)
	if p.env.Failed(err) {
		return
	}
	p.session.find(ph, image.Rectangle{}, func(found []crumb.Outline) {
		if !p.Here() || p.loaded != ph.Hash {
			return
		}
		if len(found) < 2 {
			p.told.SetText(lang.L("Nothing else stands out. Drag a box round the slice with B, or draw its outline with O."))
			return
		}
		at := slices.IndexFunc(found, func(o crumb.Outline) bool { return slices.Equal(spotsOf(outlinePoints(o)), sliceOf(ph).Outline) })
		p.takeFound(found[(max(at, 0)+1)%len(found)]) // where none of them is in force, the likeliest was
		p.told.SetText(lang.L("This is the next best outline. N goes on, F goes back to the first."))
	})
}

// findAgain forgets what was drawn and has the slice found.
func (p *measurePage) findAgain() {
	p.take(noTool)
	p.write(lang.L("finding a slice by itself"), func(s *journal.Slice) { s.Outline, s.Drawn, s.CrumbOnly = nil, false, false })
	if p.summary != nil && p.summary.FoundByItself {
		p.told.SetText(lang.L("This is the slice as it was found."))
	}
}

// setLine takes a line of known length; how long it is, is asked next.
func (p *measurePage) setLine(a, b kit.PicturePoint) {
	p.told.SetText("")
	ends := spotsOf([]kit.PicturePoint{a, b})
	p.write(lang.L("a line of known length"), func(s *journal.Slice) {
		s.From, s.To, s.Corners = ends[0], ends[1], nil
		if s.LengthMM <= 0 {
			s.LengthMM = firstGuess
		}
	})
	p.setting.length.Focus()
}

// firstGuess stands until the baker says how long the line is: a hundred
// millimetres of a ruler.
const firstGuess = 100

func (p *measurePage) setLength(mm float64) {
	p.edit(lang.L("true length on a slice"), func(s *journal.Slice) { s.LengthMM = max(0, mm) })
}

// setScaleFrom says from what the scale comes: the slice's width, a line, or a sheet. A
// line and a sheet are asked for first.
func (p *measurePage) setScaleFrom(of scaleSource) {
	switch of {
	case fromLine, fromSheet:
		p.take(map[scaleSource]tool{fromLine: lengthTool, fromSheet: cornerTool}[of])
		if ph, err := journal.Get[journal.Photo](p.env.Journal, p.id); err == nil {
			p.setting.sync(sliceOf(ph), p.units)
		}
	default:
		p.write(lang.L("true length on a slice"), func(s *journal.Slice) {
			s.From, s.To, s.Corners = journal.Spot{}, journal.Spot{}, nil
		})
	}
}

func (p *measurePage) setLarge(from float64) {
	p.edit(lang.L("what counts as a large cell"), func(s *journal.Slice) { s.LargeFromMM = max(0, from) })
}

// nudge moves the sensitivity by steps.
func (p *measurePage) nudge(steps int) {
	ph, err := journal.Get[journal.Photo](p.env.Journal, p.id)
	if p.env.Failed(err) {
		return
	}
	to := nudge(sliceOf(ph).Sensitivity, steps)
	p.edit(lang.L("sensitivity to cells"), func(s *journal.Slice) { s.Sensitivity = to })
}

func (p *measurePage) turnCells() { p.picture.cells.turn(!p.picture.cells.on) }

func (p *measurePage) turnLines() {
	p.picture.turnLines(!p.picture.lines)
	if ph, err := journal.Get[journal.Photo](p.env.Journal, p.id); err == nil {
		p.picture.setSlice(sliceOf(ph), p.outlineFound())
	}
}

// tellCell says how large the tapped cell is.
func (p *measurePage) tellCell(i int) {
	if i < 0 || p.picture.result == nil {
		p.told.SetText("")
		return
	}
	r := p.picture.result
	p.told.SetText(cellWords(r.Cells[i], i+1, r.Summary, p.units))
}

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
