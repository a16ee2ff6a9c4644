package crumb_test

import (
	"bytes"
	"context"
	"image"
	"image/jpeg"
	"testing"

	"twinloaf/journal/crumb"
	"twinloaf/journal/crumb/phantom"
)

// benchJPEG draws a boule as a phone would keep it, and says how many pixels go to
// its millimetre.
func benchJPEG(b *testing.B, w, h int) ([]byte, float64) {
	b.Helper()
	p, err := phantom.Draw(context.Background(), phantom.Slice{Seed: 12, Width: w, Height: h,
		Cells: phantom.Cells{MedianMM: 1.2, LogSD: 0.6, Porosity: 0.38}, Light: phantom.Light{Noise: 3}})
	if err != nil {
		b.Fatal(err)
	}
	var buf bytes.Buffer
	if err := jpeg.Encode(&buf, p.Photo, &jpeg.Options{Quality: 92}); err != nil {
		b.Fatal(err)
	}
	return buf.Bytes(), p.Truth.PxPerMM
}

func decodeJPEG(b *testing.B, data []byte) image.Image {
	b.Helper()
	img, err := jpeg.Decode(bytes.NewReader(data))
	if err != nil {
		b.Fatal(err)
	}
	return img
}

// benchPhoto is such a photo, decoded.
func benchPhoto(b *testing.B, w, h int) (image.Image, float64) {
	b.Helper()
	data, k := benchJPEG(b, w, h)
	return decodeJPEG(b, data), k
}

func benchmarkMeasure(b *testing.B, w, h int) {
	img, k := benchPhoto(b, w, h)
	b.ReportAllocs()
	for b.Loop() {
		r, err := crumb.Measure(context.Background(), img, 0, crumb.Options{PxPerMM: k})
		if err != nil || r.Counted < 500 {
			b.Fatalf("%v, %d cells", err, r.Counted)
		}
	}
}

func BenchmarkMeasure2Megapixels(b *testing.B)  { benchmarkMeasure(b, 1640, 1230) }
func BenchmarkMeasure12Megapixels(b *testing.B) { benchmarkMeasure(b, 4000, 3000) }

// The sensitivity is nudged on a face that is ready.
func BenchmarkNudge(b *testing.B) {
	img, k := benchPhoto(b, 4000, 3000)
	f, err := crumb.Prepare(context.Background(), img, crumb.Options{PxPerMM: k})
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := f.Measure(context.Background(), 0.2); err != nil {
			b.Fatal(err)
		}
	}
}
