// Package vault keeps sealed assignments on disk. It is the only way by which
// an assignment leaves memory while it is sealed, and only the journal's own
// store may import it; its test looks through the whole module that nothing
// else does.
package vault

import (
	"twinloaf/journal/blind"
	"twinloaf/journal/blind/internal/key"
)

// Bytes gives the secret for keeping. Keep it in a place that no view, export,
// search or log reads. Together with the tasting's Setting it makes the Sealed
// again.
func Bytes(s blind.Sealed) ([]byte, error) { return s.SecretBytes(key.New()) }

// Restore makes a Sealed from what Bytes gave and the Setting it was sealed
// with. The error wraps blind.ErrTampered when a byte of either that the
// commitment covers has changed.
func Restore(kept []byte, setting blind.Setting) (blind.Sealed, error) {
	return blind.Restore(key.New(), kept, setting)
}
