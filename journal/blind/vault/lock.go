package vault

import (
	"crypto/aes"
	"crypto/cipher"
	"fmt"
	"io"

	"golang.org/x/crypto/argon2"

	"twinloaf/journal/blind"
	"twinloaf/journal/say"
)

// Errors of an assignment whose key lies on the helper's paper.
var (
	// ErrLocked: the assignment opens with the code on the helper's paper alone.
	ErrLocked = say.NewError("the tasting opens with the code on the helper's paper")
)

// lockedVersion is the first byte of a locked assignment: after it come 16 bytes of
// salt, 12 of nonce, and the sealed box.
const (
	lockedVersion = 2
	saltSize      = 16
	nonceSize     = 12
)

// The key is derived by Argon2id with the second of the settings that RFC 9106,
// section 4, recommends: three passes over 64 MiB with four lanes.
const (
	passes = 3
	memory = 64 << 10 // KiB
	lanes  = 4
)

// Locked reports whether what was kept opens with a code alone.
func Locked(kept []byte) bool { return len(kept) > 0 && kept[0] == lockedVersion }

// lock seals a secret by AES-256-GCM (NIST SP 800-38D) with a key made of the code.
func lock(plain []byte, code string, random io.Reader) ([]byte, error) {
	head := make([]byte, 1+saltSize+nonceSize)
	head[0] = lockedVersion
	if _, err := io.ReadFull(random, head[1:]); err != nil {
		return nil, fmt.Errorf("lock the assignment up: %w", err)
	}
	box, err := boxOf(code, head[1:1+saltSize])
	if err != nil {
		return nil, fmt.Errorf("lock the assignment up: %w", err)
	}
	return box.Seal(head, head[1+saltSize:], plain, head[:1]), nil
}

func unlock(kept []byte, code string) ([]byte, error) {
	const head = 1 + saltSize + nonceSize
	if !Locked(kept) || len(kept) < head {
		return nil, fmt.Errorf("unlock an assignment of %d bytes: %w", len(kept), blind.ErrTampered)
	}
	box, err := boxOf(code, kept[1:1+saltSize])
	if err != nil {
		return nil, fmt.Errorf("unlock the assignment: %w", err)
	}
	plain, err := box.Open(nil, kept[1+saltSize:head], kept[head:], kept[:1])
	if err != nil {
		return nil, blind.ErrCode
	}
	return plain, nil
}

func boxOf(code string, salt []byte) (cipher.AEAD, error) {
	block, err := aes.NewCipher(argon2.IDKey([]byte(blind.TidyCode(code)), salt, passes, memory, lanes, 32))
	if err != nil {
		return nil, err
	}
	return cipher.NewGCM(block)
}
