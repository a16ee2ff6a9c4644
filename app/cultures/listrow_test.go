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
	room := float32(700)
	for width := float32(404); width < 1800; width += 20 {
		if width == 1304 {
			room = 1440
		}
		due := kit.Stack(1, kit.Small("feed by"), kit.Small("peak about 15:34"))
		words := kit.Stack(1, kit.Body("fed 06:24, 1:2:2 · 1.26× at 08:45"), kit.Small("Dark rye · 100 % hydration · begun 4 Apr 2025 · on the counter"), kit.NewButton("Feed", nil))
		row := container.New(&cultureRow{living: 2, room: func() float32 { return room }}, kit.Gap(1), words, kit.Gap(1), due)
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

// In a high window the jar is large, and the curve stands below the words; in a low one beside them.
func TestTheJarIsLargeWhereThereIsRoom(t *testing.T) {
	maintest.App(t)
	for room, large := range map[float32]bool{700: false, 1000: true} {
		jar, words, curve := kit.Gap(1), kit.Body("fed 06:24"), kit.Gap(1)
		row := container.New(&cultureRow{living: 2, room: func() float32 { return room }}, jar, words, curve, kit.Gap(1))
		kit.FitHeight(row, 1100)
		if below := curve.Position().Y >= words.Position().Y+words.Size().Height; below != large || (jar.Size().Width > 400) != large {
			t.Errorf("%v high, the jar is %v wide, the words are at %v, the curve at %v", room, jar.Size().Width, words.Position(), curve.Position())
		}
		if end := curve.Position().Y + curve.Size().Height; end > jar.Size().Height+0.1 {
			t.Errorf("%v high, the curve ends at %v, the jar at %v", room, end, jar.Size().Height)
		}
	}
}

func overlap(a, b fyne.CanvasObject) bool {
	p, q, s, t := a.Position(), b.Position(), a.Size(), b.Size()
	return p.X < q.X+t.Width && q.X < p.X+s.Width && p.Y < q.Y+t.Height && q.Y < p.Y+s.Height
}
