// Package today is the page that answers at one glance what needs the baker
// now: the day band, the dough on the bench, the cultures, the last loaf.
package today

import "twinloaf/app/room"

// Openers gives the pages of the room.
func Openers() map[string]room.Opener {
	return map[string]room.Opener{
		room.Today: func(env *room.Env, _ room.Place) (room.Page, error) { return newPage(env), nil },
	}
}
