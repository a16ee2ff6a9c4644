package kit_test

import (
	"image"
	"image/color"
	"os"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/look"
)

func TestMain(m *testing.M) {
	app := test.NewApp()
	app.Settings().SetTheme(look.New(look.AlwaysLight))
	os.Exit(m.Run())
}

// window shows content in a test window of a size.
func window(t *testing.T, content fyne.CanvasObject, w, h float32) fyne.Window {
	t.Helper()
	win := test.NewTempWindow(t, content)
	win.SetPadded(false)
	win.Resize(fyne.NewSize(w, h))
	return win
}

func key(name fyne.KeyName) *fyne.KeyEvent { return &fyne.KeyEvent{Name: name} }

func plainPicture(w, h int, c color.Color) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	r, g, b, _ := c.RGBA()
	for i := 0; i < len(img.Pix); i += 4 {
		img.Pix[i], img.Pix[i+1], img.Pix[i+2], img.Pix[i+3] = uint8(r>>8), uint8(g>>8), uint8(b>>8), 255
	}
	return img
}

func typeInto(t *testing.T, win fyne.Window, f fyne.Focusable, text string) {
	t.Helper()
	win.Canvas().Focus(f)
	test.Type(f, text)
}

// more types on without giving the focus anew, as test.Type does.
func more(f fyne.Focusable, text string) {
	for _, r := range text {
		f.TypedRune(r)
	}
}
