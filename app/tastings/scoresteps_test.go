package tastings

import (
	"testing"

	"fyne.io/fyne/v2"

	"twinloaf/app/maintest"
)

// In a low window, such as one with large text, a code leaves the plates in sight.
func TestCodesAreSmallerInALowWindow(t *testing.T) {
	maintest.App(t)
	high := func(window float32) float32 { return bigLabel("684", fyne.NewSize(853, window)).MinSize().Height }
	if high(700) != high(1200) {
		t.Errorf("in a window of 700 a code is %v high, in one of 1200 %v", high(700), high(1200))
	}
	if most := high(700) - 60; high(533) > most {
		t.Errorf("in a window of 533 a code is %v high, want at most %v", high(533), most)
	}
}
