package scene_test

import (
	"bytes"
	"image"
	"math"
	"testing"

	"twinloaf/cmd/demopictures/scene"
)

var small = scene.Size{W: 320, H: 240}

func pictures(p *scene.Painter, seed uint64) map[string]*image.RGBA {
	return map[string]*image.RGBA{
		"loaf": p.Loaf(scene.Loaf{Seed: seed, Size: small, Score: scene.Leaf, Floured: 0.6, Seeded: true}),
		"bowl": p.Bowl(scene.Bowl{Seed: seed, Size: small, Proof: 0.7, Folded: true}),
		"jar":  p.Jar(scene.Jar{Seed: seed, Size: small, Label: "Gorse", Start: 0.3, Rise: 1.8, Bubbles: 0.5}),
	}
}

func TestADescriptionDecidesThePicture(t *testing.T) {
	a, again, other := pictures(scene.NewPainter(), 4), pictures(scene.NewPainter(), 4), pictures(scene.NewPainter(), 5)
	for name, img := range a {
		if img.Rect.Dx() != small.W || img.Rect.Dy() != small.H {
			t.Errorf("%s is %v", name, img.Rect)
		}
		if !bytes.Equal(img.Pix, again[name].Pix) {
			t.Errorf("%s was drawn differently the second time", name)
		}
		if bytes.Equal(img.Pix, other[name].Pix) {
			t.Errorf("%s does not hang on its seed", name)
		}
	}
}

func TestSizesOfNothingMeanTheUsual(t *testing.T) {
	img := scene.NewPainter().Jar(scene.Jar{Start: 0.3, Rise: 1})
	if img.Rect != image.Rect(0, 0, 1600, 1200) {
		t.Errorf("drawn as %v", img.Rect)
	}
}

// The three lines that measure a jar give back the rise that was drawn.
func TestLinesMeasureTheRise(t *testing.T) {
	for _, rise := range []float32{1, 1.3, 2, 2.4} {
		bottom, start, now := scene.Jar{Start: 0.34, Rise: rise}.Lines()
		if got := (bottom - now) / (bottom - start); math.Abs(got-float64(rise)) > 1e-5 {
			t.Errorf("lines %v, %v, %v measure %v, drawn %v", bottom, start, now, got, rise)
		}
	}
}

// Where the lines say the culture ends, the picture changes from glass to culture.
func TestTheCultureStandsWhereTheLinesSay(t *testing.T) {
	d := scene.Jar{Size: small, Grain: scene.Dark, Start: 0.34, Rise: 1.7}
	img := scene.NewPainter().Jar(d)
	_, _, now := d.Lines()
	y := int(now * float64(small.H))
	above, below := img.RGBAAt(small.W/2, y-24), img.RGBAAt(small.W/2, y+14)
	if int(above.B)-int(below.B) < 40 {
		t.Errorf("above the culture %v, in it %v", above, below)
	}
}
