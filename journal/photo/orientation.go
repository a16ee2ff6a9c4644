package photo

import "image"

// Orientation is the EXIF orientation (CIPA DC-008, tag 0x0112): where the first
// row and the first column of the stored pixels lie in the upright picture.
type Orientation uint8

// The eight orientations, named by what turns the stored pixels upright.
const (
	Upright       Orientation = 1 // nothing to do
	FlipAcross    Orientation = 2 // mirror left to right
	TurnHalf      Orientation = 3 // turn by 180 degrees
	FlipDown      Orientation = 4 // mirror top to bottom
	Transpose     Orientation = 5 // mirror over the falling diagonal
	TurnClockwise Orientation = 6 // turn by 90 degrees clockwise
	Transverse    Orientation = 7 // mirror over the rising diagonal
	TurnCounter   Orientation = 8 // turn by 90 degrees counter-clockwise
)

// Valid reports whether o is one of the eight.
func (o Orientation) Valid() bool { return o >= Upright && o <= TurnCounter }

// SwapsSides reports whether turning upright exchanges width and height.
func (o Orientation) SwapsSides() bool { return o >= Transpose && o <= TurnCounter }

// Turn gives src turned upright. It returns src itself when there is nothing to
// do, and otherwise a fresh picture whose rows lie one right after the other.
func (o Orientation) Turn(src *image.RGBA) *image.RGBA {
	if !o.Valid() || o == Upright {
		return src
	}
	w, h := src.Rect.Dx(), src.Rect.Dy()
	outW, outH := w, h
	if o.SwapsSides() {
		outW, outH = h, w
	}
	dst := image.NewRGBA(image.Rect(0, 0, outW, outH))
	if w == 0 || h == 0 {
		return dst
	}

	// The pixel (x, y) of src goes to byte start + x*stepX + y*stepY of dst.
	const px = 4
	row, lastX, lastY := dst.Stride, (outW-1)*px, (outH-1)*dst.Stride
	var start, stepX, stepY int
	switch o {
	case FlipAcross:
		start, stepX, stepY = lastX, -px, row
	case TurnHalf:
		start, stepX, stepY = lastX+lastY, -px, -row
	case FlipDown:
		start, stepX, stepY = lastY, px, -row
	case Transpose:
		start, stepX, stepY = 0, row, px
	case TurnClockwise:
		start, stepX, stepY = lastX, row, -px
	case Transverse:
		start, stepX, stepY = lastX+lastY, -row, -px
	case TurnCounter:
		start, stepX, stepY = lastY, -row, px
	}
	for y := range h {
		in := src.Pix[y*src.Stride : y*src.Stride+w*px]
		at := start + y*stepY
		for len(in) >= px {
			copy(dst.Pix[at:at+px], in[:px])
			in = in[px:]
			at += stepX
		}
	}
	return dst
}
