package crumb_test

import (
	"errors"
	"image"
	"math"
	"testing"

	"pgregory.net/rapid"

	"twinloaf/journal/crumb"
	"twinloaf/journal/crumb/phantom"
	"twinloaf/journal/journaltest/race"
)

// A camera is a pinhole that looks aslant at a drawn photo, which lies on a table. It is
// worked out from the geometry of a pinhole alone (Hartley & Zisserman 2004, Multiple View
// Geometry in Computer Vision, 2nd edition, chapter 6), and shares no code with what is
// tested.
type camera struct {
	tilt, turn float64 // radians: from straight above, and round its own axis
	away       float64 // distance in pixels of the drawn photo
	mid        crumb.Point
	out        image.Point
}

// see gives where a place of the drawn photo comes to lie in the picture.
func (c camera) see(p crumb.Point) crumb.Point {
	x, y := p.X-c.mid.X, p.Y-c.mid.Y
	sin, cos := math.Sincos(c.turn)
	x, y = x*cos-y*sin, x*sin+y*cos
	sin, cos = math.Sincos(c.tilt)
	depth := c.away - y*sin
	return crumb.Point{X: float64(c.out.X)/2 + x*c.away/depth, Y: float64(c.out.Y)/2 + y*cos*c.away/depth}
}

// back gives the place of the drawn photo that is seen at one of the picture.
func (c camera) back(q crumb.Point) crumb.Point {
	u, v := (q.X-float64(c.out.X)/2)/c.away, (q.Y-float64(c.out.Y)/2)/c.away
	sin, cos := math.Sincos(c.tilt)
	y := v * c.away / (cos + v*sin)
	x := u * (c.away - y*sin)
	sin, cos = math.Sincos(c.turn)
	return crumb.Point{X: c.mid.X + x*cos + y*sin, Y: c.mid.Y - x*sin + y*cos}
}

// take takes the photo, on a ground of slate where the drawn one ends.
func (c camera) take(src *image.RGBA) *image.RGBA {
	m := image.NewRGBA(image.Rectangle{Max: c.out})
	const n = 3
	for y := range c.out.Y {
		for x := range c.out.X {
			var sum [3]int
			for k := range n * n {
				p := c.back(crumb.Point{X: float64(x) + (float64(k%n)+0.5)/n, Y: float64(y) + (float64(k/n)+0.5)/n})
				i := src.PixOffset(min(src.Rect.Dx()-1, max(0, int(p.X))), min(src.Rect.Dy()-1, max(0, int(p.Y))))
				for j := range sum {
					sum[j] += int(src.Pix[i+j])
				}
			}
			o := m.PixOffset(x, y)
			m.Pix[o], m.Pix[o+1], m.Pix[o+2], m.Pix[o+3] = uint8(sum[0]/(n*n)), uint8(sum[1]/(n*n)), uint8(sum[2]/(n*n)), 255
		}
	}
	return m
}

func (c camera) outline(o crumb.Outline) crumb.Outline {
	out := make(crumb.Outline, len(o))
	for i, p := range o {
		out[i] = c.see(p)
	}
	return out
}

