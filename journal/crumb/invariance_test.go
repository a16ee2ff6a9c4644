package crumb_test

import (
	"bytes"
	"context"
	"image"
	"image/jpeg"
	"math"
	"testing"

	xdraw "golang.org/x/image/draw"

	"twinloaf/journal/crumb"
	"twinloaf/journal/journaltest/race"
)

// redraw makes a picture of w by h whose pixel (x, y) is the one that from
// names.
func redraw(src *image.RGBA, w, h int, from func(x, y int) (int, int)) *image.RGBA {
	dst := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			sx, sy := from(x, y)
			copy(dst.Pix[dst.PixOffset(x, y):][:4], src.Pix[src.PixOffset(sx, sy):][:4])
		}
	}
	return dst
}

func recolour(src *image.RGBA, gain [3]float64) *image.RGBA {
	dst := image.NewRGBA(src.Rect)
	for i := 0; i < len(src.Pix); i += 4 {
		for k := range 3 {
			dst.Pix[i+k] = uint8(math.Min(255, float64(src.Pix[i+k])*gain[k]+0.5))
		}
		dst.Pix[i+3] = 255
	}
	return dst
}

// How far a measure may move, in its own unit or as a share of itself.
type tolerance struct {
	id       crumb.MeasureID
	absolute float64
	relative float64
}

// The stated small amounts: turning and mirroring, which change nothing but the
// order in which pixels are visited; then what touches the pixels themselves.
var (
	turned = []tolerance{{crumb.Porosity, 0.002, 0}, {crumb.CellDensity, 0, 0.015}, {crumb.MeanArea, 0, 0.015},
		{crumb.MedianArea, 0, 0.03}, {crumb.WallThickness, 0, 0.01}, {crumb.Elongation, 0.01, 0}, {crumb.LargestArea, 0, 0.01}}
	touched = []tolerance{{crumb.Porosity, 0.012, 0}, {crumb.CellDensity, 0, 0.03}, {crumb.MeanArea, 0, 0.05},
		{crumb.MedianArea, 0, 0.09}, {crumb.WallThickness, 0, 0.04}, {crumb.Elongation, 0.04, 0}, {crumb.LargestArea, 0, 0.03}}
)

