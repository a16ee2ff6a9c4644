package jar

import (
	"encoding/binary"
	"errors"
	"fmt"
	"image"
	"math"
)

// What is kept of a picture is its strip: some twelve kilobytes, from which the curve can
// be found again with other heights drawn by hand, and from which a film is made.

// ErrStrip is wrapped by what is wrong with a kept strip.
var ErrStrip = errors.New("this is no strip")

const (
	stripVersion = 1
	stripHead    = 1 + 2 + 4*8 // version, rows, move
	lookSize     = 4 * 2
	// finest is the step in which looks are kept: far below what a camera tells.
	finest = 1.0 / 4096
)

// AppendBinary appends the strip in the form in which it is kept: a byte of version, the
// rows, the camera's move as four numbers of IEEE 754, and then what is seen in each cell
// and beside each row, four numbers of 16 bits in steps of 1/4096. All is big-endian.
func (s Strip) AppendBinary(b []byte) ([]byte, error) {
	b = append(b, stripVersion)
	b = binary.BigEndian.AppendUint16(b, uint16(s.rows))
	for _, v := range []float64{s.Move.DX, s.Move.DY, s.Move.Zoom, s.Move.Sure} {
		b = binary.BigEndian.AppendUint64(b, math.Float64bits(v))
	}
	for _, looks := range [][]cellLook{s.cells, s.side} {
		for _, k := range looks {
			for _, v := range []float32{k.Luma, k.Blue, k.Red, k.Texture} {
				step := math.Round(float64(v) / finest)
				b = binary.BigEndian.AppendUint16(b, uint16(int16(max(math.MinInt16, min(math.MaxInt16, step)))))
			}
		}
	}
	return b, nil
}

// ParseStrip reads a strip that was kept. The error wraps ErrStrip.
func ParseStrip(b []byte) (Strip, error) {
	if len(b) < stripHead || b[0] != stripVersion {
		return Strip{}, fmt.Errorf("%w: %d bytes", ErrStrip, len(b))
	}
	rows := int(binary.BigEndian.Uint16(b[1:]))
	if rows > mostRows || len(b) != stripHead+rows*(columns+1)*lookSize {
		return Strip{}, fmt.Errorf("%w: %d rows in %d bytes", ErrStrip, rows, len(b))
	}
	s := Strip{rows: rows, cells: make([]cellLook, rows*columns), side: make([]cellLook, rows)}
	for i, v := range []*float64{&s.Move.DX, &s.Move.DY, &s.Move.Zoom, &s.Move.Sure} {
		if *v = math.Float64frombits(binary.BigEndian.Uint64(b[3+8*i:])); math.IsNaN(*v) || math.IsInf(*v, 0) {
			return Strip{}, fmt.Errorf("%w: the move is not a number", ErrStrip)
		}
	}
	b = b[stripHead:]
	for _, looks := range [][]cellLook{s.cells, s.side} {
		for i := range looks {
			for _, v := range []*float32{&looks[i].Luma, &looks[i].Blue, &looks[i].Red, &looks[i].Texture} {
				*v = float32(int16(binary.BigEndian.Uint16(b))) * finest
				b = b[2:]
			}
		}
	}
	for _, k := range s.cells {
		s.Light += max(0, math.Exp(float64(k.Luma))-dim) / float64(len(s.cells))
	}
	return s, nil
}

// Film lays strips side by side, the first at the left, each so many pixels wide: the rise
// is seen as it is. Its height is a pixel for each row.
func Film(strips []Strip, width int) *image.RGBA {
	rows := 0
	for _, s := range strips {
		rows = max(rows, s.rows)
	}
	width = max(1, width)
	img := image.NewRGBA(image.Rect(0, 0, width*len(strips), rows))
	for i, s := range strips {
		for r := range s.rows {
			for x := range width {
				o := img.PixOffset(i*width+x, rows-1-r)
				red, green, blue := s.at(r, x*columns/width).colour()
				img.Pix[o], img.Pix[o+1], img.Pix[o+2], img.Pix[o+3] = red, green, blue, 255
			}
		}
	}
	return img
}

// colour is the mean colour of a cell (ITU-R BT.601).
func (k cellLook) colour() (r, g, b uint8) {
	over := math.Exp(float64(k.Luma))
	luma := over - dim
	red, blue := luma+float64(k.Red)*over/0.713, luma+float64(k.Blue)*over/0.564
	green := (luma - 0.299*red - 0.114*blue) / 0.587
	byteOf := func(v float64) uint8 { return uint8(max(0, min(255, v+0.5))) }
	return byteOf(red), byteOf(green), byteOf(blue)
}
