// Package photos is the room of one photo seen large, and of two side by side.
package photos

import (
	"twinloaf/app/pages"
	"twinloaf/journal"
)

// Routes gives the pages of the room. A place's ID names the photo; More may name
// a second one, to be seen beside it.
func Routes() map[string]pages.Opener {
	return map[string]pages.Opener{
		pages.Photo: func(env *pages.Env, p pages.Route) (pages.Page, error) {
			if beside := journal.ID(p.More); beside.Valid() {
				if _, err := journal.Get[journal.Photo](env.Journal, beside); err == nil {
					return newPairPage(env, p.ID, beside)
				}
			}
			return newPhotoPage(env, p.ID)
		},
	}
}
