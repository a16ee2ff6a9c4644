package phantom_test

import (
	"bytes"
	"context"
	"errors"
	"math"
	"runtime"
	"testing"

	"twinloaf/journal/crumb/phantom"
)

func draw(t *testing.T, s phantom.Slice) *phantom.Picture {
	t.Helper()
	p, err := phantom.Draw(context.Background(), s)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestTruthAgreesWithLabels(t *testing.T) {
	shapes := map[string]phantom.Slice{
		"boule":          {Seed: 1, Width: 500, Height: 400},
		"pan on linen":   {Seed: 2, Width: 400, Height: 400, Shape: phantom.Pan, Ground: phantom.Linen},
		"flat with seed": {Seed: 3, Width: 600, Height: 300, Shape: phantom.Flat, Seeds: 0.05},
		"frame of crumb": {Seed: 4, Width: 300, Height: 300, Shape: phantom.Full, SliceMM: 30},
		"leaves frame":   {Seed: 5, Width: 400, Height: 300, Fill: 1.3, ShiftX: 0.2},
	}
	for name, s := range shapes {
		t.Run(name, func(t *testing.T) {
			p := draw(t, s)
			px := map[uint16]int{}
			cellPx, crumbPx := 0, 0
			for i, l := range p.Labels {
				if p.Crumb.Pix[i] == 255 {
					crumbPx++
				}
				if l != 0 {
					px[l]++
					cellPx++
				}
			}
			if p.Truth.Cells == 0 || len(px) != p.Truth.Cells {
				t.Fatalf("truth says %d cells, labels hold %d", p.Truth.Cells, len(px))
			}
			if got := float64(cellPx) / float64(crumbPx); math.Abs(got-p.Truth.Porosity) > 1e-12 {
				t.Errorf("porosity %v, labels give %v", p.Truth.Porosity, got)
			}
			for l, n := range px {
				want := float64(n) / (p.Truth.PxPerMM * p.Truth.PxPerMM)
				if math.Abs(p.Truth.AreasMM2[l-1]-want) > 1e-9 {
					t.Fatalf("cell %d: area %v, labels give %v", l, p.Truth.AreasMM2[l-1], want)
				}
			}
		})
	}
}

func TestPorosityComesOutAsWanted(t *testing.T) {
	for _, want := range []float64{0.2, 0.33, 0.42} {
		p := draw(t, phantom.Slice{Seed: 8, Width: 700, Height: 560, Cells: phantom.Cells{Porosity: want}})
		if math.Abs(p.Truth.Porosity-want) > 0.04 {
			t.Errorf("asked for porosity %v, drew %v", want, p.Truth.Porosity)
		}
	}
}

func TestSameSliceSameBytes(t *testing.T) {
	s := phantom.Slice{Seed: 9, Width: 420, Height: 300, Light: phantom.Light{Noise: 3, Blur: 1, Gradient: 0.3}, Seeds: 0.03}
	a := draw(t, s)
	before := runtime.GOMAXPROCS(1)
	b := draw(t, s)
	runtime.GOMAXPROCS(before)
	if !bytes.Equal(a.Photo.Pix, b.Photo.Pix) {
		t.Error("one processor draws another picture than several")
	}
	s.Seed++
	if c := draw(t, s); bytes.Equal(a.Photo.Pix, c.Photo.Pix) {
		t.Error("another seed drew the same picture")
	}
}

func TestCellsNeverTouch(t *testing.T) {
	p := draw(t, phantom.Slice{Seed: 10, Width: 600, Height: 480, Cells: phantom.Cells{Porosity: 0.45, LogSD: 0.8}})
	const w = 600
	for i := 0; i+w+1 < len(p.Labels); i++ {
		for _, j := range []int{i + 1, i + w, i + w + 1} {
			if a, b := p.Labels[i], p.Labels[j]; a != 0 && b != 0 && a != b {
				t.Fatalf("cells %d and %d touch at pixel %d", a, b, i)
			}
		}
	}
}

func TestImpossibleFrameIsRefused(t *testing.T) {
	for _, s := range []phantom.Slice{{}, {Width: 15, Height: 900}, {Width: 1 << 20, Height: 1 << 20}, {Width: 100, Height: -4}} {
		if _, err := phantom.Draw(context.Background(), s); !errors.Is(err, phantom.ErrSize) {
			t.Errorf("%d by %d: got %v, want ErrSize", s.Width, s.Height, err)
		}
	}
}

func TestDrawingCanBeCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := phantom.Draw(ctx, phantom.Slice{Width: 400, Height: 400}); !errors.Is(err, context.Canceled) {
		t.Errorf("got %v, want context.Canceled", err)
	}
}

func BenchmarkDraw12Megapixels(b *testing.B) {
	for b.Loop() {
		if _, err := phantom.Draw(context.Background(), phantom.Slice{Seed: 1, Width: 4000, Height: 3000}); err != nil {
			b.Fatal(err)
		}
	}
}
