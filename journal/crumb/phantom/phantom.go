// Package phantom draws slices of bread whose every cell is known.
//
// A photo of real bread has no right answer: nobody can say to a hundredth
// how much of the face is cell. A drawn slice has one, because the drawing
// began from the cells. Package crumb is tested against these pictures.
//
// A picture follows from its Slice alone: the same Slice, seed included, gives
// the same bytes on every machine and on any number of processors.
package phantom

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"image"
)

// A Shape is the outline of a slice.
type Shape int

// The shapes that can be drawn.
const (
	Boule Shape = iota // a free-standing round loaf cut through: domed, flat below
	Pan                // a tin loaf: straight sides, domed top with shoulders
	Flat               // a low slipper loaf cut lengthwise
	Full               // no outline at all: crumb fills the frame, no crust
)

// A Tone is the colour of the crumb and of the crust round it.
type Tone int

// The tones that can be drawn, light to dark.
const (
	White Tone = iota
	Spelt
	Rye
)

// A Ground is what the slice lies on.
type Ground int

// The grounds that can be drawn.
const (
	Slate Ground = iota // dark grey stone
	Linen               // pale grey-white cloth
	Board               // warm brown wood
	Teal                // a painted table
)

// Cells says how the cells are spread. The zero value gives a fairly fine,
// even crumb.
type Cells struct {
	MedianMM  float64 // median equivalent diameter; 0 means 1.0
	LogSD     float64 // standard deviation of ln(diameter); 0 means 0.5
	MinMM     float64 // smallest diameter drawn; 0 means 0.35
	MaxMM     float64 // largest diameter drawn; 0 means 18
	Porosity  float64 // wanted share of the crumb; 0 means 0.33, at most 0.5
	Stretch   float64 // mean long axis over short axis; 0 means 1.2
	Direction float64 // degrees from the horizontal, anticlockwise; used when Stretch > 1.3
	TopOpen   float64 // 0 even, 1 large cells sit in the upper half
	Depth     float64 // how dark a cell's floor is, 0 (as the wall) to 1 (black); 0 means 0.55
}

// Light says how the photo was taken. The zero value is an even, sharp photo
// with very little noise.
type Light struct {
	Gain      float64    // exposure; 0 means 1
	Gradient  float64    // fall of brightness across the frame, 0 to 1
	Direction float64    // degrees in which it falls, 0 to the right, 90 downwards
	Vignette  float64    // fall towards the corners, 0 to 1
	Shadow    float64    // depth of one hard-edged shadow across the slice, 0 to 1
	Blur      float64    // standard deviation of the blur, pixels
	Noise     float64    // standard deviation of the sensor noise, grey levels
	Balance   [3]float64 // gain of red, green and blue; the zero value means 1, 1, 1
}

// A Slice is everything that decides a picture.
type Slice struct {
	Seed          uint64
	Width, Height int     // pixels of the picture, at least 16 each, at most 16 million in all
	SliceMM       float64 // true width of the slice (of the frame for Full); 0 means the shape's usual width
	Fill          float64 // share of the frame's width or height that the slice takes; 0 means 0.86, above 1 it leaves the frame
	ShiftX        float64 // where the slice's middle lies, in frame widths from the frame's middle
	ShiftY        float64 // the same in frame heights
	CrustMM       float64 // 0 means 3
	Shape         Shape
	Tone          Tone
	Ground        Ground
	Cells         Cells
	Light         Light
	Seeds         float64 // share of the crumb that is coloured seeds, which are not cells
	Spread        float64 // share of the slice's height, from the top, under a red spread
	Grain         float64 // standard deviation of specks in the crumb, as a share of its brightness
}

// A Picture is a drawn photo with its truth.
type Picture struct {
	Photo  *image.RGBA
	Labels []uint16    // Width*Height: 0 for wall and outside, otherwise the cell's number from 1
	Crumb  *image.Gray // 255 where the crumb is, crust left out
	Truth  Truth
}

// Truth holds the figures counted from the labels, in the terms that package
// crumb reports.
type Truth struct {
	PxPerMM      float64
	SliceWidthMM float64 // bounding box of the part of the slice inside the frame
	CrumbMM2     float64
	Cells        int
	Porosity     float64   // cell pixels over crumb pixels
	PerCM2       float64   // cells per square centimetre of crumb
	MeanAreaMM2  float64   //
	LargestMM2   float64   //
	AreasMM2     []float64 // of each cell, by its number less one
	Outline      []Point   // of the whole slice, picture coordinates
	CrumbBox     image.Rectangle
}

// A Point is a place in the picture: x to the right and y down, in pixels,
// with (0, 0) at the outer corner of the first pixel.
type Point struct{ X, Y float64 }

// ErrSize is wrapped by the error of a Slice that asks for an impossible frame.
var ErrSize = errors.New("picture size out of range")

// maxPixels is the largest picture that Draw will make.
const maxPixels = 16 << 20

// Draw makes the picture. It returns an error that wraps ErrSize for a frame
// that is too small or too large, or ctx's error when cancelled.
func Draw(ctx context.Context, s Slice) (*Picture, error) {
	if s.Width < 16 || s.Height < 16 || s.Width > maxPixels/s.Height {
		return nil, fmt.Errorf("drawing a slice of %d by %d pixels: %w", s.Width, s.Height, ErrSize)
	}
	s = s.withDefaults()
	f := newForm(s)
	cells := placeCells(ctx, s, f)
	if err := ctx.Err(); err != nil {
		return nil, fmt.Errorf("placing the cells of a drawn slice: %w", err)
	}
	p := newPainter(s, f, cells)
	photo := p.paint()
	if err := ctx.Err(); err != nil {
		return nil, fmt.Errorf("painting a drawn slice: %w", err)
	}
	expose(photo, s, f)
	truth, crumb := p.count()
	return &Picture{Photo: photo, Labels: p.labels, Crumb: crumb, Truth: truth}, nil
}

func (s Slice) withDefaults() Slice {
	def := func(v *float64, d float64) {
		*v = cmp.Or(*v, d)
	}
	def(&s.Fill, 0.86)
	def(&s.CrustMM, 3)
	def(&s.SliceMM, [...]float64{Boule: 125, Pan: 100, Flat: 120, Full: 80}[s.Shape])
	def(&s.Cells.MedianMM, 1)
	def(&s.Cells.LogSD, 0.5)
	def(&s.Cells.MinMM, 0.35)
	def(&s.Cells.MaxMM, 18)
	def(&s.Cells.Porosity, 0.33)
	def(&s.Cells.Stretch, 1.2)
	def(&s.Cells.Depth, 0.55)
	def(&s.Light.Gain, 1)
	if s.Light.Balance == ([3]float64{}) {
		s.Light.Balance = [3]float64{1, 1, 1}
	}
	return s
}
