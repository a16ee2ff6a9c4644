package crumb_test

import (
	"image"
	"math"
	"sync"
	"testing"

	"twinloaf/journal/crumb"
	"twinloaf/journal/crumb/foam"
	"twinloaf/journal/crumb/phantom"
	"twinloaf/journal/journaltest/race"
)

// Each fault of a picture's setting is told on a drawn slice that has it, and not on the
// same slice without.
func TestSettingIsFlagged(t *testing.T) {
	kitchen := foam.Slice{Seed: 4016, Width: 400, Height: 320, WidthMM: 60, Share: 0.55, MedianMM: 1.5, Grain: 0.02, Light: foam.Light{Direction: 200, Around: 0.5, Bounce: 0.3, Noise: 3, Blur: 0.5}}
	pale := [3]float64{206, 204, 198}
	drawn := func(change func(*foam.Slice)) func() image.Image {
		return func() image.Image {
			s := kitchen
			change(&s)
			p, err := foam.Draw(t.Context(), s)
			if err != nil {
				t.Fatal(err)
			}
			return p.Photo
		}
	}
	plain, _ := drawTruth(t, pan(func(s *phantom.Slice) { s.Cells.Stretch = 1.1 }))
	even := func() image.Image { return plain.Photo }
	aslant := func() image.Image {
		b := plain.Photo.Rect
		return camera{tilt: 40 * math.Pi / 180, away: 3 * float64(b.Dx()), mid: crumb.Point{X: float64(b.Dx()) / 2, Y: float64(b.Dy()) / 2}, out: b.Size()}.take(asDrawn(plain.Photo))
	}
	onWhite := sync.OnceValue(drawn(func(s *foam.Slice) { s.Scene.Ground, s.Light.Around = [3]float64{253, 253, 253}, 0.9 }))
	type setting struct {
		name      string
		kind      crumb.FlagKind
		good, bad func() image.Image
	}
	for _, c := range race.Few([]setting{
		{"butter", crumb.Bare, even, func() image.Image { return buttered(plain) }},
		{"flash", crumb.Flash, drawn(func(*foam.Slice) {}), drawn(func(s *foam.Slice) { s.Light.Flash = 0.6 })},
		{"a low window at the right of a pale table", crumb.UnsureEdge, drawn(func(s *foam.Slice) { s.Scene.Ground, s.Light.Around = pale, 0.9 }),
			drawn(func(s *foam.Slice) { s.Seed, s.Scene.Ground, s.Light.Direction, s.Light.Around = 4004, pale, 0, 0.3 })},
		{"a board like crust", crumb.UnsureEdge, drawn(func(s *foam.Slice) { s.Scene.Under = foam.Plate }), drawn(func(s *foam.Slice) { s.Scene.Under = foam.Board })},
		{"a table like crust", crumb.UnsureEdge, drawn(func(s *foam.Slice) { s.Scene.Ground = [3]float64{86, 62, 44} }), drawn(func(s *foam.Slice) { s.Scene.Ground = [3]float64{112, 73, 42} })},
		{"aslant by 40°", crumb.Slanted, even, aslant},
		{"a tear that shows a white table", crumb.Through, onWhite, func() image.Image { return torn(onWhite()) }},
		{"too few pixels without a length", crumb.TooCoarse, even, func() image.Image { return halved(asDrawn(plain.Photo), 3) }},
	}, 1) {
		t.Run(c.name, func(t *testing.T) {
			for _, p := range []struct {
				photo func() image.Image
				want  bool
			}{{c.good, false}, {c.bad, true}} {
				r, err := crumb.Measure(t.Context(), p.photo(), 0, crumb.Options{})
				if err != nil {
					t.Fatal(err)
				}
				if flagged(r, c.kind, crumb.Doubtful) != p.want {
					t.Errorf("flagged as %s: %v, wanted %v; %+v", c.kind, !p.want, p.want, r.Flags)
				}
			}
		})
	}
}

// torn takes a piece out of the middle of a slice that lies on white.
func torn(photo image.Image) image.Image {
	m := asDrawn(photo)
	mid := m.Rect.Max.Div(2)
	for y := range m.Rect.Dy() {
		for x := range m.Rect.Dx() {
			if math.Hypot(float64(x-mid.X)/2, float64(y-mid.Y)) < float64(m.Rect.Dx())/50 {
				i := m.PixOffset(x, y)
				m.Pix[i], m.Pix[i+1], m.Pix[i+2] = 253, 253, 253
			}
		}
	}
	return m
}

// buttered spreads butter over a part of the crumb: pale yellow, even, and without a cell.
func buttered(p *phantom.Picture) image.Image {
	m := asDrawn(p.Photo)
	mid := p.Truth.CrumbBox.Min.Add(p.Truth.CrumbBox.Max).Div(2)
	r := float64(p.Truth.CrumbBox.Dx()) / 4
	for y := range m.Rect.Dy() {
		for x := range m.Rect.Dx() {
			if math.Hypot(float64(x-mid.X), float64(y-mid.Y)) < r {
				i := m.PixOffset(x, y)
				wave := uint8((x*7 + y*13) % 5)
				m.Pix[i], m.Pix[i+1], m.Pix[i+2] = 226+wave, 205+wave, 142+wave
			}
		}
	}
	return m
}

// halved keeps the mean of n by n pixels.
func halved(m *image.RGBA, n int) image.Image {
	out := image.NewRGBA(image.Rect(0, 0, m.Rect.Dx()/n, m.Rect.Dy()/n))
	for y := range out.Rect.Dy() {
		for x := range out.Rect.Dx() {
			for c := range 4 {
				sum := 0
				for k := range n * n {
					sum += int(m.Pix[m.PixOffset(x*n+k%n, y*n+k/n)+c])
				}
				out.Pix[out.PixOffset(x, y)+c] = uint8(sum / (n * n))
			}
		}
	}
	return out
}

// A pale table that shows through a slice is no wall.
func TestHolesThatShowTheTableAreOpen(t *testing.T) {
	s := foam.Slice{Seed: 77, Width: 450, Height: 366, WidthMM: 49, Share: 0.8, MedianMM: 3.4, LogSD: 0.5, ThickMM: 4, Grain: 0.01,
		Light: foam.Light{Direction: 220, Height: 50, Around: 0.6, Noise: 2, Blur: 0.5}, Scene: foam.Scene{Ground: [3]float64{235, 236, 240}}}
	p, err := foam.Draw(t.Context(), s)
	if err != nil {
		t.Fatal(err)
	}
	if p.Truth.Holes < 0.01 {
		t.Fatalf("only %.4f of the slice shows the table", p.Truth.Holes)
	}
	r, err := crumb.Measure(t.Context(), p.Photo, 0, crumb.Options{PxPerMM: p.Truth.PxPerMM})
	if err != nil {
		t.Fatal(err)
	}
	hole, open := 0, 0
	for y := range s.Height {
		for x := range s.Width {
			c := p.Photo.RGBAAt(x, y)
			if p.Labels[y*s.Width+x] == 0 || int(c.B) < int(c.R)-12 || c.B < 90 {
				continue // no opening, or as yellow as bread
			}
			hole++
			if _, ok := r.CellAt(crumb.Point{X: float64(x) + 0.5, Y: float64(y) + 0.5}); ok {
				open++
			}
		}
	}
	t.Logf("%.3f of the slice shows the table; of %d such pixels %d are open", p.Truth.Holes, hole, open)
	if hole < 300 || float64(open) < 0.75*float64(hole) {
		t.Errorf("of %d pixels in which the table shows %d count as open", hole, open)
	}
}
