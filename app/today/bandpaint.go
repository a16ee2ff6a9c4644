package today

import (
	"image"
	"image/color"
	"image/draw"
	"math"
	"time"

	"fyne.io/fyne/v2/theme"
	"golang.org/x/image/vector"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/charts"
)

// Where things are within the band, in points.
const (
	bandLeft  = 110 // the names stand left of it
	bandTop   = 28  // the hours stand above it
	laneTall  = 62  // a culture's lane
	laneShort = 44  // a dough's
	laneFoot  = 20  // what of a lane is beneath its line
	laneCurve = 36  // how tall the highest curve is
	bandFoot  = 6
	bandMark  = 14 // how wide a culture's mark is
)

// A brush paints in points onto a picture of device pixels.
type brush struct {
	img   *image.RGBA
	scale float64
}

// fill paints the shape that add draws. It is drawn twice: first to see how large it is,
// since a rasteriser takes as long as its picture is large.
func (b brush) fill(c color.Color, add func(p *pen)) {
	p := &pen{scale: b.scale, low: b.img.Rect.Max, high: b.img.Rect.Min}
	add(p)
	box := image.Rectangle{Min: p.low, Max: p.high}.Intersect(b.img.Rect)
	if box.Empty() {
		return
	}
	p.low, p.r = box.Min, vector.NewRasterizer(box.Dx(), box.Dy())
	add(p)
	p.r.Draw(b.img, box, image.NewUniform(c), image.Point{})
}

// box fills a rectangle.
func (b brush) box(c color.Color, x, y, w, h float64) {
	b.fill(c, func(p *pen) {
		p.move(x, y)
		p.line(x+w, y)
		p.line(x+w, y+h)
		p.line(x, y+h)
		p.close()
	})
}

// stroke paints a line through points, thick points wide.
func (b brush) stroke(c color.Color, thick float64, xs, ys []float64) {
	b.fill(c, func(p *pen) {
		for i := 1; i < len(xs); i++ {
			// Each piece is a thin upright band; the pieces overlap by a hair,
			// which serves for curves that never turn back.
			p.move(xs[i-1]-0.2, ys[i-1]-thick/2)
			p.line(xs[i]+0.2, ys[i]-thick/2)
			p.line(xs[i]+0.2, ys[i]+thick/2)
			p.line(xs[i-1]-0.2, ys[i-1]+thick/2)
			p.close()
		}
	})
}

// A pen draws a shape in points. Without a rasteriser it only sees how far it reaches.
type pen struct {
	r         *vector.Rasterizer
	scale     float64
	low, high image.Point // of the picture drawn on, in device pixels
}

// at gives a place in the picture drawn on.
func (p *pen) at(x, y float64) (float32, float32) {
	x, y = x*p.scale, y*p.scale
	if p.r == nil {
		p.low = image.Pt(min(p.low.X, int(math.Floor(x))), min(p.low.Y, int(math.Floor(y))))
		p.high = image.Pt(max(p.high.X, int(math.Ceil(x))), max(p.high.Y, int(math.Ceil(y))))
	}
	return float32(x - float64(p.low.X)), float32(y - float64(p.low.Y))
}

func (p *pen) move(x, y float64) {
	if x, y := p.at(x, y); p.r != nil {
		p.r.MoveTo(x, y)
	}
}

func (p *pen) line(x, y float64) {
	if x, y := p.at(x, y); p.r != nil {
		p.r.LineTo(x, y)
	}
}

func (p *pen) cube(x1, y1, x2, y2, x3, y3 float64) {
	a, b := p.at(x1, y1)
	c, d := p.at(x2, y2)
	if e, f := p.at(x3, y3); p.r != nil {
		p.r.CubeTo(a, b, c, d, e, f)
	}
}

func (p *pen) close() {
	if p.r != nil {
		p.r.ClosePath()
	}
}

// x gives the place of a time, in points from the left of a band width points wide.
func (b band) x(at time.Time, width float64) float64 {
	return bandLeft + (width-bandLeft)*float64(at.Sub(b.from))/float64(b.to.Sub(b.from))
}

// at gives the time at a place: the inverse of x.
func (b band) at(x, width float64) time.Time {
	return b.from.Add(time.Duration((x - bandLeft) / (width - bandLeft) * float64(b.to.Sub(b.from))))
}

// tall is how high the band is, in points.
func (b band) tall() float32 {
	h := float32(bandTop + bandFoot)
	for _, l := range b.lanes {
		h += l.tall()
	}
	return h
}

// tall is how high the lane is: what is overdue wants room for its tag.
func (l lane) tall() float32 {
	if l.bake != "" {
		return laneShort - laneFoot + l.foot()
	}
	return laneTall - laneFoot + l.foot()
}

// foot is what of the lane is beneath its line.
func (l lane) foot() float32 {
	switch {
	case !l.late:
		return laneFoot
	case l.bake != "":
		return laneFoot + 14 // beneath its blocks
	}
	return laneFoot + 6
}

