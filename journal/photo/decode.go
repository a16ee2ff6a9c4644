package photo

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/jpeg"
	"image/png"

	"golang.org/x/image/webp"
)

// Picture is a decoded picture. Its pixels still lie as they were stored; [Picture.Fit]
// gives them upright.
type Picture struct {
	Meta
	stored image.Image
}

// Decode reads a whole picture from its bytes. Beyond what [Inspect] refuses it
// refuses what is cut short or damaged anywhere.
func Decode(name string, data []byte, limits Limits) (*Picture, error) {
	r := bytes.NewReader(data)
	m, err := Inspect(name, r, limits)
	if err != nil {
		return nil, err
	}
	img, err := decodePixels(m.Format, data, limits)
	if err != nil {
		return nil, refuseDecode(name, err)
	}
	b := img.Bounds()
	w, h := b.Dx(), b.Dy()
	if m.Orientation.SwapsSides() {
		w, h = h, w
	}
	if m.Format == HEIC && w > 0 && h > 0 {
		m.Width, m.Height = w, h // a HEIC may be cropped by its decoder
	}
	if w != m.Width || h != m.Height {
		return nil, refuse(name, ErrDamaged, fmt.Errorf("its header says %d x %d pixels and it holds %d x %d", m.Width, m.Height, w, h))
	}
	return &Picture{Meta: m, stored: img}, nil
}

func decodePixels(format Format, data []byte, limits Limits) (image.Image, error) {
	r := bytes.NewReader(data)
	switch format {
	case JPEG:
		return jpeg.Decode(r)
	case PNG:
		return png.Decode(r)
	case WebP:
		return webp.Decode(r)
	case HEIC:
		return decodeHEIC(data, limits)
	}
	return nil, errors.New("unknown format")
}

// Fit gives the picture upright, scaled down so that its longer side is at most
// maxSide pixels; it is never scaled up, and maxSide <= 0 asks for its full size.
// What is transparent becomes white. The result is fresh and its rows lie one
// right after the other, as the window's textures need.
func (p *Picture) Fit(maxSide int) *image.RGBA {
	return p.Orientation.Turn(fit(p.stored, maxSide))
}
