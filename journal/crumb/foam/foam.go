// Package foam draws slices of bread out of geometry: bubbles that overlap in depth
// are cut by a plane and lit by a window. Nothing in the picture is painted as a cell;
// what shows is the surface that light falls on. It is the second judge of package
// crumb, and shares nothing with the first, package phantom: what holds on both holds
// for a better reason than that the measuring was set on one.
//
// The bubbles are a Boolean model: spheres thrown into the dough without regard to each
// other (Chiu, Stoyan, Kendall & Mecke 2013, Stochastic Geometry and its Applications,
// from memory). The light is the window's, as far as the surface itself does not stand
// in its way, and what comes from all round, likewise.
//
// What counts as one cell is defined on the plane, see [Truth].
package foam

import (
	"cmp"
	"context"
	"fmt"
	"image"
	"math"
	"math/rand/v2"
)

// Slice says what is drawn. The same Slice gives the same picture, whatever draws it.
type Slice struct {
	Seed          uint64
	Width, Height int     // pixels of the picture
	WidthMM       float64 // of the slice; 0 means 60
	Share         float64 // of the picture's width that the slice takes; 0 means 0.84
	ThickMM       float64 // 0 means 12; a hole deeper than that shows the table
	MedianMM      float64 // median diameter of the bubbles; 0 means 1.4
	LogSD         float64 // of ln(diameter); 0 means 0.4
	Open          float64 // share of the plane that lies in bubbles; 0 means 0.38
	Grain         float64 // standard deviation of the walls' own brightness, as a share of it
	GrainMM       float64 // how wide its specks are; 0 means 0.35
	Light         Light
	Scene         Scene
}

// Light says how the slice is lit and photographed.
type Light struct {
	Direction float64 // where the window stands, degrees from the right, clockwise as seen
	Height    float64 // degrees of its middle above the table; 0 means 35
	Around    float64 // share of the light that comes from all round; 0 means 0.5
	Bounce    float64 // how much light the walls of a cell throw to each other, 0 to 1
	Gain      float64 // 0 means 1
	Noise     float64 // standard deviation, grey levels
	Blur      float64 // standard deviation, pixels
	Flash     float64 // share of the light that comes from the camera, brightest in the middle
}

// Under is what lies between the slice and the table.
type Under int

// What may lie there.
const (
	Table Under = iota
	Board
	Plate
)

// Scene is what a kitchen puts into the picture.
type Scene struct {
	Ground [3]float64 // the table's colour; the zero value is dark slate
	Under  Under
	Cloth  float64 // depth of its weave and stripes
	Second bool    // another slice lies beside
	Shadow float64 // depth of a shadow that somebody throws across
}

// A Point is a place in the picture, in pixels.
type Point struct{ X, Y float64 }

// Truth is what is known of a drawn slice, from geometry alone.
//
// An opening is where the plane of the cut lies in a bubble. Each bubble that the plane
// meets makes a disc on it. Two discs that overlap are one cell when the smaller one's
// middle lies within the other's part, or when the chord they share is at least 0.82
// of the smaller one's diameter; else two cells meet along that chord. What is narrower
// than 0.35 mm, or nowhere deeper than 0.15 of its own width, is a dent in the wall and
// no cell.
type Truth struct {
	PxPerMM float64
	Open    float64 // share of the crumb that is cell
	Whole   int     // cells that the crumb's edge does not cut
	Holes   float64 // share of the crumb that shows the table
	Outline []Point // of the slice
	WidthMM float64
}

// A Picture is a drawn slice with its truth.
type Picture struct {
	Photo  *image.RGBA
	Labels []uint16    // Width*Height: 0 for wall, dents and outside, otherwise the cell's number from 1
	Crumb  *image.Gray // 255 where the crumb is, crust left out
	Truth  Truth
}

