package tastings

import (
	"testing"

	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/maintest"
	"twinloaf/app/pages/pagestest"
	"twinloaf/journal/blind"
)

// The names on a card stand in columns, whatever digits their codes have.
func TestNamesOnACardLineUp(t *testing.T) {
	maintest.App(t)
	plates := func(codes ...string) (out []blind.CardPlate) {
		for i, c := range codes {
			out = append(out, blind.CardPlate{Label: c, Loaf: i + 1, LoafName: "Ferry loaf"})
		}
		return out
	}
	table := cardTable([]blind.CardLine{{TasterName: "Ailsa", Plates: plates("711", "177")}, {TasterName: "Ailsa", Round: 1, Plates: plates("608", "860")}})
	table.Resize(fyne.NewSize(600, 300))
	at := map[float32]int{}
	pagestest.Each(table, func(o fyne.CanvasObject) {
		if name, ok := o.(*kit.Text); ok && name.String() == "Ferry loaf" {
			at[name.Position().X]++
		}
	})
	if len(at) != 1 {
		t.Errorf("beside their codes the names begin at %v", at)
	}
}
