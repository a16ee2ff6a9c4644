package crumb

import (
	"image"
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/journal/crumb"
)

// inks are the colours of the cells over a photo: those of the data series, which
// colour-blind eyes tell apart. They are the light ones in the dark theme too, since a
// photo is as bright there.
func inks() crumb.Inks {
	with := func(c color.NRGBA, alpha uint8) color.NRGBA { c.A = alpha; return c }
	light := look.Light().Series
	return crumb.Inks{
		Fill: with(light[0], 70), Rim: with(light[0], 235), Edge: with(light[1], 235), AddIn: with(light[3], 255),
	}
}

// cellLayer shows the cells as found over a photo, with a ring round the largest.
type cellLayer struct {
	pic   *canvas.Image
	ring  *canvas.Circle
	where crumb.Placement
	size  image.Point
	big   crumb.Cell
	pxPer float64 // photo pixels to a unit of the cell's lengths
	on    bool
}

func newCellLayer() *cellLayer {
	c := &cellLayer{on: true, ring: canvas.NewCircle(color.Transparent),
		pic: &canvas.Image{FillMode: canvas.ImageFillStretch, ScaleMode: canvas.ImageScaleSmooth}}
	c.ring.StrokeWidth = 3
	c.pic.Hide()
	c.ring.Hide()
	return c
}

// set shows what came of measuring; nil shows nothing.
func (c *cellLayer) set(r *crumb.Result, cells *image.RGBA) {
	c.pic.Image = nil
	c.size = image.Point{}
	c.big = crumb.Cell{}
	if r != nil && cells != nil {
		c.pic.Image = cells
		c.where, c.size = r.Placement(), cells.Rect.Size()
		if i := largest(r.Cells); i >= 0 && r.Measured(crumb.LargestArea).Trust != crumb.Withheld {
			c.big, c.pxPer = r.Cells[i], r.PxPerMM
		}
	}
	c.show()
	c.pic.Refresh()
}

// setFlat shows it over the straightened picture.
func (c *cellLayer) setFlat(r *crumb.Result) {
	c.set(r, flatten(r.OverPicture(inks())))
	c.where = crumb.Placement{Scale: 1}
	if at, ok := r.InPicture(c.big.At); ok {
		c.big.At, c.pxPer = at, r.WorkPxPerMM
	}
	c.show()
}

// turn switches the cells on or off.
func (c *cellLayer) turn(on bool) {
	c.on = on
	c.show()
	canvas.Refresh(c.pic) // a picture that is shown again does not ask to be drawn
}

func (c *cellLayer) show() {
	kit.SetVisible(c.pic, c.on && c.pic.Image != nil)
	kit.SetVisible(c.ring, c.on && c.big.Area > 0)
	c.ring.StrokeColor = theme.Color(look.ColorSeries(5))
	c.ring.Refresh()
}

func (c *cellLayer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{c.pic, c.ring} }

func (c *cellLayer) Arrange(at func(x, y float64) fyne.Position, _ float32) {
	a := at(c.where.X, c.where.Y)
	b := at(c.where.X+float64(c.size.X)*c.where.Scale, c.where.Y+float64(c.size.Y)*c.where.Scale)
	kit.Put(c.pic, a, fyne.NewSize(b.X-a.X, b.Y-a.Y))
	r := c.big.Major*c.pxPer/2 + 2
	p, q := at(c.big.At.X-r, c.big.At.Y-r), at(c.big.At.X+r, c.big.At.Y+r)
	side := max(16, q.X-p.X)
	middle := at(c.big.At.X, c.big.At.Y)
	kit.Put(c.ring, fyne.NewPos(middle.X-side/2, middle.Y-side/2), fyne.NewSquareSize(side))
}

// largest is the index of the cell with the greatest area, or -1.
func largest(cells []crumb.Cell) int {
	out, area := -1, math.Inf(-1)
	for i, c := range cells {
		if c.Area > area {
			out, area = i, c.Area
		}
	}
	return out
}
