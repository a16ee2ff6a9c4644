package kit_test

import (
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"twinloaf/app/kit"
)

// Tiles fill their rows: as many columns as have the least width, fewer where the rows are alike then.
func TestTilesFillTheirRows(t *testing.T) {
	for _, c := range []struct {
		width float32
		n     int
		wide  float32 // each
		last  fyne.Position
	}{
		{width: 1044, n: 6, wide: (1044 - 5*16) / 6., last: fyne.NewPos(5*((1044-5*16)/6.+16), 0)},
		{width: 672, n: 6, wide: (672 - 2*16) / 3., last: fyne.NewPos(2*((672-2*16)/3.+16), 100+16)},
		{width: 100, n: 2, wide: 100, last: fyne.NewPos(0, 100+16)},
		{width: 2316, n: 12, wide: (2316 - 5*16) / 6., last: fyne.NewPos(5*((2316-5*16)/6.+16), 100+16)}, // not twelve small ones
		{width: 1044, n: 2, wide: (1044 - 16) / 2., last: fyne.NewPos((1044-16)/2.+16, 0)},
	} {
		var things []fyne.CanvasObject
		for range c.n {
			r := canvas.NewRectangle(nil)
			r.SetMinSize(fyne.NewSize(50, 100))
			things = append(things, r)
		}
		box := kit.Tiles(150, 4, things...)
		box.Resize(fyne.NewSize(c.width, 100))
		last := things[c.n-1]
		if got := last.Position(); things[0].Size().Width != c.wide || math.Abs(float64(got.X-c.last.X)) > 0.01 || got.Y != c.last.Y {
			t.Errorf("%v wide: each %v, want %v; the last at %v, want %v", c.width, things[0].Size().Width, c.wide, got, c.last)
		}
		if h := box.MinSize().Height; h != c.last.Y+100 {
			t.Errorf("%v wide: %v high", c.width, h)
		}
	}
}

// A picture that stands alone does not fill the page.
func TestASinglePictureIsNoPoster(t *testing.T) {
	tile := kit.NewPhotoTile(nil, fyne.NewSize(150, 118), 2, func() {}).Filling()
	box := kit.Tiles(150, 4, tile)
	box.Resize(fyne.NewSize(1044, 100))
	if size := tile.Size(); size.Width > 400 || size.Height > 400 || box.MinSize().Height > 400 {
		t.Errorf("it is %v in a box %v high", size, box.MinSize().Height)
	}
}
