package tastings

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/looktest"
	"twinloaf/journal/blind"
	"twinloaf/journal/blind/verdict"
	"twinloaf/journal/measure"
)

// The plates in each state, what was counted, the interval, and the digits of a seal.
func TestLooks(t *testing.T) {
	looktest.Renders(t, "tasting", fyne.NewSize(620, 420), func() fyne.CanvasObject {
		plates := kit.Row(4)
		for state := plateState(0); state <= plateChosen; state++ {
			plates.Add(newPlate("417", state, 64))
		}
		chosen := newChoicePlate("602", true, 64, func() {})
		chosen.FocusGained()
		plates.Add(chosen)
		return kit.Stack(5, plates,
			counted(blind.Triangle, verdict.Tally{Agreeing: 12, Counted: 18}, measure.Units{}), newIntervalBar(0.17, 0.5, 1),
			newFingerprint(strings.Repeat("0123456789abcdef", 4), look.TextBody, 32))
	})
}

// The frame of the pages of a sealed tasting.
func TestLookOfTheSealedFrame(t *testing.T) {
	looktest.Renders(t, "sealed", fyne.NewSize(620, 420), func() fyne.CanvasObject {
		b := newBare()
		b.show(kit.Small("Round 2 of 6"), kit.Small("sealed"), kit.Stack(4, kit.Heading("Which is the odd one?"), kit.Row(4, newPlate("417", 0, 96), newPlate("602", 0, 96))),
			kit.Small("Rinse, wait a minute."), kit.InkButton("Hand in", nil))
		return b
	})
}