func TestStraightenedTakesOutTilt(t *testing.T) {
	pic, err := phantom.Draw(t.Context(), phantom.Slice{Seed: 11, Width: 825, Height: 675, SliceMM: 75, Shape: phantom.Pan, Ground: phantom.Slate,
		Cells: phantom.Cells{MedianMM: 2.2, Porosity: 0.3}})
	if err != nil {
		t.Fatal(err)
	}
	scale := pic.Truth.PxPerMM
	plain, err := crumb.Measure(t.Context(), pic.Photo, 0, crumb.Options{PxPerMM: scale})
	if err != nil {
		t.Fatal(err)
	}
	for _, degrees := range race.Few([]float64{35, 0, 20, 50}, 1) {
		cam := camera{tilt: degrees * math.Pi / 180, turn: 0.2, away: 1950, mid: crumb.Point{X: 412, Y: 338}, out: image.Pt(900, 675)}
		photo := cam.take(asDrawn(pic.Photo))
		// A card beside the slice, whose size is that of ISO/IEC 7810 ID-1, lying askew.
		sheet := &crumb.Sheet{WideMM: crumb.CardLongMM, HighMM: crumb.CardShortMM}
		sin, cos := math.Sincos(0.4)
		for i, at := range [4][2]float64{{0, 0}, {1, 0}, {1, 1}, {0, 1}} {
			x, y := at[0]*crumb.CardLongMM*scale, at[1]*crumb.CardShortMM*scale
			sheet.Corners[i] = cam.see(crumb.Point{X: 225 + x*cos - y*sin, Y: 75 + x*sin + y*cos})
		}
		r, err := crumb.Measure(t.Context(), photo, 0, crumb.Options{Outline: cam.outline(plain.Outline), Sheet: sheet})
		if err != nil {
			t.Fatalf("at %g°: %v", degrees, err)
		}
		if !r.Straightened || r.Relative {
			t.Fatalf("at %g°: not straightened", degrees)
		}
		for id, within := range map[crumb.MeasureID]float64{crumb.Porosity: 0.05, crumb.CellDensity: 0.08, crumb.MeanArea: 0.1, crumb.Elongation: 0.05} {
			got, want := r.Measured(id), plain.Measured(id)
			if math.Abs(got.Value/want.Value-1) > within {
				t.Errorf("at %g° %s is %.4g, from straight above %.4g", degrees, id, got.Value, want.Value)
			}
		}
		if face := r.FaceArea/plain.FaceArea - 1; math.Abs(face) > 0.02 {
			t.Errorf("at %g° the face is %.1f %% too large", degrees, 100*face)
		}
		if tilt, ok := sheet.Tilt(); !ok || math.Abs(tilt-degrees) > 6 {
			t.Errorf("the tilt of %g° is told as %.1f°", degrees, tilt)
		}
		// A cell is found where it lies on the photo as it was taken.
		hit, whole := 0, 0
		for i, c := range r.Cells {
			if c.Major < 1.3*c.Minor && !c.AtEdge {
				whole++
				if j, ok := r.CellAt(c.At); ok && j == i {
					hit++
				}
			}
		}
		if hit < whole*97/100 || whole == 0 {
			t.Errorf("at %g° %d of %d round cells lie where they are said to", degrees, hit, whole)
		}
	}
}

func asDrawn(img image.Image) *image.RGBA {
	m := image.NewRGBA(image.Rectangle{Max: img.Bounds().Size()})
	for y := range m.Rect.Dy() {
		for x := range m.Rect.Dx() {
			m.Set(x, y, img.At(img.Bounds().Min.X+x, img.Bounds().Min.Y+y))
		}
	}
	return m
}

// Without tilt a sheet gives what its scale alone gives.
func TestStraightenedFromAboveIsAsBefore(t *testing.T) {
	pic, err := phantom.Draw(t.Context(), phantom.Slice{Seed: 4, Width: 700, Height: 560, SliceMM: 90, Ground: phantom.Slate})
	if err != nil {
		t.Fatal(err)
	}
	k := pic.Truth.PxPerMM
	sheet := &crumb.Sheet{WideMM: crumb.A4LongMM, HighMM: crumb.A4ShortMM}
	for i, at := range [4][2]float64{{0, 0}, {1, 0}, {1, 1}, {0, 1}} {
		sheet.Corners[i] = crumb.Point{X: -300 + at[0]*crumb.A4LongMM*k, Y: -200 + at[1]*crumb.A4ShortMM*k}
	}
	a, err := crumb.Measure(t.Context(), pic.Photo, 0, crumb.Options{PxPerMM: k})
	if err != nil {
		t.Fatal(err)
	}
	b, err := crumb.Measure(t.Context(), pic.Photo, 0, crumb.Options{Sheet: sheet})
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(b.PxPerMM/a.PxPerMM-1) > 1e-9 || math.Abs(b.FaceArea/a.FaceArea-1) > 0.003 {
		t.Errorf("%g px/mm and %g mm² rather than %g and %g", b.PxPerMM, b.FaceArea, a.PxPerMM, a.FaceArea)
	}
	if x, y := a.Measured(crumb.Porosity).Value, b.Measured(crumb.Porosity).Value; math.Abs(x-y) > 0.005 {
		t.Errorf("open share %g rather than %g", y, x)
	}
}

