package crumb

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"twinloaf/journal/say"
)

// A Sheet is a rectangle of known size on the photo that lies in the plane of the cut
// face, or as near to it as it goes: a sheet of paper, a card, a board. Its corners give
// the scale and take out the tilt of the camera.
type Sheet struct {
	Corners [4]Point // in the photo, one after another round it
	WideMM  float64  // from the first corner to the second, and of the side opposite
	HighMM  float64  // from the second to the third
}

// Sizes of common sheets, mm, the longer side first.
const (
	A4LongMM, A4ShortMM     = 297.0, 210.0 // ISO 216
	CardLongMM, CardShortMM = 85.60, 53.98 // a bank card: ID-1 of ISO/IEC 7810
)

// Why four corners cannot straighten a photo. Errors of Prepare and Sheet.Check wrap
// one of them.
var (
	ErrSheetSize    = say.NewError("the sheet's sides need a true length each, of 10 mm to 2 m")
	ErrSheetCorners = say.NewError("three of the four corners lie in a line, or the sides cross: drag each to its own corner of the sheet")
	ErrSheetSmall   = say.NewError("the four corners lie so close together that a slip of the hand would falsify every length: use a larger sheet")
	ErrSheetTilt    = say.NewError("by these corners the photo was taken from too flat an angle to be straightened: look at the corners and at the sheet's size once more")
)

// Limits of a sheet.
const (
	leastSheetMM, mostSheetMM = 10.0, 2000.0
	leastSidePx               = 40.0 // a corner is placed to about a pixel
	leastCornerSine           = 0.1  // of the angle at a corner
	mostTilt                  = 70.0 // degrees
)

// ordered gives the sheet with its corners clockwise as the photo shows them, each
// side keeping its length, and says what is wrong with it.
func (s Sheet) ordered() (Sheet, error) {
	for _, mm := range [2]float64{s.WideMM, s.HighMM} {
		if !(mm >= leastSheetMM && mm <= mostSheetMM) {
			return s, fmt.Errorf("straightening by a sheet of %g by %g mm: %w", s.WideMM, s.HighMM, ErrSheetSize)
		}
	}
	c := s.Corners
	least, turns := math.Inf(1), 0
	for i := range c {
		a, b, d := c[i], c[(i+1)%4], c[(i+2)%4]
		ab, bd := math.Hypot(b.X-a.X, b.Y-a.Y), math.Hypot(d.X-b.X, d.Y-b.Y)
		cross := (b.X-a.X)*(d.Y-b.Y) - (b.Y-a.Y)*(d.X-b.X)
		if !(math.Abs(cross) > leastCornerSine*ab*bd) {
			return s, fmt.Errorf("straightening by four corners: %w", ErrSheetCorners)
		}
		turns += int(math.Copysign(1, cross))
		least = math.Min(least, ab)
	}
	switch {
	case turns != 4 && turns != -4:
		return s, fmt.Errorf("straightening by four corners: %w", ErrSheetCorners)
	case !(least >= leastSidePx):
		return s, fmt.Errorf("straightening by a sheet with a side of %.3g pixels: %w", least, ErrSheetSmall)
	case turns < 0: // y runs down: anticlockwise
		s.Corners = [4]Point{c[0], c[3], c[2], c[1]}
		s.WideMM, s.HighMM = s.HighMM, s.WideMM
	}
	return s, nil
}

// Check says in words why the sheet cannot straighten a photo, or nil.
func (s Sheet) Check() error {
	_, err := s.flat(s.middle())
	return err
}

func (s Sheet) middle() Point {
	var m Point
	for _, c := range s.Corners {
		m.X += c.X / 4
		m.Y += c.Y / 4
	}
	return m
}

// Tilt is about how far the camera looked aslant at the sheet, in degrees: 0 from
// straight above. It goes by how much one direction is shortened against the other, as
// from far away; false where the corners are no sheet.
func (s Sheet) Tilt() (float64, bool) {
	f, err := s.flat(s.middle())
	if err != nil {
		return 0, false
	}
	return f.tilt, true
}

