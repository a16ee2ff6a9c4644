package pages

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
)

// PickPhoto offers photos by their pictures, and hands over which was picked.
func (e *Env) PickPhoto(title, aside string, photos []kit.PhotoItem, picked func(i int)) {
	var sheet *kit.Dialog
	grid := kit.NewPhotoGrid(e.Thumbs, fyne.NewSize(180, 135), 2, func() int { return len(photos) }, func(i int) kit.PhotoItem {
		if i < 0 || i >= len(photos) {
			return kit.PhotoItem{}
		}
		return photos[i]
	})
	grid.OnOpen = func(i int) {
		sheet.Close()
		picked(i)
	}
	sheet = kit.ShowDialog(e.Window, kit.DialogOptions{Title: title, Content: grid, Width: 900, Height: 640, Aside: kit.Small(aside),
		Buttons: []fyne.CanvasObject{kit.NewButton(lang.L("Cancel"), func() { sheet.Close() }).WithKey(lang.L("Esc"))}})
	e.Window.Canvas().Focus(grid)
}
