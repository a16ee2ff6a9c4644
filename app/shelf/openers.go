// Package shelf is the room of past bakes as pictures: found by flour and
// everything else, compared, a flour's own page, and the year.
package shelf

import (
	"strings"

	"twinloaf/app/room"
	"twinloaf/journal"
)

// Openers gives the pages of the room.
func Openers() map[string]room.Opener {
	return map[string]room.Opener{
		room.Shelf: func(env *room.Env, p room.Place) (room.Page, error) {
			if year, ok := yearOf(p.More); ok {
				return newYearPage(env, year), nil
			}
			return newShelfPage(env, p)
		},
		room.Flour: func(env *room.Env, p room.Place) (room.Page, error) { return newFlourPage(env, p) },
		room.Compare: func(env *room.Env, p room.Place) (room.Page, error) {
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
