package photo_test

import (
	"fmt"
	"image"
	"image/color"
	"math/rand/v2"
	"testing"

	"twinloaf/journal/photo"
	"twinloaf/journal/photo/phototest"
)

// orientations is the table of CIPA DC-008-2019 (Exif 2.32), section 4.6.5.1.A,
// tag 0x0112: which visual side the 0th row and the 0th column lie on.
var orientations = []struct {
	value    int
	row, col string
}{
	{1, "top", "left"},
	{2, "top", "right"},
	{3, "bottom", "right"},
	{4, "bottom", "left"},
	{5, "left", "top"},
	{6, "right", "top"},
	{7, "right", "bottom"},
	{8, "left", "bottom"},
}

// storedAs lays an upright picture down the way a camera held in an orientation
// stores it, straight from the words of the standard.
func storedAs(upright *image.RGBA, row, col string) *image.RGBA {
	w, h := upright.Rect.Dx(), upright.Rect.Dy()
	rowsRunDown := row == "top" || row == "bottom"
	rows, cols := h, w
	if !rowsRunDown {
		rows, cols = w, h
	}
	from := func(side string, i, n int) int {
		if side == "top" || side == "left" {
			return i
		}
		return n - 1 - i
	}
	stored := image.NewRGBA(image.Rect(0, 0, cols, rows))
	for r := range rows {
		for c := range cols {
			x, y := from(col, c, w), from(row, r, h)
			if !rowsRunDown {
				x, y = from(row, r, w), from(col, c, h)
			}
			stored.SetRGBA(c, r, upright.RGBAAt(x, y))
		}
	}
	return stored
}

func TestTurnGivesBackEachPixelForAllEightOrientations(t *testing.T) {
	upright := image.NewRGBA(image.Rect(0, 0, 7, 5))
	r := rand.New(rand.NewPCG(1, 2))
	for i := range upright.Pix {
		upright.Pix[i] = uint8(r.Uint32())
	}
	for _, o := range orientations {
		stored := storedAs(upright, o.row, o.col)
		got := photo.Orientation(o.value).Turn(stored)
		if got.Rect != upright.Rect || string(got.Pix) != string(upright.Pix) {
			t.Errorf("orientation %d: the turned picture is not the upright one", o.value)
		}
	}
}

func TestTurnReadsARowThatIsLongerThanThePicture(t *testing.T) {
	whole := phototest.Scene(40, 30)
	part := whole.SubImage(image.Rect(3, 4, 20, 25)).(*image.RGBA)
	got := photo.TurnClockwise.Turn(part)
	if got.Rect != image.Rect(0, 0, 21, 17) || got.Stride != 4*21 {
		t.Fatalf("turned to %v with stride %d", got.Rect, got.Stride)
	}
	if got.RGBAAt(20, 0) != part.RGBAAt(3, 4) {
		t.Error("the first pixel did not go to the top right corner")
	}
}

func TestTurnOfNoOrientationChangesNothing(t *testing.T) {
	img := phototest.Scene(8, 6)
	for _, o := range []photo.Orientation{0, 1, 9, 255} {
		if o.Turn(img) != img {
			t.Errorf("orientation %d made another picture", o)
		}
	}
}

func TestJPEGIsTurnedUprightInAllEightOrientations(t *testing.T) {
	upright := phototest.Scene(240, 160)
	for _, o := range orientations {
		t.Run(fmt.Sprint(o.value), func(t *testing.T) {
			data := phototest.JPEG(storedAs(upright, o.row, o.col), phototest.EXIF{Orientation: o.value})
			p, err := photo.Decode("loaf.jpg", data, photo.Limits{})
			if err != nil {
				t.Fatal(err)
			}
			if p.Orientation != photo.Orientation(o.value) || p.Width != 240 || p.Height != 160 {
				t.Errorf("told %d x %d, orientation %d", p.Width, p.Height, p.Orientation)
			}
			for _, maxSide := range []int{0, 120, 24} {
				checkScene(t, p.Fit(maxSide))
			}
		})
	}
}

// checkScene checks that img shows phototest.Scene the right way up and that its
// rows are packed.
func checkScene(t *testing.T, img *image.RGBA) {
	t.Helper()
	w, h := img.Rect.Dx(), img.Rect.Dy()
	if img.Rect.Min != (image.Point{}) || img.Stride != 4*w {
		t.Errorf("picture at %v with stride %d for width %d", img.Rect.Min, img.Stride, w)
	}
	for _, c := range []struct {
		name string
		x, y int
		want color.RGBA
	}{
		{"top left", w / 16, h / 16, phototest.TopLeft},
		{"top right", w - 1 - w/16, h / 16, phototest.TopRight},
		{"bottom left", w / 16, h - 1 - h/16, phototest.BottomLeft},
		{"bottom right", w - 1 - w/16, h - 1 - h/16, phototest.BottomRight},
	} {
		got := img.RGBAAt(c.x, c.y)
		if far(got.R, c.want.R) || far(got.G, c.want.G) || far(got.B, c.want.B) || got.A != 255 {
			t.Errorf("%s corner of %d x %d is %v, want near %v", c.name, w, h, got, c.want)
		}
	}
}

func far(a, b uint8) bool {
	d := int(a) - int(b)
	return d > 45 || d < -45
}
