package crumb

import (
	"image"
	"math"
	"slices"

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
	corners *kit.DragPoints // of a sheet
	pad     *pad

	full   image.Point // the picture's size, known before it is read
	lines  bool        // the outline and the line of known length are shown
	result *crumb.Result
	over   *image.RGBA // the cells as they lie over the photo
	photo  image.Image // as it was taken
	flat   bool        // the straightened picture is shown in its place
	drawn  bool        // the outline shown was drawn by hand
	said   []kit.PicturePoint
	rule   []kit.PicturePoint // the ends of the line of known length
	sheet  []kit.PicturePoint // the corners of the sheet

	onRatio func() // hears that the picture's form is another

	// What the hand did. onCell gets the index of a tapped cell, or -1.
	onOutline func(points []kit.PicturePoint, box bool)
	onLength  func(a, b kit.PicturePoint)
	onCorners func(points []kit.PicturePoint)
	onStroke  func(t tool, points []kit.PicturePoint)
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
	p.corners = kit.NewDragPoints(p.view)
	p.corners.Closed, p.corners.Color = true, look.ColorSeries(2)
	p.corners.OnChanged = func(points []kit.PicturePoint, done bool) {
		if done {
			p.onCorners(points)
		}
	}
	p.pad = newPad(p.view, p.draw)
	p.view.AddOverlay(p.pad)
	p.view.OnTapped = p.tap
	return p
}

// draw hands on what the pad drew.
func (p *picture) draw(t tool, points []kit.PicturePoint) {
	if !t.stays() {
		p.turnLines(true)
	}
	switch t {
	case outlineTool, boxTool:
		p.onOutline(points, t == boxTool)
	case lengthTool:
		p.onLength(points[0], points[1])
	case cornerTool:
		p.onCorners(points)
	default:
		p.onStroke(t, points)
	}
}

// begin takes up a tool; what it will replace goes out of the way.
func (p *picture) begin(t tool) {
	if t != noTool {
		p.setFlat(false)
	}
	p.pad.begin(t)
	p.showLines()
}

// tap on the outline's line puts a point in; elsewhere it asks for the cell there.
func (p *picture) tap(x, y float64) {
	at := kit.PicturePoint{X: x, Y: y}
	if p.flat && p.result != nil {
		at = kit.PicturePoint(p.result.InPhoto(crumb.Point(at)))
	}
	if p.lines && !p.flat {
		if points, ok := insertNear(p.outline.Points(), at, p.pad.reach(8)); ok {
			p.onOutline(points, false)
			return
		}
	}
	if p.result == nil {
		return
	}
	if i, ok := p.result.CellAt(crumb.Point(at)); ok {
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
	p.rule, p.sheet = nil, pointsOf(s.Corners)
	if s.LengthMM > 0 && s.From != s.To && len(s.Corners) == 0 {
		p.rule = pointsOf([]journal.Spot{s.From, s.To})
	}
	p.showLines()
}

// coarse is how far the outline that can be dragged may lie off the one found.
func (p *picture) coarse() float64 {
	return math.Max(1, 0.004*float64(max(p.full.X, p.full.Y)))
}

func (p *picture) showLines() {
	show := func(d *kit.DragPoints, points []kit.PicturePoint, unless ...tool) {
		if !p.lines || p.flat || slices.Contains(unless, p.pad.tool) {
			points = nil
		}
		d.SetPoints(points)
	}
	show(p.outline, p.said, outlineTool, boxTool)
	show(p.length, p.rule, lengthTool)
	show(p.corners, p.sheet, cornerTool)
}

// turnLines shows or hides the outline and the line of known length.
func (p *picture) turnLines(on bool) {
	p.lines = on
	p.showLines()
}

// setResult shows what came of measuring; nil takes it away.
func (p *picture) setResult(r *crumb.Result, cells *image.RGBA) {
	p.result, p.over = r, cells
	p.layCells()
	if p.flat {
		p.setFlat(false)
	}
}

// layCells lays the cells over what is shown.
func (p *picture) layCells() {
	if p.flat {
		p.cells.setFlat(p.result)
	} else {
		p.cells.set(p.result, p.over)
	}
	p.view.RefreshOverlays()
}

// setPhoto shows the photo itself.
func (p *picture) setPhoto(img image.Image) {
	p.photo, p.flat = img, false
	p.view.SetPicture(img)
	p.onRatio()
}

// setFlat shows the straightened picture, or the photo as it was taken.
func (p *picture) setFlat(on bool) {
	on = on && p.result != nil && p.result.Straightened
	if on == p.flat || p.photo == nil {
		return
	}
	p.flat = on
	if on {
		p.view.SetPicture(p.result.Picture())
	} else {
		p.view.SetPicture(p.photo)
	}
	p.onRatio()
	p.view.SetView(kit.WholePicture)
	p.showLines()
	p.layCells()
}

// ratio is the height of what is shown to its width; 0 before that is known.
func (p *picture) ratio() float32 {
	size := p.full
	if p.flat {
		size = p.view.PictureSize()
	}
	if size.X == 0 {
		return 0
	}
	return float32(size.Y) / float32(size.X)
}

// Object is what is seen.
func (p *picture) Object() fyne.CanvasObject { return p.view }
