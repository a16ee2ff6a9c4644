package journal

import (
	"context"
	"io"

	"twinloaf/journal/store"
)

// inspect looks at a file of records without altering it, and tells why it
// should not be opened: it is no journal, is in use, is newer, or is damaged.
// A damaged file can end the process that looks at it; see [InspectIn].
func inspect(ctx context.Context, path string) error { return store.Inspect(ctx, path, layout()) }

// InspectAndSay inspects path and writes the finding to w, for [InspectIn].
func InspectAndSay(ctx context.Context, path string, w io.Writer) error {
	return store.InspectAndSay(ctx, path, layout(), w)
}

// InspectIn has a child process, the program exe with the arguments args and
// the path behind them, call [InspectAndSay]: what takes that process down
// leaves this one standing.
func InspectIn(exe string, args ...string) func(ctx context.Context, path string) error {
	return store.InspectIn(exe, args...)
}
