package charts_test

import (
	"strings"
	"testing"

	"twinloaf/charts"
)

// Points that lie on one another are one marker, the larger the more they are, and
// each can still be read and told from the others.
func TestPointsThatLieOnOneAnotherArePiled(t *testing.T) {
	x := []float64{1, 2, 2, 2, 2, 3, 4, 4.001}
	y := []float64{5, 5, 5, 5, 5, 7, 5, 5}
	figure := func(piled bool) charts.Spec {
		return charts.Plot{Panels: []charts.Panel{{Layers: []charts.Layer{
			charts.Series{Name: "bakes", X: x, Y: y, Draw: charts.Points, Piled: piled, LeftOut: []bool{7: false}},
		}}}}
	}
	flat, piled := drawn(t, figure(false), 400, 300, 1), drawn(t, figure(true), 400, 300, 1)
	if len(flat.Marks) != len(x) || len(piled.Marks) != len(x) {
		t.Fatalf("%d and %d marks, want %d", len(flat.Marks), len(piled.Marks), len(x))
	}
	paper := charts.LightPalette().Paper
	inked := func(p charts.Picture, m charts.Mark) (n int) {
		for dy := -15; dy <= 15; dy++ {
			c := p.Image.RGBAAt(int(m.X), int(m.Y)+dy)
			if c.B > c.R+30 && c.R < paper.R-60 {
				n++
			}
		}
		return n
	}
	four, one := piled.Marks[1], piled.Marks[0]
	if a, b := inked(piled, four), inked(piled, one); a <= b {
		t.Errorf("a pile of four is %d pixels high, a single point %d", a, b)
	}
	if a, b := inked(flat, flat.Marks[1]), inked(flat, flat.Marks[0]); a != b {
		t.Errorf("without piles, points differ: %d and %d pixels", a, b)
	}
	said := map[string]bool{}
	for _, m := range piled.Marks {
		if said[m.Text] {
			t.Errorf("%q stands for two points", m.Text)
		}
		said[m.Text] = true
		found, ok := piled.At(m.X, m.Y)
		if !ok || found.X != m.X || found.Y != m.Y {
			t.Errorf("pointing at %q finds %q", m.Text, found.Text)
		}
	}
	if !strings.Contains(four.Text, "1 of 4 here") || strings.Contains(one.Text, "here") {
		t.Errorf("%q and %q", four.Text, one.Text)
	}
	near := piled.Marks[7]
	if near.Index != 7 || near.X != piled.Marks[6].X || !strings.Contains(near.Text, "2 of 2 here") {
		t.Errorf("two that all but touch are apart: %+v", near)
	}
}

// A point that is left out stands by itself.
func TestAPointLeftOutIsInNoPile(t *testing.T) {
	pic := drawn(t, charts.Plot{Panels: []charts.Panel{{Layers: []charts.Layer{
		charts.Series{X: []float64{1, 2, 2}, Y: []float64{1, 2, 2}, Draw: charts.Points, Piled: true, LeftOut: []bool{false, false, true}},
	}}}}, 400, 300, 1)
	if len(pic.Marks) != 3 {
		t.Fatalf("%d marks, want 3", len(pic.Marks))
	}
	for _, m := range pic.Marks {
		if strings.Contains(m.Text, "here") {
			t.Errorf("%q is told as one of a pile", m.Text)
		}
	}
}

// Two piles whose markers would lie over one another are one, with the number of both, and
// each of its points can still be pointed at; two that are apart stay two.
func TestPilesThatOverlapAreOne(t *testing.T) {
	at := func(second float64) []charts.Mark {
		x := []float64{0, 5, 5, second, second, second, 10}
		y := []float64{1, 5, 5, 5, 5, 5, 9}
		return drawn(t, charts.Plot{Panels: []charts.Panel{{Layers: []charts.Layer{
			charts.Series{Name: "bakes", X: x, Y: y, Draw: charts.Points, Piled: true},
		}}}}, 400, 300, 1).Marks
	}
	near, far := at(5.2), at(6)
	if len(near) != 7 || len(far) != 7 {
		t.Fatalf("%d and %d marks, want 7", len(near), len(far))
	}
	for i, want := range []string{"1 of 5 here", "2 of 5 here", "3 of 5 here", "4 of 5 here", "5 of 5 here"} {
		if m := near[1+i]; m.X != near[1].X || m.Index != 1+i || !strings.Contains(m.Text, want) {
			t.Errorf("of two piles that overlap there is %+v, want %s", m, want)
		}
	}
	if !strings.Contains(far[1].Text, "1 of 2 here") || !strings.Contains(far[3].Text, "1 of 3 here") {
		t.Errorf("two piles that are apart are %q and %q", far[1].Text, far[3].Text)
	}
}
