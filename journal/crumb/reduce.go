package crumb

import (
	"image"
	"image/color"
	"math"
)

// reduce brings a photo to working scale by averaging the area under each
// working pixel, three bytes (red, green, blue) each. Averaging rather than
// picking keeps the share of cell in a mixed pixel and halves the noise.
// Beyond the photo its border is repeated; see-through pixels count as white.
// At most lines photo rows are read for a working row, evenly spread: a look
// for the slice needs no more than a few, and more than mostLines say nothing more.
func reduce(img image.Image, f frame, w, h, lines int) []uint8 {
	out := make([]uint8, 3*w*h)
	planes := planesOf(img, f, w, h)
	_, video := img.(*image.YCbCr)
	bands(h, func(from, to int) {
		mean := make([]float32, 3*w)
		var down columns
		for y := from; y < to; y++ {
			for c := range planes {
				planes[c].average(mean[c:], &down, y, min(lines, mostLines))
			}
			storeRow(out[3*w*y:3*w*(y+1)], mean, video)
		}
	})
	return out
}

// A plane is what lies side by side in a photo, at a resolution of its own: a video
// picture's brightness, or one of its two colours; of any other all three colours.
type plane struct {
	channels   int
	cols, rows []span
	// row gives the pixels of a row that cols cover; it may write them into line.
	row func(line []uint8, y int) []uint8
}

func planesOf(img image.Image, f frame, w, h int) []plane {
	b := img.Bounds()
	of := func(channels, across, down int, row func(line []uint8, first, last, y int) []uint8) plane {
		p := plane{channels: channels, cols: spans(f.x0, f.step, w, b.Min.X, b.Max.X, across), rows: spans(f.y0, f.step, h, b.Min.Y, b.Max.Y, down)}
		first, last := p.cols[0].from, p.cols[w-1].to
		p.row = func(line []uint8, y int) []uint8 { return row(line, first, last, y) }
		return p
	}
	m, video := img.(*image.YCbCr)
	if !video {
		return []plane{of(3, 1, 1, func(line []uint8, first, last, y int) []uint8 {
			if n := 3 * (last - first); cap(line) < n {
				line = make([]uint8, n)
			} else {
				line = line[:n]
			}
			readRow(line, img, first, last, y)
			return line
		})}
	}
	across, down := perColour(m.SubsampleRatio)
	colour := func(pix []uint8) func(line []uint8, first, last, y int) []uint8 {
		return func(_ []uint8, first, last, y int) []uint8 {
			at := m.COffset(first*across, y*down)
			return pix[at : at+last-first]
		}
	}
	return []plane{
		of(1, 1, 1, func(_ []uint8, first, last, y int) []uint8 {
			at := m.YOffset(first, y)
			return m.Y[at : at+last-first]
		}),
		of(1, across, down, colour(m.Cb)), of(1, across, down, colour(m.Cr)),
	}
}

// perColour is how many pixels share a colour of a video picture, across and down, as the
// standard library lays such a picture out.
func perColour(r image.YCbCrSubsampleRatio) (across, down int) {
	four := image.NewYCbCr(image.Rect(0, 0, 4, 4), r)
	return 4 / four.CStride, 4 * four.CStride / len(four.Cb)
}

// average writes the means of a working row, a pixel's channels beside each other and
// three places from pixel to pixel. It adds up the rows first, and then across.
func (p *plane) average(mean []float32, down *columns, y, lines int) {
	first, n := p.cols[0].from, p.channels
	down.reset(n * (p.cols[len(p.cols)-1].to - first))
	s := p.rows[y]
	every := max(1, (s.to-s.from+lines-1)/lines)
	total := float32(0)
	for at := s.from; at < s.to; at += every {
		total += s.weight(at)
	}
	part, given := float32(0), 0
	for at := s.from; at < s.to; at += every {
		part += s.weight(at)
		upTo := int(whole*part/total + 0.5)
		down.line = p.row(down.line, at)
		down.add(down.line, uint64(upTo-given))
		given = upTo
	}
	sums := down.sums()
	for c := range n {
		for x, s := range p.cols {
			q := sums[n*(s.from-first)+c:]
			v := s.first * float32(q[0])
			if width := s.to - s.from; width > 1 {
				inner, last := 0, n*(width-1)
				for i := n; i < last; i += n {
					inner += int(q[i])
				}
				v += s.inner*float32(inner) + s.last*float32(q[last])
			}
			mean[3*x+c] = v / whole
		}
	}
}

