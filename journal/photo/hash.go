package photo

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
)

// Hash is the SHA-256 of a photo's bytes and its name in the store.
type Hash [sha256.Size]byte

// ParseHash reads the 64 hexadecimal digits that String writes.
func ParseHash(s string) (Hash, error) {
	var h Hash
	if len(s) != hex.EncodedLen(len(h)) {
		return Hash{}, fmt.Errorf("photo fingerprint %q has %d digits instead of %d", s, len(s), hex.EncodedLen(len(h)))
	}
	if _, err := hex.Decode(h[:], []byte(s)); err != nil {
		return Hash{}, fmt.Errorf("photo fingerprint %q: %w", s, err)
	}
	return h, nil
}

// String is the hash in 64 lower-case hexadecimal digits.
func (h Hash) String() string { return hex.EncodeToString(h[:]) }

// IsZero reports whether h names no photo.
func (h Hash) IsZero() bool { return h == Hash{} }

// MarshalText writes the digits, so that a record holds them as text.
func (h Hash) MarshalText() ([]byte, error) { return []byte(h.String()), nil }

// UnmarshalText reads what MarshalText wrote.
func (h *Hash) UnmarshalText(text []byte) error {
	p, err := ParseHash(string(text))
	if err != nil {
		return err
	}
	*h = p
	return nil
}
