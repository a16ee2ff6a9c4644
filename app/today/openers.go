// Package today is the page that answers at one glance what needs the baker
// now.
package today

import "twinloaf/app/room"

// Openers gives the pages of the room.
func Openers() map[string]room.Opener {
	return map[string]room.Opener{}
}
