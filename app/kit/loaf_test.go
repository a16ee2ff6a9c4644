package kit

import (
	"image"
	"image/color"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/look"
	"twinloaf/app/maintest"
)

// A drawn loaf stands out from its paper, the darker the tone, and stays within.
func TestDrawnLoaves(t *testing.T) {
	grey := func(c color.Color) int {
		r, g, b, _ := c.RGBA()
		return int(r+g+b) >> 8
	}
	for name, p := range map[string]look.Palette{"light": look.Light(), "dark": look.Dark()} {
		last := 1 << 20
		for tone := PaleLoaf; tone <= DarkLoaf; tone++ {
			img := paintLoaf(tone, 212, 150, p)
			bed, inside := grey(img.At(3, 3)), grey(img.At(106, 60))
			if inside >= last {
				t.Errorf("%s: tone %d is no darker than the one before: %d, %d", name, tone, inside, last)
			}
			last = inside
			if diff := bed - inside; diff > -20 && diff < 20 {
				t.Errorf("%s: tone %d is hardly seen: %d on %d", name, tone, inside, bed)
			}
			for x := range 212 {
				if img.At(x, 1) != img.At(0, 0) || img.At(x, 148) != img.At(0, 0) {
					t.Fatalf("%s: tone %d reaches the edge at %d", name, tone, x)
				}
			}
		}
	}
	for name, p := range map[string]look.Palette{"light": look.Light(), "dark": look.Dark()} {
		img := paintLoaf(Jar, 212, 150, p)
		if bed, inside := grey(img.At(3, 3)), grey(img.At(106, 90)); bed-inside > -20 && bed-inside < 20 {
			t.Errorf("%s: the culture in the jar is hardly seen: %d on %d", name, inside, bed)
		}
		for x := range 212 {
			if img.At(x, 1) != img.At(0, 0) || img.At(x, 148) != img.At(0, 0) {
				t.Fatalf("%s: the jar reaches the edge at %d", name, x)
			}
		}
	}
	for _, size := range []image.Point{{1, 1}, {3, 200}, {200, 3}} { // whatever a cell comes to
		if got := paintLoaf(BrownLoaf, size.X, size.Y, look.Light()).Rect.Size(); got != size {
			t.Errorf("asked for %v, got %v", size, got)
		}
	}
}

// What stands beneath a picture is said shorter where there is no room for it whole.
func TestACellSaysLessInLittleRoom(t *testing.T) {
	maintest.App(t)
	for width, want := range map[float32]string{400: "hydration 83.1 % · 4 Mar 2026", 120: "4 Mar 2026"} {
		cell := NewPhotoCell(nil, fyne.NewSize(width, 90), 2)
		test.NewTempWindow(t, cell)
		cell.Set(PhotoItem{Loaf: BrownLoaf, Title: "Deck rye", Sub: "hydration 83.1 % · 4 Mar 2026", Short: "4 Mar 2026"}, false)
		r := test.WidgetRenderer(cell).(*photoCellRenderer)
		r.Layout(cell.MinSize())
		if got := r.sub.String(); got != want {
			t.Errorf("%v wide it says %q, want %q", width, got, want)
		}
	}
}

// A photo that has not come, and one that cannot be had, is stood for by a drawing; a folder of
// the picker and an empty place are not.
func TestACellDrawsALoafWithoutAPhoto(t *testing.T) {
	maintest.App(t)
	cell := NewPhotoCell(nil, fyne.NewSize(212, 150), 2)
	w := test.NewTempWindow(t, cell)
	r := test.WidgetRenderer(cell).(*photoCellRenderer)
	for _, c := range []struct {
		item PhotoItem
		want bool
	}{
		{PhotoItem{Loaf: BrownLoaf}, true}, {PhotoItem{}, false}, {PhotoItem{Loaf: PaleLoaf}, true}, {PhotoItem{Key: "a", Loaf: PaleLoaf}, true},
		{PhotoItem{Key: "a"}, true}, {PhotoItem{Key: "a", Folder: true}, false},
	} {
		cell.Set(c.item, false)
		if got := r.pic.Visible() && r.pic.Image != nil; got != c.want {
			t.Errorf("%+v: drawn %v", c.item, got)
		}
	}
	cell.Set(PhotoItem{Loaf: BrownLoaf}, false)
	before := r.pic.Image
	cell.Set(PhotoItem{Loaf: BrownLoaf, Title: "Ferry loaf"}, true)
	if r.pic.Image != before {
		t.Error("the same drawing was made again")
	}
	cell.setPictureSize(fyne.NewSize(260, 184))
	if got := r.pic.Image.Bounds().Dx(); got != int(260*w.Canvas().Scale()) {
		t.Errorf("in a larger cell the drawing is %d wide", got)
	}
}

func TestPicturesFillTheWidth(t *testing.T) {
	least := fyne.NewSize(212, 150)
	for _, c := range []struct{ width, columns float32 }{{100, 0}, {228, 1}, {459, 1}, {460, 2}, {828, 3}, {1000, 4}, {1560, 6}} {
		got := filling(least, c.width, 4)
		if c.columns == 0 {
			if got != least {
				t.Errorf("%v wide: %v, want the least", c.width, got)
			}
			continue
		}
		cell := got.Width + 2*gridCellRim
		if n := (c.width + 4) / (cell + 4); n < c.columns || n >= c.columns+1 {
			t.Errorf("%v wide: %v columns of %v, want %v", c.width, n, got, c.columns)
		}
		if left := c.width + 4 - c.columns*(cell+4); left < 0 || left > c.columns {
			t.Errorf("%v wide: %v is left over", c.width, left)
		}
		if got.Width < least.Width || got.Height < least.Height {
			t.Errorf("%v wide: pictures of %v", c.width, got)
		}
	}
}

// A grid made wider shows larger pictures at once, in the columns that it says it has.
func TestAGridFillsItsWidth(t *testing.T) {
	maintest.App(t)
	g := NewPhotoGrid(nil, fyne.NewSize(212, 150), 1, func() int { return 9 }, func(int) PhotoItem { return PhotoItem{Loaf: PaleLoaf} })
	w := test.NewTempWindow(t, g)
	w.SetPadded(false)
	for _, c := range []struct {
		width   float32
		columns int
	}{{700, 3}, {520, 2}, {1180, 5}, {700, 3}} {
		w.Resize(fyne.NewSize(c.width, 600))
		if got := g.ColumnCount(); got != c.columns {
			t.Errorf("%v wide: %d columns, want %d", c.width, got, c.columns)
		}
		if want := filling(g.least, g.Size().Width, 4); g.picture != want {
			t.Errorf("%v wide: pictures of %v, want %v", c.width, g.picture, want)
		}
	}
}
