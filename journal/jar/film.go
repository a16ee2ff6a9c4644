package jar

import (
	"image"
	"math"
)

// film lays strips side by side, the first at the left, each so many pixels wide: the rise
// is seen as it is. Its height is a pixel for each row.
func film(strips []Strip, width int) *image.RGBA {
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
