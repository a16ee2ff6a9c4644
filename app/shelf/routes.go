// Package shelf is the room of past bakes as pictures: found by flour and
// everything else, compared, a flour's own page, and the year.
package shelf

import (
	"strings"

	"twinloaf/app/pages"
	"twinloaf/journal"
)

// Routes gives the pages of the room.
func Routes() map[string]pages.Opener {
	return map[string]pages.Opener{
		pages.Shelf: func(env *pages.Env, p pages.Route) (pages.Page, error) {
			if year, ok := yearOf(p.More); ok {
				return newYearPage(env, year), nil
			}
			return newShelfPage(env, p)
		},
		pages.Flour: func(env *pages.Env, p pages.Route) (pages.Page, error) { return newFlourPage(env, p) },
		pages.Compare: func(env *pages.Env, p pages.Route) (pages.Page, error) {
			var ids []journal.ID
			for _, id := range strings.Fields(p.More) {
				ids = append(ids, journal.ID(id))
			}
			if len(ids) == 1 {
				return newComparePick(env, ids[0])
			}
			return newComparePage(env, ids)
		},
	}
}
