// Package clipboard reads from the clipboard what the toolkit does not: pictures, and
// lists of files. It knows no window and no journal.
//
// On X11 it asks the clipboard's owner itself, as the ICCCM describes (section 2, peer-to-
// peer communication by means of selections), in pieces where there is much (INCR). Under
// Wayland the window runs in Xwayland, where most compositors lend the clipboard to X11 in
// the same kinds. Elsewhere nothing is found, and only text can be pasted: [Pictures] tells
// which, and no page promises more.
package clipboard

import (
	"context"
	"errors"
	"time"
)

// most is how much is taken, in bytes: more than a photo has.
const most = 64 << 20

// patience is how long the owner of the clipboard may take to answer.
const patience = 5 * time.Second

// The kinds of refusal, to tell with errors.Is.
var (
	// ErrNothing means that the clipboard holds nothing of the kinds asked for.
	ErrNothing = errors.New("the clipboard holds nothing of that kind")
	// ErrTooLarge means that it holds more than is taken.
	ErrTooLarge = errors.New("the clipboard holds more than can be taken")
)

// Read gives what the clipboard holds in the first of some kinds, named as MIME types
// ("image/png", "text/uri-list"), and in which. It waits no longer than patience, and
// may be called from any goroutine but that of the window, which may itself be asked.
func Read(ctx context.Context, kinds ...string) (kind string, data []byte, err error) {
	ctx, stop := context.WithTimeout(ctx, patience)
	defer stop()
	return read(ctx, kinds)
}
