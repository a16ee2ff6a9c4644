package tastings

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/maintest"
)

// The bar stands where its figures are, between guessing at the left and every time at
// the right.
func TestIntervalBarStandsWhereItsFiguresAre(t *testing.T) {
	maintest.App(t)
	b := &intervalBar{low: 0.25, share: 0.5, high: 1}
	b.ExtendBaseWidget(b)
	b.Resize(fyne.NewSize(402, barTall))
	parts := test.WidgetRenderer(b).Objects()
	interval, share, guess := parts[barInterval], parts[barShare], parts[barGuess]
	if x := interval.Position().X; x != 101 {
		t.Errorf("the interval begins at %v, want 101", x)
	}
	if x := interval.Position().X + interval.Size().Width; x != 401 {
		t.Errorf("the interval ends at %v, want 401", x)
	}
	if x := share.Position().X + share.Size().Width/2; x != 201 {
		t.Errorf("the estimate stands at %v, want 201", x)
	}
	if guess.Position().X != 0 {
		t.Errorf("guessing stands at %v", guess.Position().X)
	}
}
