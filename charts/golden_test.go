package charts_test

import (
	"flag"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"twinloaf/charts"
)

var (
	update = flag.Bool("update", false, "write the golden pictures anew")
	show   = flag.String("show", "", "write the whole gallery to this folder")
)

const goldens = "../testdata/charts"

// A picture agrees with its golden file when hardly a pixel differs by more
// than a shade: other processors round the edges of letters differently.
const (
	shade = 40
	share = 0.002
)

func TestPicturesAgreeWithTheGoldenOnes(t *testing.T) {
	light, dark := style(t, charts.LightPalette()), style(t, charts.DarkPalette())
	for _, e := range gallery(t) {
		golden(t, e, light, 1, e.name)
		switch e.name {
		case "pairs", "slopes":
			golden(t, e, dark, 2, e.name+"-dark-2x")
		}
	}
}

func golden(t *testing.T, e exhibit, s charts.Style, scale int, name string) {
	t.Run(name, func(t *testing.T) {
		chart, err := charts.New(e.figure, s)
		if err != nil {
			t.Fatal(err)
		}
		pic, err := chart.Image(e.width*scale, e.height*scale, float64(scale))
		if err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(goldens, name+".png")
		if *update {
			writeFile(t, path, func(f *os.File) error {
				return (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(f, pic.Image)
			})
		}
		want := readPNG(t, path)
		if got := pic.Image.Bounds(); got != want.Bounds() {
			t.Fatalf("the picture is %v, the golden one %v", got, want.Bounds())
		}
		off := 0
		for y := range pic.Image.Rect.Dy() {
			for x := range pic.Image.Rect.Dx() {
				if differs(pic.Image, want, x, y) {
					off++
				}
			}
		}
		if limit := int(share * float64(pic.Image.Rect.Dx()*pic.Image.Rect.Dy())); off > limit {
			t.Errorf("%d pixels differ from %s, more than %d; look at both, then run with -update", off, path, limit)
		}
	})
}

func differs(a, b image.Image, x, y int) bool {
	r1, g1, b1, _ := a.At(x, y).RGBA()
	r2, g2, b2, _ := b.At(x, y).RGBA()
	far := func(p, q uint32) bool { return max(p, q)-min(p, q) > shade<<8 }
	return far(r1, r2) || far(g1, g2) || far(b1, b2)
}

func readPNG(t *testing.T, path string) image.Image {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	img, err := png.Decode(f)
	if err != nil {
		t.Fatalf("reading %s: %v", path, err)
	}
	return img
}
