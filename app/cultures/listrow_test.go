package cultures

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"twinloaf/app/kit"
	"twinloaf/app/maintest"
)

// Nothing in the row of a culture lies over anything else, however narrow the list is, and all of
// it is within the row.
func TestNothingInACulturesRowLiesOverAnother(t *testing.T) {
	maintest.App(t)
	for width := float32(404); width < 1300; width += 20 {
		due := kit.Stack(1, kit.Small("feed by"), kit.Small("peak about 15:34"))
		words := kit.Stack(1, kit.Body("fed 06:24, 1:2:2 · 1.26× at 08:45"), kit.Small("Dark rye · 100 % hydration · begun 4 Apr 2025 · on the counter"), kit.NewButton("Feed", nil))
		row := container.New(&cultureRow{}, kit.Gap(1), words, kit.Gap(1), due)
		high := kit.FitHeight(row, width)
		for i, a := range row.Objects {
			if end := a.Position().AddXY(a.Size().Width, a.Size().Height); end.X > width+1 || end.Y > high+1 {
				t.Errorf("%v wide and %v high, thing %d ends at %v", width, high, i, end)
			}
			for k, b := range row.Objects[i+1:] {
				if overlap(a, b) {
					t.Errorf("%v wide, thing %d at %v %v lies over %d at %v %v", width, i, a.Position(), a.Size(), i+1+k, b.Position(), b.Size())
				}
			}
		}
	}
}

func overlap(a, b fyne.CanvasObject) bool {
	p, q, s, t := a.Position(), b.Position(), a.Size(), b.Size()
	return p.X < q.X+t.Width && q.X < p.X+s.Width && p.Y < q.Y+t.Height && q.Y < p.Y+s.Height
}
