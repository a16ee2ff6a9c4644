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
// for the slice needs no more than a few.
func reduce(img image.Image, f frame, w, h, lines int) []uint8 {
	out := make([]uint8, 3*w*h)
	b := img.Bounds()
	cols := spans(f.x0, f.step, w, b.Min.X, b.Max.X)
	rowSpans := spans(f.y0, f.step, h, b.Min.Y, b.Max.Y)
	first, last := cols[0].from, cols[w-1].to
	_, video := img.(*image.YCbCr)
	bands(h, func(from, to int) {
		line := make([]uint8, 3*(last-first))
		sum := make([]float32, 3*w)
		for y := from; y < to; y++ {
			clear(sum)
			s := rowSpans[y]
			skip := max(1, (s.to-s.from+lines-1)/lines)
			var total float32
			for sy := s.from; sy < s.to; sy += skip {
				readRow(line, img, first, last, sy)
				addRow(sum, line, cols, first, s.weight(sy))
				total += s.weight(sy)
			}
			storeRow(out[3*w*y:3*w*(y+1)], sum, total, video)
		}
	})
	return out
}

// storeRow rounds the sums to bytes. A video picture is turned into red, green
// and blue only here, once for each working pixel: the averaging is the same in
// either form.
func storeRow(out []uint8, sum []float32, total float32, video bool) {
	k := 1 / total
	for i := 0; i+2 < len(sum); i += 3 {
		a, b, c := uint8(sum[i]*k+0.5), uint8(sum[i+1]*k+0.5), uint8(sum[i+2]*k+0.5)
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

func spans(origin, step float64, n, lo, hi int) []span {
	out := make([]span, n)
	for i := range out {
		a, b := origin+float64(i)*step, origin+float64(i+1)*step
		a = math.Min(math.Max(a, float64(lo)), float64(hi)-1)
		b = math.Min(math.Max(b, a+1e-6), float64(hi))
		if b-a < 0.999*math.Min(1, step) {
			b = math.Min(float64(hi), a+math.Min(1, step))
		}
		s := span{from: int(math.Floor(a)), to: int(math.Ceil(b))}
		total := b - a
		s.inner = float32(1 / total)
		s.first = float32((math.Min(b, float64(s.from)+1) - a) / total)
		s.last = float32((b - math.Max(a, float64(s.to)-1)) / total)
		out[i] = s
	}
	return out
}

func addRow(sum []float32, line []uint8, cols []span, first int, weight float32) {
	for x, s := range cols {
		p := line[3*(s.from-first) : 3*(s.to-first)]
		k := s.first
		r, g, b := k*float32(p[0]), k*float32(p[1]), k*float32(p[2])
		if n := len(p); n > 3 {
			var ri, gi, bi int32
			for i := 3; i+3 < n; i += 3 {
				ri += int32(p[i])
				gi += int32(p[i+1])
				bi += int32(p[i+2])
			}
			r += s.inner*float32(ri) + s.last*float32(p[n-3])
			g += s.inner*float32(gi) + s.last*float32(p[n-2])
			b += s.inner*float32(bi) + s.last*float32(p[n-1])
		}
		q := sum[3*x : 3*x+3]
		q[0] += weight * r
		q[1] += weight * g
		q[2] += weight * b
	}
}

// readRow reads pixels from first up to last of row y as red, green, blue; of
// a video picture as brightness, blue and red difference.
func readRow(line []uint8, img image.Image, first, last, y int) {
	switch m := img.(type) {
	case *image.YCbCr:
		readVideoRow(line, m, first, last, y)
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

func readVideoRow(line []uint8, m *image.YCbCr, first, last, y int) {
	shift := 0 // of a column to its colour column
	switch m.SubsampleRatio {
	case image.YCbCrSubsampleRatio420, image.YCbCrSubsampleRatio422:
		shift = 1
	case image.YCbCrSubsampleRatio410, image.YCbCrSubsampleRatio411:
		shift = 2
	}
	luma := m.Y[m.YOffset(first, y):]
	base := m.COffset(first, y) - first>>shift
	for i := range last - first {
		c := base + (first+i)>>shift
		line[3*i], line[3*i+1], line[3*i+2] = luma[i], m.Cb[c], m.Cr[c]
	}
}

// grey is the brightness of a pixel by the weights of ITU-R BT.601.
func grey(r, g, b uint8) uint8 {
	return uint8((299*uint32(r) + 587*uint32(g) + 114*uint32(b) + 500) / 1000)
}
