package maintest

import (
	"testing"

	"fyne.io/fyne/v2"

	"twinloaf/app/look"
)

// An app has our theme from the start, and so has the one that stands in its place afterwards.
func TestAnAppHasOurTheme(t *testing.T) {
	t.Run("with an app", func(t *testing.T) {
		if _, ours := App(t).Settings().Theme().(*look.Theme); !ours {
			t.Error("the app has another theme")
		}
	})
	if _, ours := fyne.CurrentApp().Settings().Theme().(*look.Theme); !ours {
		t.Error("what stands in its place has another theme")
	}
}