func (s Slice) withDefaults() Slice {
	def := func(v *float64, d float64) {
		*v = cmp.Or(*v, d)
	}
	def(&s.WidthMM, 60)
	def(&s.Share, 0.84)
	def(&s.ThickMM, 12)
	def(&s.MedianMM, 1.4)
	def(&s.LogSD, 0.4)
	def(&s.Open, 0.38)
	def(&s.GrainMM, 0.35)
	def(&s.Light.Height, 35)
	def(&s.Light.Around, 0.5)
	def(&s.Light.Gain, 1)
	if s.Scene.Ground == [3]float64{} {
		s.Scene.Ground = [3]float64{52, 54, 60}
	}
	return s
}

// fine is how many samples go to a pixel, along each side.
const fine = 2

// Draw draws a slice. It returns ctx's error when it is cancelled.
func Draw(ctx context.Context, s Slice) (*Picture, error) {
	s = s.withDefaults()
	if s.Width < 16 || s.Height < 16 || s.Width*s.Height > 16<<20 {
		return nil, fmt.Errorf("drawing a picture of %d by %d pixels: it must have 16 each at least, and 16 million at most", s.Width, s.Height)
	}
	f := newForm(s)
	b := throw(s, f, newRand(s))
	g := newGrid(s, f)
	g.cut(b)
	if err := ctx.Err(); err != nil {
		return nil, fmt.Errorf("drawing a slice: %w", err)
	}
	p := &Picture{}
	p.Truth = g.truth(b)
	p.Labels, p.Crumb = g.seen()
	p.Photo = g.photo(g.paint())
	return p, ctx.Err()
}

func newRand(s Slice) *rand.Rand { return rand.New(rand.NewPCG(s.Seed, 0xf0a3)) }

// A form is the slice's outline: a superellipse with a little wobble, flattened below.
type form struct {
	a, b, crust float64
	wobble      [5][2]float64
	pxPerMM     float64
	cx, cy      float64 // pixels
}

func newForm(s Slice) *form {
	rng := rand.New(rand.NewPCG(s.Seed, 0x0f0))
	f := &form{a: s.WidthMM / 2, b: s.WidthMM * (0.33 + 0.08*rng.Float64()), crust: 1.6 + rng.Float64()}
	for k := range f.wobble {
		f.wobble[k] = [2]float64{0.012 * rng.NormFloat64() / float64(k+1), 0.012 * rng.NormFloat64() / float64(k+1)}
	}
	f.pxPerMM = s.Share * float64(s.Width) / s.WidthMM
	f.cx, f.cy = float64(s.Width)/2, float64(s.Height)/2
	if s.Scene.Second {
		f.cx = f.a*f.pxPerMM + 0.04*float64(s.Width)
	}
	return f
}

// depth is how far inside the outline a place lies, mm, near enough; less than nothing
// outside.
func (f *form) depth(x, y float64) float64 {
	e := 2.6
	if y > 0 {
		e = 4
	}
	q := math.Pow(math.Pow(math.Abs(x/f.a), e)+math.Pow(math.Abs(y/f.b), e), 1/e)
	t := math.Atan2(y, x)
	r := 1.0
	for k, c := range f.wobble {
		r += c[0]*math.Cos(float64(k+2)*t) + c[1]*math.Sin(float64(k+2)*t)
	}
	return (1 - q/r) * f.b
}

// outline walks round where depth is nought, along rays.
func (f *form) outline(w, h int) []Point {
	var out []Point
	for k := range 240 {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / 240)
		lo, hi := 0.0, 2*(f.a+f.b)
		for range 40 {
			if mid := (lo + hi) / 2; f.depth(mid*cos, mid*sin) > 0 {
				lo = mid
			} else {
				hi = mid
			}
		}
		out = append(out, Point{math.Min(math.Max(f.cx+lo*cos*f.pxPerMM, 0), float64(w)), math.Min(math.Max(f.cy+lo*sin*f.pxPerMM, 0), float64(h))})
	}
	return out
}