func TestSheetRefused(t *testing.T) {
	card := func(c ...float64) crumb.Sheet {
		s := crumb.Sheet{WideMM: crumb.CardLongMM, HighMM: crumb.CardShortMM}
		for i := range s.Corners {
			s.Corners[i] = crumb.Point{X: c[2*i], Y: c[2*i+1]}
		}
		return s
	}
	noSize := card(0, 0, 300, 0, 300, 200, 0, 200)
	noSize.HighMM = 0
	for _, c := range []struct {
		name  string
		sheet crumb.Sheet
		want  error
	}{
		{"a plain one", card(0, 0, 300, 0, 300, 200, 0, 200), nil},
		{"the other way round", card(0, 0, 0, 200, 300, 200, 300, 0), nil},
		{"no size", noSize, crumb.ErrSheetSize},
		{"not a number", card(math.NaN(), 0, 300, 0, 300, 200, 0, 200), crumb.ErrSheetCorners},
		{"all in one place", card(5, 5, 5, 5, 5, 5, 5, 5), crumb.ErrSheetCorners},
		{"three in a line", card(0, 0, 150, 1, 300, 0, 150, 200), crumb.ErrSheetCorners},
		{"sides that cross", card(0, 0, 300, 200, 300, 0, 0, 200), crumb.ErrSheetCorners},
		{"a corner within", card(0, 0, 300, 0, 100, 60, 0, 200), crumb.ErrSheetCorners},
		{"too small", card(0, 0, 30, 0, 30, 20, 0, 20), crumb.ErrSheetSmall},
		{"far too flat", card(0, 0, 1200, 0, 1200, 160, 0, 160), crumb.ErrSheetTilt},
	} {
		err := c.sheet.Check()
		if c.want == nil && err != nil || !errors.Is(err, c.want) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

// Whatever the camera, what it did is undone: a place known on the table is found again,
// and the sheet's own length is what was said of it.
func TestSheetProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cam := camera{tilt: rapid.Float64Range(0, 1.0).Draw(t, "tilt"), turn: rapid.Float64Range(-3.1, 3.1).Draw(t, "turn"),
			away: rapid.Float64Range(1500, 6000).Draw(t, "away"), out: image.Pt(1600, 1200)}
		wide, high := rapid.Float64Range(60, 400).Draw(t, "wide"), rapid.Float64Range(60, 400).Draw(t, "high")
		askew := rapid.Float64Range(-3.1, 3.1).Draw(t, "askew")
		const k = 2.0 // pixels of the table to the mm
		sin, cos := math.Sincos(askew)
		place := func(x, y float64) crumb.Point {
			return cam.see(crumb.Point{X: (x*cos - y*sin) * k, Y: (x*sin + y*cos) * k})
		}
		s := crumb.Sheet{WideMM: wide, HighMM: high, Corners: [4]crumb.Point{place(0, 0), place(wide, 0), place(wide, high), place(0, high)}}
		if err := s.Check(); errors.Is(err, crumb.ErrSheetSmall) || errors.Is(err, crumb.ErrSheetTilt) {
			t.Skip(err)
		} else if err != nil {
			t.Fatal(err)
		}
		from, to := place(10, 20), place(50, 50) // 50 mm apart
		if mm, err := s.Length(from, to); err != nil || math.Abs(mm-50) > 1e-6 {
			t.Fatalf("50 mm are measured as %.9g mm (%v)", mm, err)
		}
		// Begun from another corner, or the other way round, it is the same sheet.
		c := s.Corners
		for _, other := range []crumb.Sheet{
			{WideMM: high, HighMM: wide, Corners: [4]crumb.Point{c[1], c[2], c[3], c[0]}},
			{WideMM: wide, HighMM: high, Corners: [4]crumb.Point{c[2], c[3], c[0], c[1]}},
			{WideMM: wide, HighMM: high, Corners: [4]crumb.Point{c[1], c[0], c[3], c[2]}},
		} {
			if mm, err := other.Length(from, to); err != nil || math.Abs(mm-50) > 1e-6 {
				t.Fatalf("begun elsewhere, 50 mm are measured as %.9g mm (%v)", mm, err)
			}
		}
		sorted := crumb.RectangleCorners([4]crumb.Point{c[2], c[0], c[3], c[1]})
		ok := false
		for i := range 4 {
			same, turned := true, true
			for j := range 4 {
				same = same && sorted[j] == c[(i+j)%4]
				turned = turned && sorted[j] == c[(i+4-j)%4]
			}
			ok = ok || same || turned
		}
		if !ok {
			t.Fatalf("the corners %v are set in the order %v", c, sorted)
		}
	})
}
