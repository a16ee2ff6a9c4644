// Package looktest compares a room's own widgets with the pictures kept of them in the
// room's testdata, light and dark. Fyne compares with a tolerance and writes what differs
// to testdata/failed.
package looktest

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/maintest"
)

// Renders wants what make gives to look as it did, on a page of a size.
func Renders(t *testing.T, name string, size fyne.Size, make func() fyne.CanvasObject) {
	t.Helper()
	app := test.NewTempApp(t)
	for mode, in := range map[string]look.Mode{"light": look.AlwaysLight, "dark": look.AlwaysDark} {
		app.Settings().SetTheme(look.New(in))
		content := container.New(layout.NewCustomPaddedLayout(20, 20, 20, 20), make())
		framed := kit.NewFrame(maintest.New().Do, content)
		framed.Resize(size)
		content.Refresh()
		test.AssertObjectRendersToImage(t, name+"-"+mode+".png", framed)
	}
}
