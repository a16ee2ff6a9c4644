package crumb_test

import (
	"context"
	"errors"
	"image"
	"image/color"
	"math"
	"math/rand/v2"
	"testing"

	"twinloaf/journal/crumb"
	"twinloaf/journal/crumb/phantom"
	"twinloaf/journal/journaltest/race"
)

func TestPoorPhotosAreFlagged(t *testing.T) {
	type poor struct {
		name  string
		slice phantom.Slice
		kind  crumb.FlagKind
		least crumb.Trust
		lost  []crumb.MeasureID // must be withheld
	}
	for _, c := range race.Few([]poor{
		{"blurred", pan(func(s *phantom.Slice) { s.Light.Blur = 3 }), crumb.Blurred, crumb.Withheld, []crumb.MeasureID{crumb.CellDensity, crumb.MeanArea}},
		{"dark", pan(func(s *phantom.Slice) { s.Light.Gain, s.Light.Noise = 0.2, 4 }), crumb.TooDark, crumb.Doubtful, nil},
		{"very dark", pan(func(s *phantom.Slice) { s.Light.Gain, s.Light.Noise = 0.1, 4 }), crumb.TooDark, crumb.Withheld, []crumb.MeasureID{crumb.Porosity}},
		{"blown out", pan(func(s *phantom.Slice) { s.Light.Gain = 1.6 }), crumb.BlownOut, crumb.Withheld, []crumb.MeasureID{crumb.Porosity}},
		{"shadow across", pan(func(s *phantom.Slice) { s.Light.Shadow = 0.6 }), crumb.ShadowAcross, crumb.Doubtful, nil},
		{"below 5 pixels per mm", pan(func(s *phantom.Slice) { s.Width, s.Height, s.SliceMM = 360, 340, 66 }), crumb.TooCoarse, crumb.Doubtful, nil},
		{"below 3 pixels per mm", pan(func(s *phantom.Slice) { s.Width, s.Height, s.SliceMM = 190, 180, 66 }), crumb.TooCoarse, crumb.Withheld, []crumb.MeasureID{crumb.CellDensity}},
		{"seeds", pan(func(s *phantom.Slice) { s.Seeds = 0.06 }), crumb.AddIn, crumb.Doubtful, nil},
		{"red spread", pan(func(s *phantom.Slice) { s.Spread = 0.5 }), crumb.AddIn, crumb.Withheld, []crumb.MeasureID{crumb.Porosity}},
		{"faint cells", pan(func(s *phantom.Slice) { s.Cells.Depth = 0.1 }), crumb.FaintCells, crumb.Doubtful, nil},
		{"few cells", phantom.Slice{Seed: 5, Width: 500, Height: 400, Cells: phantom.Cells{MedianMM: 6, LogSD: 0.2, Porosity: 0.08}}, crumb.FewCells, crumb.Doubtful, nil},
		{"slice leaves the picture", pan(func(s *phantom.Slice) { s.ShiftX = 0.15 }), crumb.CutOff, crumb.Doubtful, nil},
		{"slice fills the picture", pan(func(s *phantom.Slice) { s.Fill = 1.6 }), crumb.NotFound, crumb.Withheld, []crumb.MeasureID{crumb.Porosity, crumb.Elongation}},
	}, 1) {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			p, want := drawTruth(t, c.slice)
			r, err := crumb.Measure(context.Background(), p.Photo, 0, crumb.Options{PxPerMM: want.PxPerMM})
			if err != nil {
				t.Fatal(err)
			}
			if !flagged(r, c.kind, c.least) {
				t.Errorf("not flagged as %s, at least %s: %+v", c.kind, c.least, r.Flags)
			}
			for _, f := range r.Flags {
				if f.Reason == "" {
					t.Errorf("flag %s gives no reason", f.Kind)
				}
			}
			for _, id := range c.lost {
				if f := r.Measured(id); f.Trust != crumb.Withheld || f.Value != 0 {
					t.Errorf("%s is given as %g, %s", id, f.Value, f.Trust)
				}
			}
			logErrors(t, r, compareWithTruth(r, want))
		})
	}
}

