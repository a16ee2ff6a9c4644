package crumb_test

import (
	"flag"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"twinloaf/journal/crumb"
	"twinloaf/journal/crumb/phantom"
)

var overlays = flag.String("overlays", "", "a folder for the cells of each photo of -real, drawn over what was measured")

// TestOverlays draws the cells over what was measured, to be looked at: of a drawn slice, of which
// as much is filled as is open, or of the photos of a folder, with what is said of them:
// go test -tags ci ./journal/crumb -run Overlays -v -real FOLDER -overlays FOLDER
func TestOverlays(t *testing.T) {
	photos := map[string]image.Image{}
	if *realSlices == "" {
		p, err := phantom.Draw(t.Context(), phantom.Slice{Seed: 5, Width: 400, Height: 340, SliceMM: 60})
		if err != nil {
			t.Fatal(err)
		}
		photos["drawn"] = p.Photo
	}
	names, err := filepath.Glob(filepath.Join(*realSlices, "*.png"))
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		f, err := os.Open(name)
		if err != nil {
			t.Fatal(err)
		}
		img, err := png.Decode(f)
		_ = f.Close()
		if err != nil {
			t.Fatal(err)
		}
		photos[strings.TrimSuffix(filepath.Base(name), ".png")] = img
	}
	for name, photo := range photos {
		o := crumb.Options{}
		if _, err := crumb.FindOutlines(t.Context(), photo); err != nil {
			t.Logf("%s: %v; measured as crumb from border to border", name, err)
			o.Outline, o.CrumbOnly = boxOutline(photo.Bounds()), true
		}
		r, err := crumb.Measure(t.Context(), photo, 0, o)
		if err != nil {
			t.Fatal(err)
		}
		over := r.OverPicture(crumb.Inks{Fill: color.NRGBA{40, 90, 220, 70}, Rim: color.NRGBA{20, 60, 255, 255}, Edge: color.NRGBA{0, 200, 90, 255},
			AddIn: color.NRGBA{255, 140, 0, 255}, Outside: color.NRGBA{255, 255, 255, 150}})
		open, face := 0, 0
		for _, l := range r.Mask().Pix {
			switch l {
			case 255:
				open++
				face++
			case 96:
				face++
			}
		}
		share := r.Measured(crumb.Porosity)
		if got := float64(open) / float64(face); share.Trust != crumb.Withheld && math.Abs(got-share.Value) > 1e-6 {
			t.Errorf("%s: %.4f of the face is drawn as open, and %.4f said", name, got, share.Value)
		}
		t.Logf("%s: contrast over grain %.1f, open share %.3f ± %.3f (%s), sure voids %.3f", name, r.Contrast, share.Value, share.Off, share.Trust, r.Measured(crumb.SureVoids).Value)
		for _, f := range r.Flags {
			t.Logf("  %s, %s: %s", f.Kind, f.Severity, f.Line())
		}
		if *overlays == "" {
			continue
		}
		m := r.Picture()
		draw.Draw(m, m.Rect, over, image.Point{}, draw.Over)
		f, err := os.Create(filepath.Join(*overlays, name+".png"))
		if err != nil {
			t.Fatal(err)
		}
		if err := png.Encode(f, m); err != nil {
			t.Fatal(err)
		}
		if err := f.Close(); err != nil {
			t.Fatal(err)
		}
	}
}
