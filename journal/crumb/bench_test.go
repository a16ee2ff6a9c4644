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

// benchPhoto draws a boule and brings it into the form that a decoded phone
// photo has.
func benchPhoto(b *testing.B, w, h int) (image.Image, float64) {
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
	img, err := jpeg.Decode(&buf)
	if err != nil {
		b.Fatal(err)
	}
	return img, p.Truth.PxPerMM
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