// paint draws everything of the band but its words.
func (b band) paint(w, h int, scale float64, pal look.Palette) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.Draw(img, img.Bounds(), image.NewUniform(pal.Paper), image.Point{}, draw.Src)
	br := brush{img, scale}
	width, height := float64(w)/scale, float64(h)/scale
	for _, n := range b.nights {
		x, x2 := max(bandLeft, b.x(n.from, width)), min(width, b.x(n.to, width))
		br.box(pal.Night, x, bandTop-4, x2-x, height-bandTop)
	}
	for at := b.firstHour(); at.Before(b.to); at = at.Add(3 * time.Hour) {
		br.box(pal.Rule, b.x(at, width)-0.5, bandTop-4, 1, height-bandTop)
	}
	y := float64(bandTop)
	for _, l := range b.lanes {
		base := y + float64(l.tall()-l.foot())
		br.box(pal.Edge, bandLeft, base, width-bandLeft, 1)
		if l.bake != "" {
			b.paintDough(br, l, base, width, pal)
		} else {
			b.paintCulture(br, l, base, width, pal)
		}
		y += float64(l.tall())
	}
	x := b.x(b.now, width)
	br.box(pal.Ember, x-0.75, bandTop-6, 1.5, height-bandTop+2)
	br.dot(pal.Ember, x, bandTop-6, 3.5)
	return img
}

// dot fills a disc.
func (b brush) dot(c color.Color, x, y, r float64) {
	const k = 0.5523 // a quarter circle as a cubic curve
	b.fill(c, func(p *pen) {
		p.move(x+r, y)
		p.cube(x+r, y+k*r, x+k*r, y+r, x, y+r)
		p.cube(x-k*r, y+r, x-r, y+k*r, x-r, y)
		p.cube(x-r, y-k*r, x-k*r, y-r, x, y-r)
		p.cube(x+k*r, y-r, x+r, y-k*r, x+r, y)
		p.close()
	})
}

// firstHour is the first hour on the band that is a multiple of three.
func (b band) firstHour() time.Time {
	at := time.Date(b.from.Year(), b.from.Month(), b.from.Day(), b.from.Hour(), 0, 0, 0, b.from.Location())
	for at.Before(b.from) || at.Hour()%3 != 0 {
		at = at.Add(time.Hour)
	}
	return at
}

func (b band) paintCulture(br brush, l lane, base, width float64, pal look.Palette) {
	c := pal.Series[int(l.look.Hue)%len(pal.Series)]
	br.mark(l.look, bandMark/2, base-5)
	if !l.ripe.from.IsZero() {
		x, x2 := max(bandLeft, b.x(l.ripe.from.Add(l.shift), width)), min(width, b.x(l.ripe.to.Add(l.shift), width))
		if x2 > x {
			br.box(pal.Field, x, base-1.5, x2-x, 4)
		}
	}
	top := 0.5
	for _, p := range l.curve {
		top = max(top, p.high)
	}
	up := func(rise float64) float64 { return base - laneCurve*max(0, rise)/top }
	var xs, low, mid, high []float64
	for _, p := range l.curve {
		x := b.x(p.at.Add(l.shift), width)
		if x < bandLeft || x > width {
			continue
		}
		xs = append(xs, x)
		low, mid, high = append(low, up(p.low)), append(mid, up(p.mid)), append(high, up(p.high))
	}
	if len(xs) > 1 {
		wash := c
		wash.A = 0x38
		br.fill(wash, func(p *pen) {
			p.move(xs[0], high[0])
			for i := range xs {
				p.line(xs[i], high[i])
			}
			for i := len(xs) - 1; i >= 0; i-- {
				p.line(xs[i], low[i])
			}
			p.close()
		})
		br.stroke(c, 2, xs, mid)
	}
	if x := b.x(l.handle.Add(l.shift), width); !l.handle.IsZero() && x >= bandLeft && x <= width {
		handle := l.look
		handle.Hollow = true
		br.mark(handle, x, base)
	}
}

func (b band) paintDough(br brush, l lane, base, width float64, pal look.Palette) {
	for _, bl := range l.blocks {
		x, x2 := max(bandLeft, b.x(bl.from, width)), min(width, b.x(bl.to, width))
		if x2 <= x {
			continue
		}
		br.box(theme.Color(pages.StepColor(bl.kind)), x, base+1, max(2, x2-x-1), 6)
	}
	for _, t := range l.ticks {
		x := b.x(t.at, width)
		if x < bandLeft || x > width {
			continue
		}
		c := pal.Edge
		if t.done {
			c = pal.Crust
		}
		br.box(c, x-1, base-14, 2, 12)
	}
}

// mark draws a culture's mark around a point.
func (b brush) mark(l charts.SeriesStyle, x, y float64) {
	img := kit.MarkPicture(l, int(math.Round(bandMark*b.scale)))
	if img == nil {
		return
	}
	at := image.Pt(int(math.Round((x-bandMark/2)*b.scale)), int(math.Round((y-bandMark/2)*b.scale)))
	draw.Draw(b.img, img.Bounds().Add(at), img, image.Point{}, draw.Over)
}
