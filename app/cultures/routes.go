// Package cultures is the room of natural leavens: every culture and how it is, one
// culture's life from its first day on, feeding it, reading it, and what comes next.
package cultures

import (
	"twinloaf/app/pages"
)

// Routes gives the pages of the room.
func Routes() map[string]pages.Opener {
	return map[string]pages.Opener{
		pages.Cultures: openList,
		pages.Culture:  openCulture,
		pages.Feeding:  openFeeding,
		pages.History:  openHistory,
	}
}
