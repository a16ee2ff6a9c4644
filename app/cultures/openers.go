// Package cultures is the room of natural leavens: every culture and how it is, one
// culture's life from its first day on, feeding it, reading it, and what comes next.
package cultures

import (
	"twinloaf/app/room"
)

// Openers gives the pages of the room.
func Openers() map[string]room.Opener {
	return map[string]room.Opener{
		room.Cultures: openList,
		room.Culture:  openCulture,
		room.Feeding:  openFeeding,
		room.History:  openHistory,
	}
}
