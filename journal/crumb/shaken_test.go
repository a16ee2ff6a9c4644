package crumb_test

import (
	"context"
	"image"
	"testing"

	"twinloaf/journal/crumb"
	"twinloaf/journal/crumb/foam"
	"twinloaf/journal/crumb/phantom"
	"twinloaf/journal/journaltest/race"
)

// shaken is a photo of which the camera moved by so many pixels while it was taken.
func shaken(src *image.RGBA, dx, dy, steps int) *image.RGBA {
	dst := image.NewRGBA(src.Rect)
	w, h := src.Rect.Dx(), src.Rect.Dy()
	for y := range h {
		for x := range w {
			for c := range 4 {
				sum := 0
				for k := range steps {
					sum += int(src.Pix[src.PixOffset(min(w-1, max(0, x+dx*(k-steps/2))), min(h-1, max(0, y+dy*(k-steps/2))))+c])
				}
				dst.Pix[dst.PixOffset(x, y)+c] = uint8(sum / steps)
			}
		}
	}
	return dst
}

// A camera that moved one way leaves the edges along its way sharp.
func TestShakeInOneDirectionIsSeen(t *testing.T) {
	p, want := drawTruth(t, pan(noChange))
	for _, way := range race.Few([][2]int{{1, 0}, {0, 1}, {1, 1}, {1, -1}}, 1) {
		r, err := crumb.Measure(context.Background(), shaken(p.Photo, way[0], way[1], 11), 0, crumb.Options{PxPerMM: want.PxPerMM, Outline: outlineOf(p)})
		if err != nil {
			t.Fatal(err)
		}
		if !flagged(r, crumb.Blurred, crumb.Withheld) || r.Measured(crumb.MeanArea).Trust != crumb.Withheld || r.Measured(crumb.Porosity).Trust == crumb.Good {
			t.Errorf("shaken along %v: %+v", way, r.Flags)
		}
	}
	// Long cells have few edges across their way, and are no shake.
	s, want := drawTruth(t, pan(func(s *phantom.Slice) { s.Cells.Stretch = 2.5 }))
	r, err := crumb.Measure(context.Background(), s.Photo, 0, crumb.Options{PxPerMM: want.PxPerMM})
	if err != nil || flagged(r, crumb.Blurred, crumb.Doubtful) {
		t.Errorf("stretched cells are called shaken: %v, %+v", err, r.Flags)
	}
}

func outlineOf(p *phantom.Picture) crumb.Outline {
	var o crumb.Outline
	for _, q := range p.Truth.Outline {
		o = append(o, crumb.Point(q))
	}
	return o
}

// Specks of bran that are nearly as dark as the cells: the figures that count cells go
// first, the open share later.
func TestGrainIsNoCell(t *testing.T) {
	type grainy struct {
		grain         float64
		counted, open crumb.Trust
	}
	for _, c := range race.Few([]grainy{{0, crumb.Good, crumb.Good}, {0.02, crumb.Good, crumb.Good}, {0.07, crumb.Doubtful, crumb.Good}, {0.12, crumb.Withheld, crumb.Doubtful}, {0.22, crumb.Withheld, crumb.Withheld}}, 1) {
		p, want := drawTruth(t, pan(func(s *phantom.Slice) {
			s.Grain, s.Cells.Depth, s.Tone, s.Ground = c.grain, 0.45, phantom.Rye, phantom.Linen
		}))
		r, err := crumb.Measure(context.Background(), p.Photo, 0, crumb.Options{PxPerMM: want.PxPerMM})
		if err != nil {
			t.Fatal(err)
		}
		if a, b := r.Measured(crumb.CellDensity).Trust, r.Measured(crumb.Porosity).Trust; a != c.counted || b != c.open {
			t.Errorf("grain %.2f, contrast %.1f: density %s, open share %s, want %s and %s: %+v", c.grain, r.Contrast, a, b, c.counted, c.open, r.Flags)
		}
	}
}

// Lit by a window, half of a bowl's floor is as bright as the walls.
func TestHalfLitCellsAreFlagged(t *testing.T) {
	p, err := foam.Draw(context.Background(), foam.Slice{Seed: 4, Width: 340, Height: 300, WidthMM: 40, MedianMM: 1.6, Light: foam.Light{Direction: 200, Noise: 2, Blur: 0.5}})
	if err != nil {
		t.Fatal(err)
	}
	r, err := crumb.Measure(context.Background(), p.Photo, 0, crumb.Options{PxPerMM: p.Truth.PxPerMM})
	if err != nil {
		t.Fatal(err)
	}
	if !flagged(r, crumb.PartSeen, crumb.Doubtful) || r.Measured(crumb.MeanArea).Trust == crumb.Good {
		t.Errorf("cells lit from one side, open share %.3f of %.3f: %+v", r.Measured(crumb.Porosity).Value, p.Truth.Open, r.Flags)
	}
}
