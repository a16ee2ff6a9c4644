package kit_test

import (
	"image"
	"image/color"
	"os"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
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

// shows says whether the window shows a piece of text, in its dialogs or beneath them.
func shows(win fyne.Window, words string) bool {
	for _, t := range all[*kit.Text](win) {
		if t.String() == words {
			return true
		}
	}
	return false
}

func buttons(win fyne.Window) []*kit.Button { return all[*kit.Button](win) }

// all lists what of a type is visible in a window.
func all[T fyne.CanvasObject](win fyne.Window) []T {
	var out []T
	var walk func(o fyne.CanvasObject)
	walk = func(o fyne.CanvasObject) {
		if !o.Visible() {
			return
		}
		if t, ok := o.(T); ok {
			out = append(out, t)
		}
		switch o := o.(type) {
		case *fyne.Container:
			for _, child := range o.Objects {
				walk(child)
			}
		case fyne.Widget:
			for _, child := range test.WidgetRenderer(o).Objects() {
				walk(child)
			}
		}
	}
	walk(win.Canvas().Content())
	for _, o := range win.Canvas().Overlays().List() {
		walk(o)
	}
	return out
}