func TestEveryFigureHasTheTrustOfItsWorstFlag(t *testing.T) {
	p, want := drawTruth(t, pan(func(s *phantom.Slice) { s.Width, s.Height, s.SliceMM = 360, 340, 66 }))
	r, err := crumb.Measure(context.Background(), p.Photo, 0, crumb.Options{PxPerMM: want.PxPerMM})
	if err != nil {
		t.Fatal(err)
	}
	if got := r.Measured(crumb.CellDensity).Trust; got != crumb.Doubtful {
		t.Errorf("too few pixels: cell density is %s, want doubtful", got)
	}
	if got := r.Measured(crumb.Porosity).Trust; got != crumb.Good {
		t.Errorf("too few pixels hardly touch the open share, yet it is %s", got)
	}
}

func TestHandDrawnOutlineIsAnEqualPath(t *testing.T) {
	p, want := drawTruth(t, pan(func(s *phantom.Slice) {}))
	measure := func(o crumb.Options) *crumb.Result {
		o.PxPerMM = want.PxPerMM
		r, err := crumb.Measure(context.Background(), p.Photo, 0, o)
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	// Every twentieth corner of the true outline, 1.5 mm too far out: a hasty hand.
	var hasty crumb.Outline
	mid := p.Truth.CrumbBox
	for i, q := range p.Truth.Outline {
		if i%20 == 0 {
			dx, dy := q.X-float64(mid.Min.X+mid.Dx()/2), q.Y-float64(mid.Min.Y+mid.Dy()/2)
			k := 1 + 1.5/30
			hasty = append(hasty, crumb.Point{X: q.X + dx*(k-1), Y: q.Y + dy*(k-1)})
		}
	}
	checkGood(t, measure(crumb.Options{Outline: hasty}), want)
	box := mid.Inset(mid.Dx() / 6)
	inBox := shareInBox(p, box)
	for _, o := range []crumb.Options{
		{Outline: boxOutline(box), CrumbOnly: true},
		{Outline: boxOutline(box)},
	} {
		r := measure(o)
		if e := r.Measured(crumb.Porosity).Value - inBox; math.Abs(e) > porosityLimit {
			t.Errorf("in a box, crumb only %v: open share %+.3f off", o.CrumbOnly, e)
		}
		if face := float64(box.Dx()*box.Dy()) / want.PxPerMM / want.PxPerMM; math.Abs(r.FaceArea/face-1) > 0.01 {
			t.Errorf("a box within the crumb has no crust to lose, yet %.0f of %.0f mm² is left", r.FaceArea, face)
		}
	}
}

// shareInBox is the true open share within a box.
func shareInBox(p *phantom.Picture, box image.Rectangle) float64 {
	n := 0
	for y := box.Min.Y; y < box.Max.Y; y++ {
		for x := box.Min.X; x < box.Max.X; x++ {
			if p.Labels[y*p.Photo.Rect.Dx()+x] != 0 {
				n++
			}
		}
	}
	return float64(n) / float64(box.Dx()*box.Dy())
}

// A picture of nothing but noise is withheld, a plain slice and one of stretched
// cells are not called ragged.
func TestNoiseIsNoCrumb(t *testing.T) {
	for _, grain := range race.Few([]int{1, 2, 3}, 1) {
		img := noise(grain, 300, 240)
		r, err := crumb.Measure(context.Background(), img, 0, crumb.Options{Outline: boxOutline(img.Bounds()), CrumbOnly: true})
		if err != nil {
			t.Fatal(err)
		}
		if !flagged(r, crumb.Ragged, crumb.Withheld) || r.Measured(crumb.Porosity).Trust != crumb.Withheld {
			t.Errorf("noise with a grain of %d pixels is measured: %+v", grain, r.Flags)
		}
	}
	for _, s := range race.Few([]phantom.Slice{pan(func(*phantom.Slice) {}), pan(func(s *phantom.Slice) { s.Cells.Stretch = 2.5 })}, 1) {
		p, want := drawTruth(t, s)
		r, err := crumb.Measure(context.Background(), p.Photo, 0, crumb.Options{PxPerMM: want.PxPerMM})
		if err != nil {
			t.Fatal(err)
		}
		if flagged(r, crumb.Ragged, crumb.Doubtful) {
			t.Errorf("a drawn slice is called ragged: %+v", r.Flags)
		}
	}
}

// noise is bread-coloured noise with a grain of so many pixels.
func noise(grain, w, h int) *image.RGBA {
	random := rand.New(rand.NewPCG(uint64(grain), 1))
	fine := make([]float64, (w+grain)*(h+grain))
	for i := range fine {
		fine[i] = random.NormFloat64()
	}
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			sum := 0.0
			for dy := range grain {
				for dx := range grain {
					sum += fine[(y+dy)*(w+grain)+x+dx]
				}
			}
			v := math.Max(0, math.Min(255, 170+25*sum/float64(grain)))
			img.SetRGBA(x, y, color.RGBA{uint8(v), uint8(v * 0.95), uint8(v * 0.8), 255})
		}
	}
	return img
}

