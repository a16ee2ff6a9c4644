package blind

import (
	"bytes"
	"fmt"

	"twinloaf/journal/blind/internal/key"
	"twinloaf/journal/say"
)

// Errors of sealing and unsealing.
var (
	// ErrSealed: something was asked for that is sealed.
	ErrSealed = say.NewError("the tasting is sealed")
	// ErrTampered: what was kept of the assignment does not match the
	// commitment.
	ErrTampered = say.NewError("the sealed assignment does not match its commitment")
	// ErrNoProof: the proof is empty or belongs to another tasting.
	ErrNoProof = say.NewError("scoring is not finished: the tasting stays sealed")
)

// Sealed holds which loaf is where until scoring is done. However it is
// printed, logged, encoded or looked into by reflection, it shows the same few
// words. The zero Sealed holds nothing and opens for nothing.
//
// The secret lies in a function's closure and not in a field, because fmt looks
// straight into unexported fields of a struct that holds a Sealed, past all
// methods.
type Sealed struct {
	veiled
	open func() (Setting, secret)
}

func seal(setting Setting, s secret) Sealed {
	return Sealed{open: func() (Setting, secret) { return setting, s }}
}

// secretVersion is the first byte of the kept form.
const secretVersion = 1

// SecretBytes is the assignment for keeping on disk: a version byte, the salt,
// and one byte, 1 or 2, for each sealed plate in the order of the Setting. Only
// package vault can make the key it asks for.
func (s Sealed) SecretBytes(k key.Key) ([]byte, error) {
	if !k.Valid() || s.open == nil {
		return nil, ErrSealed
	}
	_, secret := s.open()
	return append(append([]byte{secretVersion}, secret.salt[:]...), secret.loaves...), nil
}

// PaperCode is the code on the helper's paper, for locking the assignment up with;
// empty where the key is the journal's own. Only package vault can make the key it
// asks for.
func (s Sealed) PaperCode(k key.Key) string {
	if !k.Valid() || s.open == nil {
		return ""
	}
	_, secret := s.open()
	return secret.code
}

// Restore makes a Sealed again from its kept form and the setting it belongs
// to. The error wraps ErrTampered when a byte of the assignment, of the salt or
// of what the commitment covers in the setting has changed.
func Restore(k key.Key, kept []byte, setting Setting) (Sealed, error) {
	if !k.Valid() {
		return Sealed{}, ErrSealed
	}
	const head = 1 + saltSize
	if len(kept) < head || kept[0] != secretVersion || len(kept)-head != setting.sealedCount() {
		return Sealed{}, fmt.Errorf("read back a sealed assignment of %d bytes: %w", len(kept), ErrTampered)
	}
	s := secret{loaves: bytes.Clone(kept[head:])}
	copy(s.salt[:], kept[1:head])
	if Commitment(canonicalText(setting, s)) != setting.Commitment {
		return Sealed{}, fmt.Errorf("read back a sealed assignment: %w", ErrTampered)
	}
	return seal(cloneSetting(setting), s), nil
}
