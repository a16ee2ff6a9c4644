// Package today is the page that answers at one glance what needs the baker
// now: the day band, the dough on the bench, the cultures, the last loaf.
package today

import "twinloaf/app/pages"

// Routes gives the pages of the room.
func Routes() map[string]pages.Opener {
	return map[string]pages.Opener{
		pages.Today: func(env *pages.Env, _ pages.Route) (pages.Page, error) { return newPage(env), nil },
	}
}
