package foam

import (
	"bytes"
	"context"
	"errors"
	"math"
	"runtime"
	"testing"
)

func draw(t *testing.T, s Slice) *Picture {
	t.Helper()
	p, err := Draw(context.Background(), s)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// Two discs are one cell when the chord between them is no neck.
func TestWhatCountsAsOneCell(t *testing.T) {
	disc := func(x, r float64) bubble { return bubble{x: x, r: r, disc: r} }
	for _, c := range []struct {
		name string
		a, b bubble
		want bool
	}{
		{"apart", disc(0, 1), disc(2.5, 1), false},
		{"hardly touching", disc(0, 1), disc(1.95, 1), false},
		{"a chord of 0.8 of the diameter", disc(0, 1), disc(1.2, 1), false},
		{"a chord of 0.87 of the diameter", disc(0, 1), disc(1, 1), true},
		{"a small one at a large one's rim", disc(0, 3), disc(2.9, 0.5), true},
		{"one within the other", disc(0, 3), disc(1, 0.5), true},
	} {
		if got := oneCell(c.a, c.b); got != c.want || oneCell(c.b, c.a) != c.want {
			t.Errorf("%s: one cell is %v, want %v", c.name, got, c.want)
		}
	}
	row := []bubble{disc(0, 1), disc(0.9, 1), disc(2.6, 1)}
	unite(row)
	if row[0].cell != row[1].cell || row[1].cell == row[2].cell {
		t.Errorf("three discs in a row make the cells %d, %d and %d", row[0].cell, row[1].cell, row[2].cell)
	}
}

// Of a Boolean model the share of a plane in bubbles is the share of the volume.
func TestThePlaneIsAsOpenAsWanted(t *testing.T) {
	for _, open := range []float64{0.25, 0.42} {
		s := Slice{Seed: 3, Width: 260, Height: 220, WidthMM: 60, MedianMM: 1.2, Open: open}.withDefaults()
		f := newForm(s)
		g := newGrid(s, f)
		g.cut(throw(s, f, newRand(s)))
		in, all := 0, 0
		for i, c := range g.cell {
			if float64(g.inside[i]) > f.crust+2 { // beside the crust bubbles keep away
				all++
				if c != 0 {
					in++
				}
			}
		}
		if got := float64(in) / float64(all); math.Abs(got-open) > 0.04 {
			t.Errorf("wanted %.2f of the plane in bubbles, got %.3f", open, got)
		}
	}
}

func TestTruthAgreesWithLabels(t *testing.T) {
	p := draw(t, Slice{Seed: 5, Width: 300, Height: 260, WidthMM: 40})
	crumb, open := 0, 0
	cells := map[uint16]bool{}
	for i, l := range p.Labels {
		if p.Crumb.Pix[i] != 0 {
			crumb++
		}
		if l != 0 {
			open++
			cells[l] = true
			if p.Crumb.Pix[i] == 0 {
				t.Fatal("a cell reaches beyond the crumb")
			}
		}
	}
	if got := float64(open) / float64(crumb); math.Abs(got-p.Truth.Open) > 0.003 {
		t.Errorf("the labels are open by %.4f, the truth says %.4f", got, p.Truth.Open)
	}
	if p.Truth.Whole == 0 || len(cells) < p.Truth.Whole {
		t.Errorf("%d labels for %d whole cells", len(cells), p.Truth.Whole)
	}
}

// A slice thinner than its bubbles has holes; a thick one has none.
func TestHolesShowTheTable(t *testing.T) {
	s := Slice{Seed: 6, Width: 240, Height: 200, WidthMM: 40, MedianMM: 3, ThickMM: 2}
	if thin := draw(t, s); thin.Truth.Holes < 0.01 {
		t.Errorf("only %.4f of a thin slice is hole", thin.Truth.Holes)
	}
	s.ThickMM = 40
	if thick := draw(t, s); thick.Truth.Holes > 0 {
		t.Errorf("%.4f of a thick slice is hole", thick.Truth.Holes)
	}
}

// Turned away from the window a floor is dark, turned towards it bright.
func TestTheWindowLightsTheFarSide(t *testing.T) {
	s := Slice{Seed: 1, Width: 64, Height: 64, WidthMM: 20, Share: 0.8, Light: Light{Around: 0.1}}.withDefaults()
	g := newGrid(s, newForm(s))
	g.cut([]bubble{{z: 0.5, r: 4, disc: math.Sqrt(16 - 0.25), cell: 1}})
	g.shine()
	at := func(mm float64) float32 {
		return g.light[(g.h/2)*g.w+g.w/2+int(mm/g.step)]
	}
	// The window stands to the right, so that the left side of the bowl faces it.
	if left, right, cut := at(-3), at(3), at(6); left < 1.5*right || cut < 0.9 {
		t.Errorf("light %.2f on the side that faces the window, %.2f on the other, %.2f on the cut", left, right, cut)
	}
}

func TestSameSliceSameBytes(t *testing.T) {
	s := Slice{Seed: 9, Width: 160, Height: 140, WidthMM: 30, Grain: 0.05, Light: Light{Noise: 3, Blur: 0.8}, Scene: Scene{Second: true, Cloth: 0.2}}
	a := draw(t, s)
	before := runtime.GOMAXPROCS(1)
	b := draw(t, s)
	runtime.GOMAXPROCS(before)
	if !bytes.Equal(a.Photo.Pix, b.Photo.Pix) {
		t.Error("one processor draws another picture than several")
	}
}

func TestDrawingRefusesAndStops(t *testing.T) {
	if _, err := Draw(context.Background(), Slice{Width: 8, Height: 200}); err == nil {
		t.Error("a picture 8 pixels wide is drawn")
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Draw(ctx, Slice{Width: 64, Height: 64}); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled, it says %v", err)
	}
}