func TestInvariance(t *testing.T) {
	p, want := drawTruth(t, goodCases()[12].slice)
	src := p.Photo
	w, h := src.Rect.Dx(), src.Rect.Dy()
	measure := func(img image.Image, k float64) *crumb.Result {
		r, err := crumb.Measure(context.Background(), img, 0, crumb.Options{PxPerMM: k})
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	base := measure(src, want.PxPerMM)
	direction := func(r *crumb.Result) float64 { return r.Measured(crumb.Direction).Value }

	var saved bytes.Buffer
	if err := jpeg.Encode(&saved, src, &jpeg.Options{Quality: 85}); err != nil {
		t.Fatal(err)
	}
	again, err := jpeg.Decode(&saved)
	if err != nil {
		t.Fatal(err)
	}
	double := image.NewRGBA(image.Rect(0, 0, 2*w, 2*h))
	xdraw.CatmullRom.Scale(double, double.Rect, src, src.Rect, xdraw.Src, nil)

	type same struct {
		name  string
		img   image.Image
		scale float64
		angle float64 // what the main direction should be
		moves []tolerance
	}
	for _, c := range race.Few([]same{
		{"turned by a quarter", redraw(src, h, w, func(x, y int) (int, int) { return y, h - 1 - x }), 1, math.Mod(direction(base)+90, 180), turned},
		{"turned by half", redraw(src, w, h, func(x, y int) (int, int) { return w - 1 - x, h - 1 - y }), 1, direction(base), turned},
		{"mirrored", redraw(src, w, h, func(x, y int) (int, int) { return w - 1 - x, y }), 1, 180 - direction(base), turned},
		{"twice the size", double, 2, direction(base), touched},
		{"darker by a quarter", recolour(src, [3]float64{0.75, 0.75, 0.75}), 1, direction(base), touched},
		{"lighter by a tenth", recolour(src, [3]float64{1.1, 1.1, 1.1}), 1, direction(base), touched},
		{"warmer", recolour(src, [3]float64{1.05, 1, 0.85}), 1, direction(base), touched},
		{"cooler", recolour(src, [3]float64{0.9, 1, 1.1}), 1, direction(base), touched},
		{"saved as JPEG at 85", again, 1, direction(base), touched},
		{"another place in the plane", moved(src, 300, -70), 1, direction(base), turned},
	}, 1) {
		t.Run(c.name, func(t *testing.T) {
			r := measure(c.img, c.scale*want.PxPerMM)
			for _, m := range c.moves {
				a, b := base.Measured(m.id).Value, r.Measured(m.id).Value
				if limit := m.absolute + m.relative*a; math.Abs(b-a) > limit {
					t.Errorf("%s moved from %.4g to %.4g, more than %.3g", m.id, a, b, limit)
				}
			}
			if d := math.Mod(direction(r)-c.angle+270, 180) - 90; math.Abs(d) > 2 {
				t.Errorf("main direction %.1f°, want %.1f°", direction(r), c.angle)
			}
		})
	}
}

// moved gives a picture bounds that do not begin at (0, 0).
func moved(src *image.RGBA, dx, dy int) image.Image {
	return &image.RGBA{Pix: src.Pix, Stride: src.Stride, Rect: src.Rect.Add(image.Pt(dx, dy))}
}

func TestNumberOfProcessorsChangesNothing(t *testing.T) {
	p, want := drawTruth(t, pan(noChange))
	one := onProcessors(t, 1, p.Photo, want.PxPerMM)
	three := onProcessors(t, 3, p.Photo, want.PxPerMM)
	for i, f := range one.Figures {
		if f != three.Figures[i] {
			t.Errorf("%s: %v on one processor, %v on three", f.ID, f.Value, three.Figures[i].Value)
		}
	}
}

func TestSensitivityOpensAndCloses(t *testing.T) {
	p, want := drawTruth(t, pan(noChange))
	f, err := crumb.Prepare(context.Background(), p.Photo, crumb.Options{PxPerMM: want.PxPerMM})
	if err != nil {
		t.Fatal(err)
	}
	last := 0.0
	for _, s := range race.Few([]float64{-1, -0.5, 0, 0.5, 1}, 2) {
		r, err := f.Measure(context.Background(), s)
		if err != nil {
			t.Fatal(err)
		}
		if r.Sensitivity != s {
			t.Errorf("taken at %g, says %g", s, r.Sensitivity)
		}
		v := r.Measured(crumb.Porosity).Value
		if v <= last {
			t.Errorf("at sensitivity %g the open share is %.3f, at the setting below %.3f", s, v, last)
		}
		last = v
	}
	again, err := f.Measure(context.Background(), 0)
	if err != nil {
		t.Fatal(err)
	}
	fresh, err := crumb.Measure(context.Background(), p.Photo, 0, crumb.Options{PxPerMM: want.PxPerMM})
	if err != nil {
		t.Fatal(err)
	}
	for i, g := range again.Figures {
		if g != fresh.Figures[i] {
			t.Errorf("%s: %v after nudging to and fro, %v afresh", g.ID, g.Value, fresh.Figures[i].Value)
		}
	}
}

func TestWithoutTrueLengthFiguresAreThoseOfAWidthOf100(t *testing.T) {
	p, _ := drawTruth(t, pan(noChange))
	relative, err := crumb.Measure(context.Background(), p.Photo, 0, crumb.Options{})
	if err != nil {
		t.Fatal(err)
	}
	k, err := relative.Outline.ScaleFromWidth(100)
	if err != nil {
		t.Fatal(err)
	}
	scaled, err := crumb.Measure(context.Background(), p.Photo, 0, crumb.Options{PxPerMM: k, Outline: relative.Outline})
	if err != nil {
		t.Fatal(err)
	}
	if !relative.Relative || scaled.Relative {
		t.Fatalf("relative %v and %v", relative.Relative, scaled.Relative)
	}
	for i, f := range relative.Figures {
		if f.Value != scaled.Figures[i].Value && f.Trust == scaled.Figures[i].Trust {
			t.Errorf("%s: %v relative, %v with a width of 100 mm", f.ID, f.Value, scaled.Figures[i].Value)
		}
	}
}
