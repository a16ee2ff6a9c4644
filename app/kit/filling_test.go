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
