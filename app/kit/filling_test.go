package kit

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

// A picture that fills its tile neither leaves a hole in it nor reaches over what stands below.
func TestAFillingPictureIsAsHighAsItsTile(t *testing.T) {
	test.NewTempApp(t)
	for _, height := range []float32{120, 200, 320} {
		tile := NewPhotoTile(nil, fyne.NewSize(300, 200), 0, nil).Filling()
		tile.Resize(fyne.NewSize(300, height))
		tile.cell.Resize(tile.Size())
		r, ok := test.WidgetRenderer(tile.cell).(*photoCellRenderer)
		if !ok {
			t.Fatal("no cell")
		}
		r.Layout(tile.Size())
		if got := r.pic.Size().Height; got > height || got < height-8 {
			t.Errorf("%v high, its picture %v", height, got)
		}
	}
}

// A picture that grows with its tile keeps its shape.
func TestTilesKeepThePicturesShape(t *testing.T) {
	test.NewTempApp(t)
	tile := NewPhotoTile(nil, fyne.NewSize(150, 100), 0, nil).Filling()
	words := tile.MinSize().Height - 100
	Tiles(150, 4, tile).Resize(fyne.NewSize(300, 50))
	if got := tile.Size(); got != fyne.NewSize(300, 200+words) {
		t.Errorf("a tile for a picture of 150 × 100 is %v", got)
	}
}
