package crumb

import (
	"encoding/json"
	"image"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"testing"

	"twinloaf/journal/journaltest/race"
)

// referenceDir holds pictures and, in reference.json, what scikit-image 0.19.3
// says of them; reference.py beside it is how that was made.
const referenceDir = "../../testdata/crumb"

type referenceRegions struct {
	Labels          int
	AreasSum        int `json:"areas_sum"`
	AreasSumSquares int `json:"areas_sum_squares"`
	Largest         []struct {
		Area         int
		Row, Col     float64
		Diameter     float64
		Major, Minor float64
	}
}

type referencePicture struct {
	Picture            string
	Otsu               int
	Bright, Dark       map[string]referenceRegions
	Filled             int
	DistanceSquaredSum int `json:"distance_squared_sum"`
	DistanceSquaredMax int `json:"distance_squared_max"`
}

func readReference(t *testing.T) []referencePicture {
	t.Helper()
	raw, err := os.ReadFile(filepath.Join(referenceDir, "reference.json"))
	if err != nil {
		t.Fatal(err)
	}
	var all struct{ Pictures []referencePicture }
	if err := json.Unmarshal(raw, &all); err != nil {
		t.Fatal(err)
	}
	if len(all.Pictures) < 12 {
		t.Fatalf("only %d pictures in reference.json", len(all.Pictures))
	}
	return all.Pictures
}

func readPNG(t testing.TB, path string) image.Image {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	img, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	return img
}

func greyOf(img image.Image) (g []uint8, w, h int) {
	b := img.Bounds()
	w, h = b.Dx(), b.Dy()
	rgb := reduce(img, frame{x0: float64(b.Min.X), y0: float64(b.Min.Y), step: 1}, w, h, 1)
	g = make([]uint8, w*h)
	for i := range g {
		g[i] = grey(rgb[3*i], rgb[3*i+1], rgb[3*i+2])
	}
	return g, w, h
}

func TestStepsAgreeWithScikitImage(t *testing.T) {
	for _, want := range race.Few(readReference(t), 2) {
		t.Run(filepath.Base(want.Picture), func(t *testing.T) {
			g, w, h := greyOf(readPNG(t, filepath.Join(referenceDir, want.Picture)))
			hist := make([]int, 256)
			for _, v := range g {
				hist[v]++
			}
			if got := otsu(hist); got != want.Otsu {
				t.Fatalf("Otsu's threshold is %d, scikit-image has %d", got, want.Otsu)
			}
			bright, dark := make([]bool, w*h), make([]bool, w*h)
			for i, v := range g {
				bright[i] = int(v) > want.Otsu
				dark[i] = !bright[i]
			}
			for _, c := range []struct {
				name string
				mask []bool
				want map[string]referenceRegions
			}{{"bright", bright, want.Bright}, {"dark", dark, want.Dark}} {
				checkRegions(t, c.name+", 4-connected", c.mask, w, h, false, c.want["4"])
				checkRegions(t, c.name+", 8-connected", c.mask, w, h, true, c.want["8"])
			}
			checkDistance(t, bright, w, h, want)
			filled := append([]bool(nil), bright...)
			fillHolesFully(filled, w, h)
			if got := count(filled); got != want.Filled {
				t.Errorf("holes filled: %d pixels, scikit-image has %d", got, want.Filled)
			}
		})
	}
}

// fillHolesFully fills holes of any size with background that meets at sides,
// as scipy does.
func fillHolesFully(mask []bool, w, h int) {
	c := componentsOf(mask, w, h, false, false)
	open := map[int32]bool{}
	for _, r := range c.runs {
		if r.y == 0 || int(r.y) == h-1 || r.from == 0 || int(r.to) == w {
			open[r.label] = true
		}
	}
	c.paint(mask, true, func(l int32) bool { return !open[l] })
}

func checkDistance(t *testing.T, mask []bool, w, h int, want referencePicture) {
	t.Helper()
	sum, greatest := 0, 0
	for _, d := range distanceSquared(mask, w, h) {
		sum += int(d)
		greatest = max(greatest, int(d))
	}
	if sum != want.DistanceSquaredSum || greatest != want.DistanceSquaredMax {
		t.Errorf("squared distances sum to %d, at most %d; scipy has %d and %d", sum, greatest, want.DistanceSquaredSum, want.DistanceSquaredMax)
	}
}

func checkRegions(t *testing.T, name string, mask []bool, w, h int, diagonal bool, want referenceRegions) {
	t.Helper()
	c := componentsOf(mask, w, h, true, diagonal)
	labels, n := labelsOf(c), len(c.size)-1
	if n != want.Labels {
		t.Errorf("%s: %d components, scikit-image has %d", name, n, want.Labels)
		return
	}
	regions := measureRegions(labels, n, w, h, nil, nil)
	sum, squares := 0, 0
	for _, r := range regions {
		sum += r.Area
		squares += r.Area * r.Area
	}
	if sum != want.AreasSum || squares != want.AreasSumSquares {
		t.Errorf("%s: areas sum to %d (squares %d), scikit-image has %d (%d)", name, sum, squares, want.AreasSum, want.AreasSumSquares)
	}
	const six = 1e-6
	for _, q := range want.Largest {
		r, ok := regionAt(regions, q.Area, q.Col, q.Row)
		if !ok {
			t.Errorf("%s: no region of %d pixels about (%.3f, %.3f)", name, q.Area, q.Col, q.Row)
			continue
		}
		for _, v := range []struct {
			what      string
			got, want float64
		}{
			{"equivalent diameter", r.equivalentDiameter(), q.Diameter},
			{"major axis", r.Major, q.Major},
			{"minor axis", r.Minor, q.Minor},
		} {
			if math.Abs(v.got-v.want) > six*math.Max(1, v.want) {
				t.Errorf("%s: region of %d pixels: %s %.9f, scikit-image has %.9f", name, q.Area, v.what, v.got, v.want)
			}
		}
	}
}

func regionAt(regions []region, area int, x, y float64) (region, bool) {
	for _, r := range regions {
		if r.Area == area && math.Abs(r.X-x) < 1e-6 && math.Abs(r.Y-y) < 1e-6 {
			return r, true
		}
	}
	return region{}, false
}
