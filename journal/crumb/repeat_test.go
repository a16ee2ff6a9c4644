package crumb_test

import (
	"flag"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"

	xdraw "golang.org/x/image/draw"

	"twinloaf/journal/crumb"
	"twinloaf/journal/crumb/foam"
	"twinloaf/journal/crumb/phantom"
	"twinloaf/journal/journaltest/race"
)

var realSlices = flag.String("real", "", "a folder of photos of real slices on a plain ground, to lay on other grounds and to scale")

// A cutOut is a slice without its ground.
type cutOut struct {
	name  string
	photo *image.RGBA
	in    []float64 // how much of each pixel is the slice's, its edge soft over two pixels or three
}

// cutOuts are the slices to repeat: drawn ones, or those of a folder whose outline is found.
func cutOuts(t *testing.T) []cutOut {
	t.Helper()
	var out []cutOut
	add := func(name string, photo *image.RGBA) {
		found, err := crumb.FindOutlines(t.Context(), photo)
		if err != nil {
			t.Logf("%s: %v", name, err)
			return
		}
		c := cutOut{name: name, photo: photo}
		near := found[0].Widened(-1.5)
		c.in = make([]float64, photo.Rect.Dx()*photo.Rect.Dy())
		const block = 8 // far from the outline one place tells of all that are about it
		for y0 := 0; y0 < photo.Rect.Dy(); y0 += block {
			for x0 := 0; x0 < photo.Rect.Dx(); x0 += block {
				d := signedDistance(near, float64(x0+block/2), float64(y0+block/2))
				for y := y0; y < min(y0+block, photo.Rect.Dy()); y++ {
					for x := x0; x < min(x0+block, photo.Rect.Dx()); x++ {
						at := d
						if math.Abs(d) < block {
							at = signedDistance(near, float64(x)+0.5, float64(y)+0.5)
						}
						c.in[y*photo.Rect.Dx()+x] = math.Max(0, math.Min(1, 0.5+at/2.5))
					}
				}
			}
		}
		out = append(out, c)
	}
	if *realSlices == "" {
		for _, draw := range race.Few([]func(){func() {
			p, err := phantom.Draw(t.Context(), phantom.Slice{Seed: 21, Width: 700, Height: 600, SliceMM: 100, Shape: phantom.Pan, Ground: phantom.Slate})
			if err != nil {
				t.Fatal(err)
			}
			add("drawn", asDrawn(p.Photo))
		}, func() {
			f, err := foam.Draw(t.Context(), foam.Slice{Seed: 22, Width: 640, Height: 520, WidthMM: 80, MedianMM: 1.8, Grain: 0.02, Light: foam.Light{Direction: 200, Around: 0.8, Noise: 2, Blur: 0.6}})
			if err != nil {
				t.Fatal(err)
			}
			add("from geometry", asDrawn(f.Photo))
		}}, 1) {
			draw()
		}
		return out
	}
	all, err := filepath.Glob(filepath.Join(*realSlices, "*.png"))
	if err != nil || len(all) == 0 {
		t.Fatalf("no photos in %s: %v", *realSlices, err)
	}
	for _, name := range all {
		f, err := os.Open(name)
		if err != nil {
			t.Fatal(err)
		}
		img, err := png.Decode(f)
		_ = f.Close()
		if err != nil {
			t.Fatal(err)
		}
		add(filepath.Base(name), asDrawn(img))
	}
	return out
}

// on lays the slice on a plain ground with a little unevenness.
func (c cutOut) on(ground color.RGBA) *image.RGBA {
	m := image.NewRGBA(c.photo.Rect)
	for y := range m.Rect.Dy() {
		for x := range m.Rect.Dx() {
			i := m.PixOffset(x, y)
			in := c.in[y*m.Rect.Dx()+x]
			rough := float64((x*37+y*91+(x*y)%17)%9) - 4
			for k, g := range [3]uint8{ground.R, ground.G, ground.B} {
				m.Pix[i+k] = uint8(math.Max(0, math.Min(255, in*float64(c.photo.Pix[i+k])+(1-in)*(float64(g)+rough))))
			}
			m.Pix[i+3] = 255
		}
	}
	return m
}

