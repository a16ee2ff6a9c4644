package photo

import (
	"image"
	"image/color"
	"image/draw"

	xdraw "golang.org/x/image/draw"
)

// fit copies src onto white, scaled down so that its longer side is at most
// maxSide; maxSide <= 0 keeps the size.
//
// A photo is first shrunk by a whole factor, which is a plain average and quick,
// to no less than a quarter more than the size asked for. Catmull-Rom does the rest,
// or for a picture that fills a window, where it would take a second, the mean of
// the four nearest pixels: above half the size that skips none.
func fit(src image.Image, maxSide int) *image.RGBA {
	w, h := src.Bounds().Dx(), src.Bounds().Dy()
	outW, outH := fitted(w, h, maxSide)
	dst := image.NewRGBA(image.Rect(0, 0, outW, outH))
	op := draw.Src
	if !opaque(src) {
		draw.Draw(dst, dst.Rect, image.NewUniform(color.White), image.Point{}, draw.Src)
		op = draw.Over
	}
	if outW == w && outH == h {
		draw.Draw(dst, dst.Rect, src, src.Bounds().Min, op)
		return dst
	}
	if ycc, ok := src.(*image.YCbCr); ok {
		if k := 4 * max(w, h) / (5 * maxSide); k > 1 {
			src = shrinkYCbCr(ycc, k)
		}
	}
	var scaler xdraw.Scaler = xdraw.CatmullRom
	if outW*outH > 1_000_000 && src.Bounds().Dx() < 2*outW && src.Bounds().Dy() < 2*outH {
		scaler = xdraw.ApproxBiLinear
	}
	scaler.Scale(dst, dst.Rect, src, src.Bounds(), op, nil)
	return dst
}

// fitted is the size that a picture of w x h gets when its longer side may be
// at most maxSide.
func fitted(w, h, maxSide int) (int, int) {
	long := max(w, h)
	if maxSide <= 0 || long <= maxSide {
		return w, h
	}
	scale := func(side int) int { return max((side*maxSide+long/2)/long, 1) }
	return scale(w), scale(h)
}

// opaque reports whether nothing shines through, without looking at the pixels
// of kinds that cannot be transparent.
func opaque(img image.Image) bool {
	switch img := img.(type) {
	case *image.YCbCr, *image.Gray, *image.Gray16, *image.CMYK:
		return true
	case interface{ Opaque() bool }:
		return img.Opaque()
	}
	return false
}

// shrinkYCbCr averages boxes of k x k pixels. Each plane is averaged on its own,
// so that the coarser colour planes cost less; the result has full colour planes.
func shrinkYCbCr(src *image.YCbCr, k int) *image.YCbCr {
	w, h := src.Rect.Dx(), src.Rect.Dy()
	dst := image.NewYCbCr(image.Rect(0, 0, (w+k-1)/k, (h+k-1)/k), image.YCbCrSubsampleRatio444)
	stepX, stepY := subsampling(src.SubsampleRatio)
	chromaW, chromaH := (w+stepX-1)/stepX, (h+stepY-1)/stepY

	shrinkPlane(dst.Y, dst.Rect.Max, src.Y, src.YStride, boxes(w, w, k, 1), boxes(h, h, k, 1))
	cols, rows := boxes(w, chromaW, k, stepX), boxes(h, chromaH, k, stepY)
	shrinkPlane(dst.Cb, dst.Rect.Max, src.Cb, src.CStride, cols, rows)
	shrinkPlane(dst.Cr, dst.Rect.Max, src.Cr, src.CStride, cols, rows)
	return dst
}

// subsampling is how many pixels one colour sample covers across and down, as the standard
// library lays such a picture out.
func subsampling(r image.YCbCrSubsampleRatio) (across, down int) {
	four := image.NewYCbCr(image.Rect(0, 0, 4, 4), r)
	return 4 / four.CStride, 4 * four.CStride / len(four.Cb)
}

// box is a run of samples, from inclusive to exclusive.
type box struct{ from, to int }

// boxes gives for each run of k pixels of a side the samples under it, one sample
// covering step pixels.
func boxes(pixels, samples, k, step int) []box {
	out := make([]box, 0, (pixels+k-1)/k)
	for at := 0; at < pixels; at += k {
		from := at / step
		to := min((at+k+step-1)/step, samples)
		out = append(out, box{from, max(to, from+1)})
	}
	return out
}

func shrinkPlane(dst []byte, size image.Point, src []byte, stride int, cols, rows []box) {
	sums := make([]int, size.X)
	for y, r := range rows {
		clear(sums)
		for sy := r.from; sy < r.to; sy++ {
			line := src[sy*stride:]
			for x, c := range cols {
				sum := 0
				for _, v := range line[c.from:c.to] {
					sum += int(v)
				}
				sums[x] += sum
			}
		}
		out := dst[y*size.X : (y+1)*size.X]
		for x, c := range cols {
			n := (c.to - c.from) * (r.to - r.from)
			out[x] = byte((sums[x] + n/2) / n)
		}
	}
}
