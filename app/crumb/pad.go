package crumb

import (
	"image/color"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/kit"
	"twinloaf/app/look"
)

// A tool is what is being drawn on the picture.
type tool int

const (
	noTool      tool = iota
	outlineTool      // freehand, or corner after corner
	boxTool          // from one corner to the other
	lengthTool       // a line from end to end
	cornerTool       // the four corners of a sheet, one after another or as a box
	eraseTool        // strokes over cells that are none
	joinTool         // strokes from cell to cell
	cutTool          // strokes through a cell
	paintTool        // as an outline, round a cell that was missed
)

// stays tells whether a tool stays in hand after a stroke, for the next.
func (t tool) stays() bool { return t >= eraseTool }

// free tells whether a drag with the tool draws a line as the hand goes.
func (t tool) free() bool { return t == outlineTool || t.stays() }

// encloses tells whether what is drawn is closed.
func (t tool) encloses() bool { return t == outlineTool || t == paintTool }

// least lengths of what is drawn, in points of the screen: what is shorter was a
// slip of the hand.
const (
	leastStroke = 4
	leastDrawn  = 12
)

// pad lies over the picture while something is drawn on it. A drag draws, and so
// do taps; it hands over what was drawn and goes.
type pad struct {
	widget.BaseWidget
	// onDrawn gets the outline's corners, the box's four, or the line's two ends.
	onDrawn func(t tool, points []kit.PicturePoint)

	view   *kit.PhotoView
	tool   tool
	points []kit.PicturePoint // drawn so far
	end    kit.PicturePoint   // of a drag from corner to corner
	drag   bool
	tapped bool // corners were tapped, so that a drag goes on from them
	lines  []*canvas.Line
}

func newPad(v *kit.PhotoView, drawn func(tool, []kit.PicturePoint)) *pad {
	p := &pad{view: v, onDrawn: drawn}
	p.ExtendBaseWidget(p)
	p.Hide()
	return p
}

// begin takes up a tool; noTool puts it down.
func (p *pad) begin(t tool) {
	p.tool, p.points, p.drag, p.tapped = t, nil, false, false
	kit.SetVisible(p, t != noTool)
	p.draw()
}

// busy tells whether something is being drawn.
func (p *pad) busy() bool { return p.tool != noTool }

// finish closes an outline of corners where there is one.
func (p *pad) finish() {
	if p.tool.encloses() && len(p.points) >= 3 {
		p.give(p.points)
	}
}

// takeBack takes away the corner tapped last.
func (p *pad) takeBack() {
	if n := len(p.points); n > 0 {
		p.points = p.points[:n-1]
		p.draw()
	}
}

func (p *pad) give(points []kit.PicturePoint) {
	t := p.tool
	points = slices.Clone(points)
	if t.stays() {
		p.begin(t)
	} else {
		p.begin(noTool)
	}
	p.onDrawn(t, points)
}

func (p *pad) at(pos fyne.Position) kit.PicturePoint {
	x, y := p.view.PictureAt(pos)
	return within(kit.PicturePoint{X: x, Y: y}, p.view.PictureSize())
}

// reach turns points of the screen into pixels of the picture.
func (p *pad) reach(points float32) float64 {
	x0, _ := p.view.PictureAt(fyne.NewPos(0, 0))
	x1, _ := p.view.PictureAt(fyne.NewPos(points, 0))
	return x1 - x0
}

func (p *pad) Dragged(ev *fyne.DragEvent) {
	to := p.at(ev.Position)
	if !p.drag {
		p.drag = true
		from := p.at(ev.Position.SubtractXY(ev.Dragged.DX, ev.Dragged.DY))
		if !p.tool.free() && !p.tapped {
			p.points = nil
		}
		if p.tool != cornerTool || !p.tapped {
			p.points = append(p.points, from)
		}
	}
	p.end = to
	if p.tool.free() && between(p.points[len(p.points)-1], to) >= p.reach(leastStroke) {
		p.points = append(p.points, to)
	}
	p.draw()
}