// RectangleCorners puts four corners that were set in any order one after another, clockwise as
// the photo shows them, from the one that is uppermost and leftmost.
func RectangleCorners(p [4]Point) [4]Point {
	mid := Sheet{Corners: p}.middle()
	angle := func(q Point) float64 { return math.Atan2(q.Y-mid.Y, q.X-mid.X) }
	slices.SortFunc(p[:], func(a, b Point) int { return cmp.Compare(angle(a), angle(b)) })
	first := 0
	for i, q := range p {
		if q.X+q.Y < p[first].X+p[first].Y {
			first = i
		}
	}
	return [4]Point{p[first], p[(first+1)%4], p[(first+2)%4], p[(first+3)%4]}
}

// LiesWide tells whether the side from the first corner to the second looks longer than the one
// after it: which way round a sheet of two sides lies.
func (s Sheet) LiesWide() bool {
	c := s.Corners
	side := func(i int) float64 {
		a, b, d, e := c[i], c[(i+1)%4], c[(i+2)%4], c[(i+3)%4]
		return math.Hypot(b.X-a.X, b.Y-a.Y) + math.Hypot(e.X-d.X, e.Y-d.Y)
	}
	return side(0) >= side(1)
}

// flat is the plane of a sheet, seen from straight above: as many pixels to the
// millimetre as the photo has about one place, and up where the photo has it there.
type flat struct {
	fromPhoto, toPhoto homography
	pxPerMM            float64
	tilt               float64 // degrees
}

func (s Sheet) flat(about Point) (*flat, error) {
	s, err := s.ordered()
	if err != nil {
		return nil, err
	}
	h, ok := homographyOf(s.Corners, [4]Point{{0, 0}, {s.WideMM, 0}, {s.WideMM, s.HighMM}, {0, s.HighMM}})
	if !ok {
		return nil, fmt.Errorf("straightening by four corners: %w", ErrSheetCorners)
	}
	if _, w := h.carry(s.Corners[0]); w < 0 {
		for i := range h {
			h[i] = -h[i] // so that depths are positive where the sheet is
		}
	}
	if _, w := h.carry(about); !(w > 0) {
		return nil, fmt.Errorf("straightening a slice beyond the sheet's horizon: %w", ErrSheetTilt)
	}
	xx, xy, yx, yy := h.jacobian(about)
	det := xx*yy - xy*yx
	// The singular values of the 2 by 2 matrix, by its sums of squares.
	sum, half := (xx*xx+xy*xy+yx*yx+yy*yy)/2, math.Abs(det)
	spread := math.Sqrt(math.Max(0, sum*sum-half*half))
	f := &flat{pxPerMM: 1 / math.Sqrt(det), tilt: math.Acos(math.Min(1, math.Sqrt(math.Max(0, sum-spread)/(sum+spread)))) * 180 / math.Pi}
	if !(det > 0) || math.IsInf(f.pxPerMM, 0) || !(f.tilt <= mostTilt) {
		return nil, fmt.Errorf("straightening by four corners: %w", ErrSheetTilt)
	}
	// The rotation nearest to the matrix (of its polar decomposition) is taken back, so
	// that a sheet that lies askew does not turn the slice.
	sin, cos := yx-xy, xx+yy
	n := math.Hypot(sin, cos)
	k := f.pxPerMM / n
	f.fromPhoto = homography{k * cos, k * sin, 0, -k * sin, k * cos, 0, 0, 0, 1}.after(h)
	if f.toPhoto, ok = f.fromPhoto.inverse(); !ok {
		return nil, fmt.Errorf("straightening by four corners: %w", ErrSheetCorners)
	}
	return f, nil
}

// outline lays an outline of the photo into the plane.
func (f *flat) outline(o Outline) (Outline, error) {
	out := make(Outline, len(o))
	for i, p := range o {
		q, w := f.fromPhoto.carry(p)
		if !(w > 0) {
			return nil, fmt.Errorf("straightening a slice that reaches beyond the sheet's horizon: %w", ErrSheetTilt)
		}
		out[i] = q
	}
	return out, nil
}

// Length gives the true length in mm between two places of the photo that lie in the sheet's
// plane.
func (s Sheet) Length(a, b Point) (float64, error) {
	f, err := s.flat(s.middle())
	if err != nil {
		return 0, err
	}
	ends, err := f.outline(Outline{a, b})
	if err != nil {
		return 0, err
	}
	return math.Hypot(ends[0].X-ends[1].X, ends[0].Y-ends[1].Y) / f.pxPerMM, nil
}