// storeRow rounds the means to bytes. A video picture is turned into red, green
// and blue only here, once for each working pixel: the averaging is the same in
// either form.
func storeRow(out []uint8, mean []float32, video bool) {
	for i := 0; i+2 < len(mean); i += 3 {
		a, b, c := uint8(mean[i]+0.5), uint8(mean[i+1]+0.5), uint8(mean[i+2]+0.5)
		if video {
			a, b, c = color.YCbCrToRGB(a, b, c)
		}
		out[i], out[i+1], out[i+2] = a, b, c
	}
}

// A span is the run of photo pixels under one working pixel, its first and
// last with less weight.
type span struct {
	from, to    int
	first, last float32
	inner       float32
}

func (s span) weight(i int) float32 {
	switch i {
	case s.from:
		return s.first
	case s.to - 1:
		return s.last
	}
	return s.inner
}

// spans are the runs under n working pixels from an origin on, of pixels that are so many
// times as wide as a photo's.
func spans(origin, step float64, n, lo, hi, wide int) []span {
	out := make([]span, n)
	for i := range out {
		a, b := origin+float64(i)*step, origin+float64(i+1)*step
		a = math.Min(math.Max(a, float64(lo)), float64(hi)-1)
		b = math.Min(math.Max(b, a+1e-6), float64(hi))
		if b-a < 0.999*math.Min(1, step) {
			b = math.Min(float64(hi), a+math.Min(1, step))
		}
		a, b = a/float64(wide), b/float64(wide)
		s := span{from: int(math.Floor(a)), to: int(math.Ceil(b))}
		total := b - a
		s.inner = float32(1 / total)
		s.first = float32((math.Min(b, float64(s.from)+1) - a) / total)
		s.last = float32((b - math.Max(a, float64(s.to)-1)) / total)
		out[i] = s
	}
	return out
}

// readRow reads pixels from first up to last of row y as red, green, blue.
func readRow(line []uint8, img image.Image, first, last, y int) {
	switch m := img.(type) {
	case *image.Gray:
		p := m.Pix[m.PixOffset(first, y):]
		for i := range last - first {
			line[3*i], line[3*i+1], line[3*i+2] = p[i], p[i], p[i]
		}
	case *image.RGBA:
		p := m.Pix[m.PixOffset(first, y):]
		for i := range last - first {
			veil := 255 - p[4*i+3]
			line[3*i], line[3*i+1], line[3*i+2] = p[4*i]+veil, p[4*i+1]+veil, p[4*i+2]+veil
		}
	case *image.NRGBA:
		p := m.Pix[m.PixOffset(first, y):]
		for i := range last - first {
			a := uint32(p[4*i+3])
			for c := range 3 {
				line[3*i+c] = uint8((uint32(p[4*i+c])*a + 255*(255-a)) / 255)
			}
		}
	default:
		for x := first; x < last; x++ {
			r, g, b, a := img.At(x, y).RGBA()
			veil := 0xffff - a
			o := 3 * (x - first)
			line[o], line[o+1], line[o+2] = uint8((r+veil)>>8), uint8((g+veil)>>8), uint8((b+veil)>>8)
		}
	}
}

// grey is the brightness of a pixel by the weights of ITU-R BT.601.
func grey(r, g, b uint8) uint8 {
	return uint8((299*uint32(r) + 587*uint32(g) + 114*uint32(b) + 500) / 1000)
}
