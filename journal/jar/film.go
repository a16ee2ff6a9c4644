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

// colour is the mean colour of a cell.
func (k cellLook) colour() (r, g, b uint8) {
	green := float64(k.Luma) - 0.299*float64(k.Red) - 0.114*float64(k.Blue)
	byteOf := func(log float64) uint8 { return uint8(max(0, min(255, math.Exp(log)-dim+0.5))) }
	return byteOf(green + float64(k.Red)), byteOf(green), byteOf(green + float64(k.Blue))
}
