package crumb

import (
	"image"
	"math"

	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/journal"
	"twinloaf/journal/crumb"
)

// picture is the photo with what is laid over it: the cells, the outline, the line
// of known length, and the pad while something is drawn.
type picture struct {
	view    *kit.PhotoView
	cells   *cellLayer
	outline *kit.DragPoints
	length  *kit.DragPoints
	pad     *pad

	full   image.Point // the picture's size, known before it is read
	lines  bool        // the outline and the line of known length are shown
	result *crumb.Result
	drawn  bool // the outline shown was drawn by hand
	said   []kit.PicturePoint

	// What the hand did. onCell gets the index of a tapped cell, or -1.
	onOutline func(points []kit.PicturePoint, box bool)
	onLength  func(a, b kit.PicturePoint)
	onCell    func(i int)
}

func newPicture(main kit.Main) *picture {
	p := &picture{view: kit.NewPhotoView(main), cells: newCellLayer(), lines: true}
	p.view.SignsToPage = true
	p.view.AddOverlay(p.cells)
	p.outline = kit.NewDragPoints(p.view)
	p.outline.Closed, p.outline.CanRemove, p.outline.Least = true, true, 3
	p.outline.OnChanged = func(points []kit.PicturePoint, done bool) {
		if done {
			p.onOutline(points, false)
		}
	}
	p.length = kit.NewDragPoints(p.view)
	p.length.Color = look.ColorSeries(4)
	p.length.OnChanged = func(points []kit.PicturePoint, done bool) {
		if done && len(points) == 2 {
			p.onLength(points[0], points[1])
		}
	}
	p.pad = newPad(p.view, p.draw)
	p.view.AddOverlay(p.pad)
	p.view.OnTapped = p.tap
	return p
}

// draw hands on what the pad drew.
func (p *picture) draw(t tool, points []kit.PicturePoint) {
	p.turnLines(true)
	switch t {
	case outlineTool, boxTool:
		p.onOutline(points, t == boxTool)
	case lengthTool:
		p.onLength(points[0], points[1])
	}
}

// begin takes up a tool; what it will replace goes out of the way.
func (p *picture) begin(t tool) {
	p.pad.begin(t)
	p.showLines()
}

// tap on the outline's line puts a point in; elsewhere it asks for the cell there.
func (p *picture) tap(x, y float64) {
	at := kit.PicturePoint{X: x, Y: y}
	if p.lines {
		if points, ok := insertNear(p.outline.Points(), at, p.pad.reach(8)); ok {
			p.onOutline(points, false)
			return
		}
	}
	if p.result == nil {
		return
	}
	if i, ok := p.result.CellAt(crumb.Point{X: x, Y: y}); ok {
		p.onCell(i)
		return
	}
	p.onCell(-1)
}

// setSlice shows what was said of the slice. found is the outline as it was
// measured, for a slice that was found by itself.
func (p *picture) setSlice(s journal.Slice, found crumb.Outline) {
	p.drawn = len(s.Outline) > 0
	if p.drawn {
		p.said = pointsOf(s.Outline)
	} else {
		p.said = fewer(outlinePoints(found), p.coarse())
	}
	p.showLines()
	if s.LengthMM > 0 && s.From != s.To {
		p.length.SetPoints(pointsOf([]journal.Spot{s.From, s.To}))
	} else {
		p.length.SetPoints(nil)
	}
	if !p.lines {
		p.length.SetPoints(nil)
	}
}

// coarse is how far the outline that can be dragged may lie off the one found.
func (p *picture) coarse() float64 {
	return math.Max(1, 0.004*float64(max(p.full.X, p.full.Y)))
}

func (p *picture) showLines() {
	if !p.lines || p.pad.tool == outlineTool || p.pad.tool == boxTool {
		p.outline.SetPoints(nil)
		return
	}
	p.outline.SetPoints(p.said)
}

// turnLines shows or hides the outline and the line of known length.
func (p *picture) turnLines(on bool) {
	p.lines = on
	p.showLines()
}

// setResult shows what came of measuring; nil takes it away.
func (p *picture) setResult(r *crumb.Result, cells *image.RGBA) {
	p.result = r
	p.cells.set(r, cells)
	p.view.RefreshOverlays()
}

// Object is what is seen.
func (p *picture) Object() fyne.CanvasObject { return p.view }
