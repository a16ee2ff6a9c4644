// Package series is the room of rows of pictures: a camera took them of a jar by itself, and
// the room follows what rises in it, shows its curve beside the pictures, and lets the baker
// set it right.
package series

import "twinloaf/app/pages"

// Routes gives the pages of the pages.
func Routes() map[string]pages.Opener {
	return map[string]pages.Opener{pages.Series: open}
}
