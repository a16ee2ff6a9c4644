package charts

import "image/color"

// markerSize is half the width of a round marker.
const markerSize = 4.2

// marker draws a point's form. The forms are of like weight to the eye rather
// than of like width.
func marker(s *drawList, at point, look SeriesStyle, c color.NRGBA, r float64) {
	fill, stroke, width := c, color.NRGBA{}, 0.0
	if look.Hollow {
		fill, stroke, width = s.style.Paper, c, 1.8
		r -= width / 4
	}
	switch look.Shape {
	case Square:
		h := r * 0.9
		s.outline([]point{{at.x - h, at.y - h}, {at.x + h, at.y - h}, {at.x + h, at.y + h}, {at.x - h, at.y + h}}, fill, stroke, width)
	case Triangle:
		h := r * 1.2
		s.outline([]point{{at.x, at.y - h}, {at.x + h, at.y + h*0.8}, {at.x - h, at.y + h*0.8}}, fill, stroke, width)
	case Wedge:
		h := r * 1.2
		s.outline([]point{{at.x, at.y + h}, {at.x - h, at.y - h*0.8}, {at.x + h, at.y - h*0.8}}, fill, stroke, width)
	case Diamond:
		h := r * 1.3
		s.outline([]point{{at.x, at.y - h}, {at.x + h, at.y}, {at.x, at.y + h}, {at.x - h, at.y}}, fill, stroke, width)
	case Cross:
		h := r * 0.9
		s.line([]point{{at.x - h, at.y - h}, {at.x + h, at.y + h}}, c, 2, false)
		s.line([]point{{at.x - h, at.y + h}, {at.x + h, at.y - h}}, c, 2, false)
	default:
		s.disc(at, r, fill, stroke, width)
	}
}
