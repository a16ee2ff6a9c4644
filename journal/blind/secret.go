package blind

import (
	"crypto/sha256"
	"encoding/hex"
)

// saltSize is the number of random bytes that keep the commitment from being
// guessed: a six-round triangle has few enough assignments to try them all.
const saltSize = 32

// secret is which loaf is where. Nothing outside this package can name it.
type secret struct {
	salt [saltSize]byte
	// loaves holds 1 or 2 for each sealed plate, in the order of sealedLabels
	// over the servings.
	loaves []byte
	// code is what opens the assignment where its key lies on the helper's paper;
	// empty elsewhere, and in an assignment that was read back.
	code string
}

// sealedLabels are the labels whose loaf is sealed in one serving: with a
// helper what is tasted, alone the slips.
func (s Setting) sealedLabels(serving Serving) []string {
	if s.Plan.Mode == Alone {
		return serving.Slips
	}
	return s.Tasted(serving)
}

// Commitment is the SHA-256 of a canonical text in hexadecimal: what
// “sha256sum seal.txt” prints for a file that holds exactly that text.
func Commitment(text string) string {
	sum := sha256.Sum256([]byte(text))
	return hex.EncodeToString(sum[:])
}

// sealedCount is the number of plates whose loaf is secret.
func (s Setting) sealedCount() int {
	n := 0
	for _, serving := range s.Servings {
		n += len(s.sealedLabels(serving))
	}
	return n
}
