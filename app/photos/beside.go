package photos

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
)

// pickBeside offers the photos that can be seen beside one, and hands over which
// was picked.
func pickBeside(env *pages.Env, id journal.ID, picked func(journal.ID)) {
	ph, err := journal.Get[journal.Photo](env.Journal, id)
	if err != nil {
		env.Fail(err)
		return
	}
	all, err := candidates(env.Journal, ph, env.Units(), env.Now())
	if err != nil {
		env.Fail(err)
		return
	}
	if len(all) == 0 {
		env.Say(lang.L("There is no other photo yet."), false)
		return
	}
	var sheet *kit.Dialog
	grid := kit.NewPhotoGrid(env.Thumbs, fyne.NewSize(180, 135), 2, func() int { return len(all) }, func(i int) kit.PhotoItem {
		if i < 0 || i >= len(all) {
			return kit.PhotoItem{}
		}
		return all[i].item
	})
	grid.OnOpen = func(i int) {
		sheet.Close()
		picked(all[i].id)
	}
	sheet = kit.ShowDialog(env.Window, kit.DialogOptions{
		Title: lang.L("Compare with which photo?"), Content: grid, Width: 900, Height: 640,
		Aside:   kit.Small(lang.L("Arrow keys move, Enter selects.")),
		Buttons: []fyne.CanvasObject{kit.NewButton(lang.L("Cancel"), func() { sheet.Close() }).WithKey(lang.L("Esc"))},
	})
	env.Window.Canvas().Focus(grid)
}
