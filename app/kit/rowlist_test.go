package kit_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
	"twinloaf/app/maintest"
)

// Rows that may grow fill the list where there is room for all of them, up to their most.
func TestRowsGrowWithTheRoom(t *testing.T) {
	maintest.App(t)
	const most = 120
	var seen fyne.CanvasObject
	n := 4
	list := kit.NewRowList(func() int { return n }, func() fyne.CanvasObject { return container.NewStack(kit.Body("Ferry loaf")) },
		func(_ int, row fyne.CanvasObject) { seen = row })
	test.NewTempWindow(t, list)
	list.Resize(fyne.NewSize(400, 400))
	high := func(room float32) float32 {
		list.Resize(fyne.NewSize(400, room))
		return seen.Size().Height
	}
	least := high(400)
	list.Most = most
	small, middle, large := high(60), high(400), high(2000)
	if small != least || middle <= least || large <= middle || large > most {
		t.Errorf("rows that ask for %v are %v high in a low list, %v in a higher one and %v in one of much room, where the most is %v", least, small, middle, large, most)
	}
	n = 40
	list.Refresh()
	if high(2000) >= large {
		t.Error("forty rows are as high as four")
	}
}