// DragEnd ends what is drawn in one stroke.
func (p *pad) DragEnd() {
	if !p.drag {
		return
	}
	p.drag = false
	switch p.tool {
	case outlineTool, paintTool:
		if !p.tapped {
			p.closeStroke()
		}
	case eraseTool, joinTool, cutTool:
		p.give(append(p.points, p.end))
	case boxTool, lengthTool:
		p.closeSpan(p.points[0], p.end)
	case cornerTool:
		if !p.tapped {
			p.closeSpan(p.points[0], p.end)
		}
	}
	p.draw()
}

func (p *pad) closeStroke() {
	least := p.reach(leastDrawn)
	if len(p.points) < 3 || areaOf(p.points) < least*least {
		p.points = nil
		return
	}
	p.give(fewer(p.points, p.reach(1.5)))
}

func (p *pad) closeSpan(a, b kit.PicturePoint) {
	if between(a, b) < p.reach(leastDrawn) {
		p.points = nil
		return
	}
	if p.tool == lengthTool {
		p.give([]kit.PicturePoint{a, b})
		return
	}
	p.give([]kit.PicturePoint{{X: min(a.X, b.X), Y: min(a.Y, b.Y)}, {X: max(a.X, b.X), Y: min(a.Y, b.Y)},
		{X: max(a.X, b.X), Y: max(a.Y, b.Y)}, {X: min(a.X, b.X), Y: max(a.Y, b.Y)}})
}

// Tapped sets a corner, or an end.
func (p *pad) Tapped(ev *fyne.PointEvent) {
	here := p.at(ev.Position)
	switch {
	case p.tool == eraseTool:
		p.give([]kit.PicturePoint{here})
	case p.tool.encloses() && len(p.points) > 2 && between(p.points[0], here) <= p.reach(leastDrawn):
		p.finish()
	case p.tool.encloses(), p.tool == cornerTool && len(p.points) < 3:
		p.points, p.tapped = append(p.points, here), true
	case p.tool == cornerTool:
		p.give(append(p.points, here))
	case (p.tool == joinTool || p.tool == cutTool) && len(p.points) == 1:
		p.give(append(p.points, here))
	case len(p.points) == 0:
		p.points, p.end = []kit.PicturePoint{here}, here
	default:
		p.closeSpan(p.points[0], here)
	}
	p.draw()
}

func (p *pad) MouseIn(*desktop.MouseEvent) {}

// MouseMoved shows where the second corner or end would come.
func (p *pad) MouseMoved(ev *desktop.MouseEvent) {
	if !p.drag && len(p.points) > 0 {
		p.end = p.at(ev.Position)
		p.draw()
	}
}

func (p *pad) MouseOut() {}

// Cursor shows that a drag draws.
func (p *pad) Cursor() desktop.Cursor { return desktop.CrosshairCursor }

func (p *pad) Objects() []fyne.CanvasObject {
	out := make([]fyne.CanvasObject, 0, len(p.lines)+1)
	for _, l := range p.lines {
		out = append(out, l)
	}
	return append(out, p)
}

func (p *pad) Arrange(at func(x, y float64) fyne.Position, _ float32) {
	kit.Put(p, fyne.NewPos(0, 0), p.view.Size())
	path := p.path()
	for i, l := range p.lines {
		if i+1 >= len(path) {
			l.Hide()
			continue
		}
		l.Position1, l.Position2 = at(path[i].X, path[i].Y), at(path[i+1].X, path[i+1].Y)
		l.Show()
		l.Refresh()
	}
}

// path is the line through what is drawn so far.
func (p *pad) path() []kit.PicturePoint {
	switch {
	case len(p.points) == 0:
		return nil
	case p.tool == boxTool, p.tool == cornerTool && !p.tapped:
		a, b := p.points[0], p.end
		return []kit.PicturePoint{a, {X: b.X, Y: a.Y}, b, {X: a.X, Y: b.Y}, a}
	case p.tool == lengthTool:
		return []kit.PicturePoint{p.points[0], p.end}
	}
	return append(append([]kit.PicturePoint(nil), p.points...), p.end)
}

func (p *pad) draw() {
	for len(p.lines) < len(p.path())-1 {
		l := canvas.NewLine(color.Transparent)
		l.StrokeWidth = 2
		p.lines = append(p.lines, l)
	}
	for _, l := range p.lines {
		l.StrokeColor = theme.Color(look.ColorSeries(4))
	}
	p.view.RefreshOverlays()
}

func (p *pad) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(canvas.NewRectangle(color.Transparent))
}
