package charts

import "testing"

// Each shape of each colour is a picture of its own, on clear ground, at any sharpness.
func TestMarkPicturesDiffer(t *testing.T) {
	for _, side := range []int{12, 24} {
		seen := map[string]SeriesStyle{}
		for hue := range Hue(6) {
			for shape := range shapes {
				l := SeriesStyle{Hue: hue, Shape: shape}
				img := MarkPicture(l, LightPalette(), side)
				if img == nil || img.Rect.Dx() != side {
					t.Fatalf("no picture of %+v at %d", l, side)
				}
				if img.RGBAAt(0, 0).A != 0 || img.RGBAAt(side/2, side/2).A < 200 {
					t.Errorf("%+v at %d: the corner is not clear, or the middle not drawn", l, side)
				}
				if other, twice := seen[string(img.Pix)]; twice {
					t.Errorf("%+v and %+v are one picture", l, other)
				}
				seen[string(img.Pix)] = l
			}
		}
	}
	if MarkPicture(SeriesStyle{}, LightPalette(), 0) != nil {
		t.Error("a picture of no pixels was drawn")
	}
}