// signedDistance is how far a place lies within an outline; below zero outside.
func signedDistance(o crumb.Outline, x, y float64) float64 {
	least, in := math.Inf(1), false
	for i, j := 0, len(o)-1; i < len(o); j, i = i, i+1 {
		a, b := o[j], o[i]
		dx, dy := b.X-a.X, b.Y-a.Y
		u := math.Max(0, math.Min(1, ((x-a.X)*dx+(y-a.Y)*dy)/math.Max(dx*dx+dy*dy, 1e-12)))
		least = math.Min(least, math.Hypot(x-a.X-u*dx, y-a.Y-u*dy))
		if (a.Y > y) != (b.Y > y) && x < a.X+(y-a.Y)/(b.Y-a.Y)*dx {
			in = !in
		}
	}
	if in {
		return least
	}
	return -least
}

// repeatable is within what the open share of one slice may differ without a flag.
const repeatable = 0.02

// TestRepeatability lays slices on ten grounds, and scales them ten ways, and wants the open share
// within 0.02 of the middle one, or a flag that touches it. With -real it does so with real ones:
// go test -tags ci ./journal/crumb -run Repeatability -v -real FOLDER
func TestRepeatability(t *testing.T) {
	grounds := []color.RGBA{{40, 42, 48, 255}, {86, 62, 44, 255}, {92, 112, 150, 255}, {206, 204, 198, 255}, {60, 110, 90, 255}, {150, 150, 152, 255}, {20, 20, 22, 255},
		{170, 60, 60, 255}, {235, 236, 240, 255}, {110, 120, 70, 255}}
	scales := []float64{0.55, 0.65, 0.75, 0.85, 1, 1.15, 1.3, 1.5, 1.75, 2}
	within, flagged, bad := 0, 0, 0
	grounds, scales = race.Few(grounds, 2), race.Few(scales, 1)
	look := func(name string, photos []*image.RGBA) {
		var open []float64
		var all []*crumb.Result
		for _, p := range photos {
			r, err := crumb.Measure(t.Context(), p, 0, crumb.Options{WidthMM: 110})
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
			all = append(all, r)
			if f := r.Measured(crumb.Porosity); f.Trust == crumb.Good {
				open = append(open, f.Value)
			}
		}
		mid := middleOf(open)
		row := ""
		for _, r := range all {
			f := r.Measured(crumb.Porosity)
			switch {
			case f.Trust != crumb.Good:
				flagged++
				row += " " + f.Trust.String()[:1]
			case math.Abs(f.Value-mid) <= repeatable:
				within++
				row += " ."
			default:
				bad++
				row += " X"
				t.Errorf("%s: open share %.3f, in the middle %.3f, and no flag", name, f.Value, mid)
			}
		}
		t.Logf("%-32s open share %s, sure voids %s %s", name, spanOf(all, crumb.Porosity), spanOf(all, crumb.SureVoids), row)
	}
	for _, c := range cutOuts(t) {
		var photos []*image.RGBA
		for _, g := range grounds {
			photos = append(photos, c.on(g))
		}
		look(c.name+", grounds", photos)
		var scaled []*image.RGBA
		for _, k := range scales {
			m := image.NewRGBA(image.Rect(0, 0, int(k*float64(c.photo.Rect.Dx())), int(k*float64(c.photo.Rect.Dy()))))
			xdraw.CatmullRom.Scale(m, m.Rect, photos[0], c.photo.Rect, xdraw.Src, nil)
			scaled = append(scaled, m)
		}
		look(c.name+", scales", scaled)
	}
	t.Logf("%d within %.2f, %d flagged, %d neither", within, repeatable, flagged, bad)
}

// spanOf is from where to where a measure goes that is not withheld.
func spanOf(all []*crumb.Result, id crumb.MeasureID) string {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, r := range all {
		if f := r.Measured(id); f.Trust != crumb.Withheld {
			lo, hi = math.Min(lo, f.Value), math.Max(hi, f.Value)
		}
	}
	if lo > hi {
		return "withheld"
	}
	return fmt.Sprintf("%.3f to %.3f", lo, hi)
}

func middleOf(v []float64) float64 {
	if len(v) == 0 {
		return 0
	}
	return slices.Sorted(slices.Values(v))[len(v)/2]
}
