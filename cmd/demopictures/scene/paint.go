package scene

import (
	"image"
	"math"
	"math/rand/v2"
)

// A Painter holds the tiles of noise that every picture draws on. It is not
// changed by drawing.
type Painter struct {
	smooth *tile // slow clouds with fine detail
	fine   *tile // grain
}

// NewPainter makes a painter. Its tiles are always the same.
func NewPainter() *Painter {
	rng := rand.New(rand.NewPCG(11, 0xb4ead))
	return &Painter{smooth: newTile(rng, 8, 6), fine: newTile(rng, 96, 3)}
}

// A Size is that of a picture in pixels. The zero Size is 1600 by 1200.
type Size struct{ W, H int }

func (s Size) orUsual() Size {
	if s.W <= 0 || s.H <= 0 {
		return Size{1600, 1200}
	}
	return s
}

// rgb is a colour in grey levels, 0 to 255. As a struct, unlike as an array, it
// stays in registers, which makes painting a third faster.
type rgb struct{ r, g, b float32 }

func (c rgb) times(k float32) rgb { return rgb{c.r * k, c.g * k, c.b * k} }

func (c rgb) mix(d rgb, t float32) rgb {
	return rgb{mix(c.r, d.r, t), mix(c.g, d.g, t), mix(c.b, d.b, t)}
}

// add lightens by a highlight of the given strength.
func (c rgb) add(k float32) rgb { return rgb{c.r + k, c.g + k, c.b + k*0.94} }

// ramp reads a colour off a scale of colours, t from 0 to 1.
func ramp(t float32, colours ...rgb) rgb {
	t = clamp(t) * float32(len(colours)-1)
	i := min(int(t), len(colours)-2)
	return colours[i].mix(colours[i+1], t-float32(i))
}

func mix(a, b, t float32) float32 { return a + (b-a)*t }

func clamp(t float32) float32 {
	if t > 1 {
		return 1
	}
	if t > 0 {
		return t
	}
	return 0
}

// step rises smoothly from 0 at a to 1 at b; b may be the lower.
func step(a, b, x float32) float32 {
	t := clamp((x - a) / (b - a))
	return t * t * (3 - 2*t)
}

func sqrt(x float32) float32 {
	if x > 0 {
		return float32(math.Sqrt(float64(x)))
	}
	return 0
}

func exp(x float32) float32 { return float32(math.Exp(float64(x))) }

// sin is a parabola bent towards the sine, which no eye can tell from it: it is off
// by no more than 0.0011, and many times quicker.
func sin(x float32) float32 {
	t := x * (1 / (2 * math.Pi))
	t -= float32(int(t))
	switch { // to half a turn either way
	case t > 0.5:
		t--
	case t < -0.5:
		t++
	}
	s := 16 * t * (0.5 - abs(t))
	return s * (0.775 + 0.225*abs(s))
}

func abs(x float32) float32 {
	if x < 0 {
		return -x
	}
	return x
}

// bell is 1 at 0 and falls off over a width of about s.
func bell(x, s float32) float32 {
	q := x / s
	if q > 4 || q < -4 {
		return 0
	}
	return exp(-q * q)
}

// A canvas is a picture being painted. Places are in units of half its height,
// from its middle: y from -1 at the top to 1, x as much wider as it is.
type canvas struct {
	w, h   int
	pixel  float32 // side of a pixel in units
	height []float32
	img    *image.RGBA
}

func newCanvas(s Size) *canvas {
	s = s.orUsual()
	return &canvas{w: s.W, h: s.H, pixel: 2 / float32(s.H), img: image.NewRGBA(image.Rect(0, 0, s.W, s.H))}
}

func (c *canvas) place(i, j int) (x, y float32) {
	return (float32(i) + 0.5 - float32(c.w)/2) * c.pixel, (float32(j) + 0.5 - float32(c.h)/2) * c.pixel
}

// relief works out the height of every pixel; k is its number.
func (c *canvas) relief(height func(k int, x, y float32) float32) {
	c.height = make([]float32, c.w*c.h)
	for j := range c.h {
		for i := range c.w {
			x, y := c.place(i, j)
			c.height[j*c.w+i] = height(j*c.w+i, x, y)
		}
	}
}

// slope is the fall of the relief at a pixel, in units by unit.
func (c *canvas) slope(i, j int) (dx, dy float32) {
	k := j*c.w + i
	if i > 0 && i < c.w-1 {
		dx = (c.height[k+1] - c.height[k-1]) / (2 * c.pixel)
	}
	if j > 0 && j < c.h-1 {
		dy = (c.height[k+c.w] - c.height[k-c.w]) / (2 * c.pixel)
	}
	return dx, dy
}

// A lamp is light from one side, over the left shoulder.
type lamp struct{ x, y, z float32 }

var window = lamp{-0.46, -0.58, 0.67}

// on gives the light on a slope, 1 on a level place, and its sheen.
func (l lamp) on(dx, dy float32) (light, sheen float32) {
	n := 1 / sqrt(1+dx*dx+dy*dy)
	d := max(0, (l.z-dx*l.x-dy*l.y)*n)
	// Halfway between the lamp and the eye above.
	hz := l.z + 1
	s := max(0, (hz-dx*l.x-dy*l.y)*n) / sqrt(l.x*l.x+l.y*l.y+hz*hz)
	s *= s
	s *= s
	s *= s
	return 0.46 + 0.54*d/l.z, s * s
}

// paint gives every pixel its colour.
func (c *canvas) paint(colour func(i, j int, x, y float32) rgb) *image.RGBA {
	for j := range c.h {
		row := c.img.Pix[j*c.img.Stride:]
		for i := range c.w {
			x, y := c.place(i, j)
			p := colour(i, j, x, y)
			// The corners of a lens are a little darker.
			p = p.times(1 - 0.055*(x*x+y*y))
			row[4*i], row[4*i+1], row[4*i+2], row[4*i+3] = level(p.r), level(p.g), level(p.b), 255
		}
	}
	return c.img
}

func level(v float32) uint8 {
	if v >= 254.5 {
		return 255
	}
	if v > 0 {
		return uint8(int32(v + 0.5))
	}
	return 0
}