func TestTrueWidthAndLargeCells(t *testing.T) {
	p, want := drawTruth(t, pan(func(*phantom.Slice) {}))
	r, err := crumb.Measure(context.Background(), p.Photo, 0, crumb.Options{WidthMM: p.Truth.SliceWidthMM})
	if err != nil {
		t.Fatal(err)
	}
	if r.Relative || !r.FoundByItself || math.Abs(r.PxPerMM/want.PxPerMM-1) > 0.03 {
		t.Errorf("%g pixels per mm from the width, want %g", r.PxPerMM, want.PxPerMM)
	}
	anew, err := crumb.Measure(context.Background(), p.Photo, 0, crumb.Options{WidthMM: p.Truth.SliceWidthMM, LargeFromMM: 2})
	if err != nil {
		t.Fatal(err)
	}
	r.SetLargeFrom(2)
	if a, b := r.Measured(crumb.LargeShare), anew.Measured(crumb.LargeShare); a != b || a.Value <= 0 || r.LargeFrom != 2 {
		t.Errorf("share in cells from 2 mm: %v set afterwards, %v measured so", a, b)
	}
	_, err = crumb.Measure(context.Background(), p.Photo, 0, crumb.Options{WidthMM: -4})
	if !errors.Is(err, crumb.ErrScale) {
		t.Errorf("a width of -4 mm gives %v", err)
	}
}

// A strip of the table in the slice's shadow, between the outline and the crust, is
// no crumb, although pale cloth is coloured much as crumb is.
func TestTheTableWithinTheOutline(t *testing.T) {
	for _, tone := range race.Few([]phantom.Tone{phantom.White, phantom.Spelt, phantom.Rye}, 1) {
		p, want := drawTruth(t, phantom.Slice{Seed: 8, Width: 800, Height: 600, Shape: phantom.Pan, Tone: tone, Ground: phantom.Linen, Fill: 0.84,
			Cells: phantom.Cells{MedianMM: 1.5, Porosity: 0.36, Depth: 0.42},
			Light: phantom.Light{Gradient: 0.10, Direction: 35, Vignette: 0.08, Noise: 1.6, Blur: 0.6, Balance: [3]float64{1.05, 1, 0.94}}})
		r, err := crumb.Measure(context.Background(), p.Photo, 0, crumb.Options{PxPerMM: want.PxPerMM})
		if err != nil {
			t.Fatal(err)
		}
		if f := r.Measured(crumb.Porosity); math.Abs(f.Value-want.Porosity) > 0.03 || f.Trust != crumb.Good {
			t.Errorf("tone %d: open share %+v, drawn with %.3f: %+v", tone, f, want.Porosity, r.Flags)
		}
	}
}

// A box within the crumb cuts cells along its edge, and that is no fault; one that
// reaches over the crumb onto a dark table has what looks like a long opening there.
func TestABoxBeyondTheCrumbIsFlagged(t *testing.T) {
	p, want := drawTruth(t, pan(noChange))
	inner := p.Truth.CrumbBox
	inner = inner.Inset(inner.Dx() / 8)
	beyond := inner
	beyond.Max.Y = p.Photo.Rect.Max.Y - 4
	for _, c := range []struct {
		name string
		box  image.Rectangle
		want bool
	}{{"within", inner, false}, {"beyond", beyond, true}} {
		r, err := crumb.Measure(context.Background(), p.Photo, 0, crumb.Options{PxPerMM: want.PxPerMM, Outline: boxOutline(c.box), CrumbOnly: true})
		if err != nil {
			t.Fatal(err)
		}
		if got := flagged(r, crumb.ShadowAcross, crumb.Doubtful); got != c.want {
			t.Errorf("a box %s the crumb: flagged as in the shade is %v: %+v", c.name, got, r.Flags)
		}
	}
}
