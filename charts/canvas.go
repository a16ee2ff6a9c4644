package charts

import "image/color"

// A Canvas is anything that lines, shapes and words can be put on, such as a page to be
// printed. Places and lengths are in layout units from the upper left corner; a colour
// that is wholly transparent draws nothing.
type Canvas interface {
	// Trail is a line through points, or a shape when it is closed; dash is nil, or
	// how long the line is drawn and left out.
	Trail(points [][2]float64, closed bool, fill, stroke color.NRGBA, width float64, dash []float64)
	Circle(x, y, radius float64, fill, stroke color.NRGBA, width float64)
	// Words stand on the line at y: anchor 0 begins at x, 0.5 is centred on it, 1 ends
	// there. Size is the height of the type.
	Words(words string, x, y, anchor, size float64, bold bool, ink color.NRGBA)
}

// Draw puts the chart on a canvas, width by height units large, without paper behind it.
func (c *Chart) Draw(on Canvas, width, height int) error {
	sh, err := c.layout(width, height, 1)
	if err != nil {
		return err
	}
	return sh.play(canvasSurface{on})
}

// canvasSurface plays a sheet to a canvas.
type canvasSurface struct{ on Canvas }

func (c canvasSurface) shape(it item) {
	if it.radius > 0 {
		c.on.Circle(it.pts[0].x, it.pts[0].y, it.radius, it.fill, it.stroke, it.width)
		return
	}
	points := make([][2]float64, len(it.pts))
	for i, p := range it.pts {
		points[i] = [2]float64{p.x, p.y}
	}
	c.on.Trail(points, it.closed, it.fill, it.stroke, it.width, it.dash)
}

func (c canvasSurface) text(it item) error {
	c.on.Words(it.words, it.pts[0].x, it.pts[0].y, it.anchor, it.font.size, it.font.bold, it.font.colour)
	return nil
}
