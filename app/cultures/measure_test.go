package cultures

import (
	"image"
	"slices"
	"testing"

	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
)

// Lines that were dragged over a photo are not lost without a question, and whoever has only a
// mouse can leave them alone.
func TestDraggedLinesAreAskedFor(t *testing.T) {
	b := pagestest.New(t)
	measure := func() *kit.Dialog {
		return measureJar(b.Env, image.NewRGBA(image.Rect(0, 0, 60, 80)), nil, func(journal.JarLines) { t.Error("they are taken") })
	}
	s := measure()
	buttons := pagestest.All[*kit.Button](b.Window.Canvas().Overlays().Top())
	at := slices.IndexFunc(buttons, func(b *kit.Button) bool { return b.Label() == "Cancel" })
	if at < 0 {
		t.Fatal("the lines cannot be left by mouse")
	}
	buttons[at].Tapped(&fyne.PointEvent{})
	if s.Open() {
		t.Error("lines that nobody dragged are asked for")
	}
	s = measure()
	for _, view := range pagestest.All[*kit.PhotoView](b.Window.Canvas().Overlays().Top()) {
		view.Wait()
	}
	handle := b.Window.Canvas().Focused()
	if handle == nil {
		t.Fatal("nothing over the photo has the keyboard")
	}
	handle.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp}) // of the height now
	b.Window.Canvas().Unfocus()
	b.Window.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if !s.Open() {
		t.Error("lines that were dragged go without a question")
	}
}
