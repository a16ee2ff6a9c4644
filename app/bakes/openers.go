// Package bakes is the room of what was baked: the list of past bakes, the page
// of one bake, and the bin.
package bakes

import (
	"strings"

	"twinloaf/app/room"
	"twinloaf/journal"
)

// Openers gives the pages of the room. The page of a bake without an ID is that of
// a new one; More may name the culture that it is begun with. With an ID, More may be
// [room.ToOutcome].
func Openers() map[string]room.Opener {
	return map[string]room.Opener{
		room.Bakes: func(env *room.Env, _ room.Place) (room.Page, error) { return newListPage(env), nil },
		room.Bin:   func(env *room.Env, _ room.Place) (room.Page, error) { return newBinPage(env), nil },
		room.Bake: func(env *room.Env, p room.Place) (room.Page, error) {
			culture := journal.ID(strings.TrimSpace(p.More))
			if p.ID != "" || !culture.Valid() {
				culture = ""
			}
			page, err := newBakePage(env, p.ID, culture)
			if err == nil && p.ID != "" && p.More == room.ToOutcome {
				page.begin = page.toOutcome
			}
			return page, err
		},
	}
}
