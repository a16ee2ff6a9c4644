package crumb_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"twinloaf/journal/crumb"
)

// prepared is a drawn pan loaf made ready, with what is found on it untouched.
func prepared(t *testing.T) (*crumb.Prepared, *crumb.Result) {
	t.Helper()
	p, want := drawTruth(t, pan(noChange))
	f, err := crumb.Prepare(t.Context(), p.Photo, crumb.Options{PxPerMM: want.PxPerMM})
	if err != nil {
		t.Fatal(err)
	}
	r, err := f.Measure(t.Context(), 0)
	if err != nil {
		t.Fatal(err)
	}
	return f, r
}

func area(r *crumb.Result) float64 {
	sum := 0.0
	for _, c := range r.Cells {
		sum += c.Area
	}
	return sum
}

// roundCells are those whose middle surely lies in them, largest first.
func roundCells(r *crumb.Result) []crumb.Cell {
	var out []crumb.Cell
	for _, c := range r.Cells {
		if !c.AtEdge && c.Major < 1.4*c.Minor && c.Diameter > 1.5 {
			out = append(out, c)
		}
	}
	return out
}

func TestCorrections(t *testing.T) {
	f, r := prepared(t)
	cells := roundCells(r)
	if len(cells) < 10 {
		t.Fatalf("only %d cells to try on", len(cells))
	}
	measure := func(c ...crumb.Correction) *crumb.Result {
		t.Helper()
		out, err := crumb.WithCorrections(f, c...).Measure(t.Context(), 0)
		if err != nil {
			t.Fatal(err)
		}
		return out
	}
	big := cells[0]
	erased := measure(crumb.Correction{Kind: crumb.Erase, Path: []crumb.Point{big.At}})
	if erased.Counted != r.Counted-1 || math.Abs(area(r)-area(erased)-big.Area) > 1e-6 || erased.Corrected != 1 {
		t.Errorf("erased: %d cells of %d, %.3f mm² gone of %.3f, %d corrections", erased.Counted, r.Counted, area(r)-area(erased), big.Area, erased.Corrected)
	}
	other := cells[1]
	joined := measure(crumb.Correction{Kind: crumb.Join, Path: []crumb.Point{big.At, other.At}})
	i, ok := joined.CellAt(big.At)
	j, also := joined.CellAt(other.At)
	if !ok || !also || i != j || joined.Counted >= r.Counted || area(joined) < area(r) {
		t.Errorf("joined: cells %d and %d, %d of %d", i, j, joined.Counted, r.Counted)
	}
	half := big.Diameter * r.PxPerMM
	across := []crumb.Point{{X: big.At.X - half, Y: big.At.Y}, {X: big.At.X + half, Y: big.At.Y}}
	cut := measure(crumb.Correction{Kind: crumb.Cut, Path: across})
	up, okUp := cut.CellAt(crumb.Point{X: big.At.X, Y: big.At.Y - half/6})
	down, okDown := cut.CellAt(crumb.Point{X: big.At.X, Y: big.At.Y + half/6})
	if !okUp || !okDown || up == down || area(cut) >= area(r) {
		t.Errorf("cut: above it is cell %d, below it %d", up, down)
	}
	// What was erased can be painted, and what was cut joined again.
	box := []crumb.Point{{X: big.At.X - 4, Y: big.At.Y - 4}, {X: big.At.X + 4, Y: big.At.Y - 4}, {X: big.At.X + 4, Y: big.At.Y + 4}, {X: big.At.X - 4, Y: big.At.Y + 4}}
	painted := measure(crumb.Correction{Kind: crumb.Erase, Path: []crumb.Point{big.At}}, crumb.Correction{Kind: crumb.Paint, Path: box})
	if n, ok := painted.CellAt(big.At); !ok || math.Abs(painted.Cells[n].Area*r.PxPerMM*r.PxPerMM-64) > 12 || painted.Corrected != 2 {
		t.Errorf("painted: %v, %d corrections", ok, painted.Corrected)
	}
	// What meets nothing changes nothing, and is not told.
	idle := measure(crumb.Correction{Kind: crumb.Erase, Path: []crumb.Point{{X: -50, Y: -50}}}, crumb.Correction{Kind: "bless", Path: across}, crumb.Correction{Kind: crumb.Cut})
	if idle.Corrected != 0 || idle.Counted != r.Counted {
		t.Errorf("idle strokes: %d corrections, %d cells of %d", idle.Corrected, idle.Counted, r.Counted)
	}
	// Measuring again without them is as before.
	if again := measure(); again.Counted != r.Counted || again.Corrected != 0 || area(again) != area(r) {
		t.Error("a correction stayed behind")
	}
}

// Whatever is drawn over the cells, shares stay shares and every cell has its number.
func TestCorrectionProperties(t *testing.T) {
	f, r := prepared(t)
	lo, hi := bounds(r.Outline)
	rapid.Check(t, func(t *rapid.T) {
		kinds := []crumb.CorrectionKind{crumb.Erase, crumb.Join, crumb.Cut, crumb.Paint}
		var all []crumb.Correction
		for range rapid.IntRange(1, 4).Draw(t, "strokes") {
			c := crumb.Correction{Kind: rapid.SampledFrom(kinds).Draw(t, "kind")}
			for range rapid.IntRange(1, 6).Draw(t, "points") {
				c.Path = append(c.Path, crumb.Point{X: rapid.Float64Range(lo.X-20, hi.X+20).Draw(t, "x"), Y: rapid.Float64Range(lo.Y-20, hi.Y+20).Draw(t, "y")})
			}
			all = append(all, c)
		}
		out, err := crumb.WithCorrections(f, all...).Measure(t.Context(), 0)
		if err != nil {
			t.Fatal(err)
		}
		if open := out.Measured(crumb.Porosity); open.Trust != crumb.Withheld && math.Abs(area(out)/out.FaceArea-open.Value) > 1e-9 {
			t.Fatalf("the cells make up %g of the face, the figure is %g", area(out)/out.FaceArea, open.Value)
		}
		if out.Counted != len(out.Cells) || out.Corrected > len(all) {
			t.Fatalf("%d cells counted, %d there; %d corrections", out.Counted, len(out.Cells), out.Corrected)
		}
		for i, c := range out.Cells {
			if c.Area <= 0 {
				t.Fatalf("cell %d has no area", i)
			}
		}
	})
}

func bounds(o crumb.Outline) (lo, hi crumb.Point) {
	lo, hi = o[0], o[0]
	for _, p := range o {
		lo = crumb.Point{X: min(lo.X, p.X), Y: min(lo.Y, p.Y)}
		hi = crumb.Point{X: max(hi.X, p.X), Y: max(hi.Y, p.Y)}
	}
	return lo, hi
}

func TestWidened(t *testing.T) {
	ring := func(backwards bool) crumb.Outline {
		var o crumb.Outline
		for k := range 60 {
			a := float64(k) * math.Pi / 30
			if backwards {
				a = -a
			}
			o = append(o, crumb.Point{X: 100 + 80*math.Cos(a), Y: 100 + 80*math.Sin(a)})
		}
		return o
	}
	for _, backwards := range []bool{false, true} {
		for _, px := range []float64{-7, 0, 5} {
			for _, p := range ring(backwards).Widened(px) {
				if r := math.Hypot(p.X-100, p.Y-100); math.Abs(r-80-px) > 1e-6 {
					t.Fatalf("a circle of 80 widened by %g has a radius of %g", px, r)
				}
			}
		}
	}
}
