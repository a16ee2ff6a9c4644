package photos

import (
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
)

// pickBeside offers the photos that can be seen beside one, and hands over which
// was picked.
func pickBeside(env *pages.Env, id journal.ID, picked func(journal.ID)) {
	ph, err := journal.Get[journal.Photo](env.Journal, id)
	if env.Failed(err) {
		return
	}
	all, err := candidates(env.Journal, ph, env.Units(), env.Now())
	if env.Failed(err) {
		return
	}
	if len(all) == 0 {
		env.Say(lang.L("There is no other photo yet."), false)
		return
	}
	items := make([]kit.PhotoItem, len(all))
	for i, one := range all {
		items[i] = one.item
	}
	env.PickPhoto(lang.L("Compare with which photo?"), lang.L("Arrow keys move, Enter selects."), items, func(i int) { picked(all[i].id) })
}
