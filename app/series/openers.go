// Package series is the room of rows of pictures: a camera took them of a jar by itself, and
// the room follows what rises in it, shows its curve beside the pictures, and lets the baker
// set it right.
package series

import "twinloaf/app/room"

// Openers gives the pages of the room.
func Openers() map[string]room.Opener {
	return map[string]room.Opener{room.Series: open}
}
