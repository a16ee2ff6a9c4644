package jar_test

import (
	"math"
	"testing"

	"twinloaf/journal/jar"
	"twinloaf/journal/jar/jartest"
)

// In the film each picture's strip stands beside the one before in its own colours: at
// the right there is dough where at the left there was none.
func TestTheFilmShowsTheRise(t *testing.T) {
	s := plain(14)
	row, err := jar.NewRow("0", s.At(0), s.Picture(0), []jar.Marks{s.Marks()})
	if err != nil {
		t.Fatal(err)
	}
	for i := 13; i > 0; i-- {
		if err := row.Look("", s.At(i), s.Picture(i)); err != nil {
			t.Fatal(err)
		}
	}
	film := row.Film(0, 12)
	if film.Rect.Dx() != 12*14 {
		t.Fatalf("it is %v", film.Rect)
	}
	m := s.Marks()
	y := int(float64(film.Rect.Dy()) * (m.Height(1.3) - m.Top) / (m.Bottom - m.Top))
	for _, at := range []struct{ picture int }{{0}, {13}} {
		// The same place in the picture, over a few pixels.
		img := s.Picture(at.picture)
		var want, got [3]float64
		px, py := int(0.5*jartest.Width), int(m.Height(1.3)*jartest.Height)
		for k := range 25 {
			o, f := img.PixOffset(px+k%5-2, py+k/5-2), film.PixOffset(12*at.picture+5+k%2, y+k/5-2)
			for c := range 3 {
				want[c] += float64(img.Pix[o+c]) / 25
				got[c] += float64(film.Pix[f+c]) / 25
			}
		}
		for c := range 3 {
			if math.Abs(want[c]-got[c]) > 20 {
				t.Errorf("picture %d: %v in the film, %v in the picture", at.picture, got, want)
			}
		}
	}
	left, right := film.RGBAAt(6, y), film.RGBAAt(12*13+6, y)
	if int(right.R)-int(left.R) < 25 {
		t.Errorf("glass %v and dough %v look the same", left, right)
	}
}
