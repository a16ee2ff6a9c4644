// Package vault keeps sealed assignments on disk. It is the only way by which
// an assignment leaves memory while it is sealed, and only the journal's own
// store may import it; its test looks through the whole module that nothing
// else does.
package vault

import (
	"io"

	"twinloaf/journal/blind"
	"twinloaf/journal/blind/internal/key"
)

// Bytes gives the secret for keeping. Keep it in a place that no view, export,
// search or log reads. Together with the tasting's Setting it makes the Sealed
// again. Where the key lies on the helper's paper the secret is locked up with
// its code, and random is what nonce and salt are drawn from.
func Bytes(s blind.Sealed, random io.Reader) ([]byte, error) {
	k := key.New()
	plain, err := s.SecretBytes(k)
	if err != nil {
		return nil, err
	}
	if code := s.PaperCode(k); code != "" {
		return lock(plain, code, random)
	}
	return plain, nil
}

// Restore makes a Sealed from what Bytes gave and the Setting it was sealed
// with. The error wraps blind.ErrTampered when a byte of either that the
// commitment covers has changed, and [ErrLocked] when the key lies on a paper:
// then use [Unlock].
func Restore(kept []byte, setting blind.Setting) (blind.Sealed, error) {
	if Locked(kept) && setting.Plan.KeyOnPaper {
		return blind.Sealed{}, ErrLocked
	}
	return blind.Restore(key.New(), kept, setting)
}

// Unlock makes a Sealed from what Bytes gave, the code on the helper's paper, as
// it was typed, and the Setting. The error wraps [blind.ErrCode] when the code is not
// the one, or when a byte of what was kept has changed, which cannot be told
// apart.
func Unlock(kept []byte, code string, setting blind.Setting) (blind.Sealed, error) {
	plain, err := unlock(kept, code)
	if err != nil {
		return blind.Sealed{}, err
	}
	return blind.Restore(key.New(), plain, setting)
}

// Plain is the secret of an assignment that was unlocked, for keeping it without
// the code once the tasting is open.
func Plain(s blind.Sealed) ([]byte, error) { return s.SecretBytes(key.New()) }
