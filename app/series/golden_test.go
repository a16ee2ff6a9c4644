package series

import (
	"image"
	"image/color"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/look"
)

// The film as it looks: the strips side by side, the picture at hand in its frame, and a mark
// below each that was lost. Fyne compares with a tolerance and writes what differs to
// testdata/failed.
func TestTheFilmLooks(t *testing.T) {
	const n, wide, high = 24, 6, 60
	film := image.NewRGBA(image.Rect(0, 0, n*wide, high))
	lost := make([]bool, n)
	for i := range n {
		lost[i] = i == 9 || i == 10
		for y := range high {
			c := color.RGBA{110, 125, 130, 255}
			if y > high-20-i*i/20 {
				c = color.RGBA{220, 200, 165, 255}
			}
			for x := range wide {
				film.SetRGBA(i*wide+x, y, c)
			}
		}
	}
	for name, mode := range map[string]look.Mode{"film-light.png": look.AlwaysLight, "film-dark.png": look.AlwaysDark} {
		test.ApplyTheme(t, look.New(mode))
		f := newFilmstrip(func(int) {})
		f.set(film, n, lost)
		f.show(16)
		f.Resize(fyne.NewSize(480, 120))
		test.AssertObjectRendersToImage(t, name, f)
	}
	test.ApplyTheme(t, look.New(look.AlwaysLight))
}
