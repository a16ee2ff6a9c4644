// Package bakes is the room of what was baked: the list of past bakes, the page
// of one bake, and the bin.
package bakes

import (
	"strings"

	"twinloaf/app/pages"
	"twinloaf/journal"
)

// Routes gives the pages of the room. The page of a bake without an ID is that of
// a new one; More may name the culture that it is begun with. With an ID, More may be
// [pages.ToOutcome].
func Routes() map[string]pages.Opener {
	return map[string]pages.Opener{
		pages.Bakes: func(env *pages.Env, _ pages.Route) (pages.Page, error) { return newListPage(env), nil },
		pages.Bin:   func(env *pages.Env, _ pages.Route) (pages.Page, error) { return newBinPage(env), nil },
		pages.Bake: func(env *pages.Env, p pages.Route) (pages.Page, error) {
			culture := journal.ID(strings.TrimSpace(p.More))
			if p.ID != "" || !culture.Valid() {
				culture = ""
			}
			page, err := newBakePage(env, p.ID, culture)
			if err == nil && p.ID != "" && p.More == pages.ToOutcome {
				page.begin = page.toOutcome
			}
			return page, err
		},
	}
}
