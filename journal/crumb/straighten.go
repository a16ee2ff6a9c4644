package crumb

import (
	"image"
	"image/draw"
	"math"
)

// mostSamples bounds how finely a working pixel's ground is looked at, each way.
const mostSamples = 6

// straighten brings a photo to working scale as it looks from straight above: every
// working pixel is the mean of what lies evenly spread over its ground in the photo, read
// between the pixels. Beyond the photo its border is repeated.
func straighten(img image.Image, f frame, w, h int) []uint8 {
	src := asRGBA(img)
	n := min(mostSamples, max(1, int(math.Ceil(1.3*f.step))))
	out := make([]uint8, 3*w*h)
	bands(h, func(from, to int) {
		for y := from; y < to; y++ {
			for x := range w {
				var sum [3]float64
				for j := range n {
					for i := range n {
						p := f.toPhoto(float64(x)+(float64(i)+0.5)/float64(n), float64(y)+(float64(j)+0.5)/float64(n))
						addBetween(&sum, src, p)
					}
				}
				for k, v := range sum {
					out[3*(y*w+x)+k] = uint8(v/float64(n*n) + 0.5)
				}
			}
		}
	})
	return out
}

// asRGBA gives a picture whose pixels lie open, on white where it can be seen through.
func asRGBA(img image.Image) *image.RGBA {
	if m, ok := img.(*image.RGBA); ok && m.Opaque() {
		return m
	}
	m := image.NewRGBA(img.Bounds())
	draw.Draw(m, m.Rect, image.White, image.Point{}, draw.Src)
	draw.Draw(m, m.Rect, img, m.Rect.Min, draw.Over)
	return m
}

// addBetween adds the colour at a place between the middles of four pixels.
func addBetween(sum *[3]float64, m *image.RGBA, p Point) {
	x := math.Min(math.Max(p.X-0.5-float64(m.Rect.Min.X), 0), float64(m.Rect.Dx()-1))
	y := math.Min(math.Max(p.Y-0.5-float64(m.Rect.Min.Y), 0), float64(m.Rect.Dy()-1))
	if math.IsNaN(x + y) {
		return
	}
	i, j := min(int(x), max(0, m.Rect.Dx()-2)), min(int(y), max(0, m.Rect.Dy()-2))
	right, below := 4*min(1, m.Rect.Dx()-1-i), m.Stride*min(1, m.Rect.Dy()-1-j)
	u, v := x-float64(i), y-float64(j)
	a := m.Pix[j*m.Stride+4*i:]
	for k := range sum {
		top := float64(a[k])*(1-u) + float64(a[k+right])*u
		low := float64(a[k+below])*(1-u) + float64(a[k+below+right])*u
		sum[k] += top*(1-v) + low*v
	}
}

// Picture is what was measured: the slice at working scale, straightened where a
// sheet was given. It is nil when no slice was found.
func (r *Result) Picture() *image.RGBA {
	if len(r.labels) == 0 {
		return nil
	}
	m := image.NewRGBA(image.Rect(0, 0, r.w, r.h))
	for i := range r.w * r.h {
		m.Pix[4*i], m.Pix[4*i+1], m.Pix[4*i+2], m.Pix[4*i+3] = r.rgb[3*i], r.rgb[3*i+1], r.rgb[3*i+2], 255
	}
	return m
}

// InPhoto gives the place of the photo that Picture shows at p.
func (r *Result) InPhoto(p Point) Point { return r.frame.toPhoto(p.X, p.Y) }

// InPicture gives where Picture shows a place of the photo; false where it does not.
func (r *Result) InPicture(p Point) (Point, bool) { return r.frame.fromPhoto(p) }

// workingAt gives the working pixel at a place of the photo; false beyond them.
func (r *Result) workingAt(p Point) (int, bool) {
	q, ok := r.frame.fromPhoto(p)
	if !ok || q.X < 0 || q.Y < 0 || q.X >= float64(r.w) || q.Y >= float64(r.h) {
		return 0, false
	}
	return int(q.Y)*r.w + int(q.X), true
}
