package crumb_test

import (
	"bytes"
	"context"
	"errors"
	"image"
	"image/color"
	_ "image/gif"
	"image/jpeg"
	"image/png"
	"math"
	"testing"

	"twinloaf/journal/crumb"
)

// FuzzMeasure hands over any picture that decodes, with any outline, scale and
// setting: there is a result or a stated reason, and every figure is finite.
func FuzzMeasure(f *testing.F) {
	photo := smallSlice()
	var asPNG, asJPEG, plain bytes.Buffer
	if err := errors.Join(png.Encode(&asPNG, photo), jpeg.Encode(&asJPEG, photo, nil),
		png.Encode(&plain, image.NewPaletted(image.Rect(0, 0, 64, 64), color.Palette{color.Black, color.White}))); err != nil {
		f.Fatal(err)
	}
	f.Add(asPNG.Bytes(), 1.0, 0.0, 0.0, 0.0, 0.0, 0.0)
	f.Add(asJPEG.Bytes(), 0.0, 0.5, 10.0, 10.0, 90.0, 80.0)
	f.Add(plain.Bytes(), 1e4, -1.0, -50.0, 0.0, 1e9, 64.0)
	f.Add(plain.Bytes(), 0.001, 1.0, 5.0, 5.0, 60.0, 60.0)
	f.Add(asPNG.Bytes(), math.NaN(), 2.0, math.NaN(), 0.0, 30.0, 30.0)
	f.Fuzz(func(t *testing.T, raw []byte, scale, sensitivity, x0, y0, x1, y1 float64) {
		head, _, err := image.DecodeConfig(bytes.NewReader(raw))
		if err != nil || head.Width > 4096 || head.Height > 4096 || head.Width*head.Height > 1<<20 {
			return
		}
		img, _, err := image.Decode(bytes.NewReader(raw))
		if err != nil {
			return
		}
		o := crumb.Options{PxPerMM: scale}
		if x1 != 0 {
			o.Outline = crumb.Outline{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}, {X: x1, Y: y0}}
		}
		r, err := crumb.Measure(context.Background(), img, sensitivity, o)
		if err != nil {
			if !errors.Is(err, crumb.ErrTooSmall) && !errors.Is(err, crumb.ErrOutline) && !errors.Is(err, crumb.ErrScale) && !errors.Is(err, crumb.ErrSetting) {
				t.Fatalf("an error without a stated reason: %v", err)
			}
			return
		}
		if len(r.Figures) != len(crumb.Definitions()) {
			t.Fatalf("%d figures of %d", len(r.Figures), len(crumb.Definitions()))
		}
		for _, g := range r.Figures {
			if math.IsNaN(g.Value) || math.IsInf(g.Value, 0) {
				t.Fatalf("%s is %v", g.ID, g.Value)
			}
		}
		if v := r.Measured(crumb.Porosity).Value; v < 0 || v > 1 {
			t.Fatalf("open share %v", v)
		}
	})
}

// smallSlice is a bright square with dark holes on a dark ground, drawn so
// simply that a fuzzing worker is ready at once.
func smallSlice() *image.RGBA {
	m := image.NewRGBA(image.Rect(0, 0, 96, 72))
	for y := range 72 {
		for x := range 96 {
			c := color.RGBA{40, 42, 46, 255}
			switch {
			case x < 8 || y < 8 || x >= 88 || y >= 64:
			case x < 11 || y < 11 || x >= 85 || y >= 61:
				c = color.RGBA{150, 90, 44, 255}
			case (x%9-4)*(x%9-4)+(y%9-4)*(y%9-4) < 8:
				c = color.RGBA{110, 101, 82, 255}
			default:
				c = color.RGBA{220, 202, 166, 255}
			}
			m.SetRGBA(x, y, c)
		}
	}
	return m
}
