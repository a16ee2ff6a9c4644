package charts

import (
	"image"
	"image/color"
)

// MarkPicture draws the marker of a look alone on clear ground, side device pixels wide
// and high: for what stands outside a chart and means the same as in it. It is nil where
// that size is impossible.
func MarkPicture(look SeriesStyle, p Palette, side int) *image.RGBA {
	const units = 12 // wide enough for the widest form
	if side < 1 || side > maxSide/4 {
		return nil
	}
	s := newDrawList(Style{Palette: p}, units, units, float64(side)/units)
	marker(s, point{units / 2.0, units / 2.0}, look, s.style.colour(look.Hue), 4.3)
	img, err := rasteriseOn(s, side, side, color.NRGBA{})
	if err != nil {
		return nil
	}
	return img
}
