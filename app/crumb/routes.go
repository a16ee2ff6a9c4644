// Package crumb is the room where the crumb of a loaf is measured from a photo
// of its cut face, and two are laid side by side.
package crumb

import (
	"twinloaf/app/pages"
	"twinloaf/journal"
)

// Routes gives the pages of the room. A place's ID names the photo, More a second
// one to compare it with; without an ID the place is every crumb photo.
func Routes() map[string]pages.Opener {
	return map[string]pages.Opener{
		pages.Crumb: func(env *pages.Env, p pages.Route) (pages.Page, error) {
			if p.ID == "" {
				return newListPage(env), nil
			}
			if second := journal.ID(p.More); second.Valid() && second != p.ID {
				return newPairPage(env, p.ID, second)
			}
			return newMeasurePage(env, p.ID)
		},
	}
}
