package blind

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strconv"
	"strings"
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
}

// sealedLabels are the labels whose loaf is sealed in one serving: with a
// helper what is tasted, alone the slips.
func (s Setting) sealedLabels(serving Serving) []string {
	if s.Plan.Mode == Alone {
		return serving.Slips
	}
	return s.Tasted(serving)
}

// canonicalText is the text that the commitment is the hash of. It is UTF-8
// with line feeds, in this form:
//
//	twinloaf sealed tasting, version 1
//	method: triangle
//	plated: with a helper
//	loaf 1: "Harbour loaf" "01J…"
//	loaf 2: "Gorse loaf" "01J…"
//	taster 1: "Ines"
//	taster 1 round 1: 482=1 913=2 275=2
//	…
//	salt: 64 hexadecimal digits
//
// Names are quoted as Go quotes strings, so that no name can look like another
// line. Alone, the labels are the slips of the round.
func canonicalText(s Setting, secret secret) string {
	var text strings.Builder
	fmt.Fprintf(&text, "twinloaf sealed tasting, version 1\nmethod: %s\nplated: %s\n", s.Plan.Method, s.Plan.Mode)
	for i, loaf := range s.Plan.Loaves {
		fmt.Fprintf(&text, "loaf %d: %s %s\n", i+1, strconv.Quote(loaf.Name), strconv.Quote(loaf.ID))
	}
	for i, name := range s.Plan.Tasters {
		fmt.Fprintf(&text, "taster %d: %s\n", i+1, strconv.Quote(name))
	}
	at := 0
	for _, serving := range s.Servings {
		fmt.Fprintf(&text, "taster %d round %d:", serving.Taster+1, serving.Round+1)
		if serving.OpenReference != 0 {
			fmt.Fprintf(&text, " %s=%d", ReferenceLabel, serving.OpenReference)
		}
		for _, label := range s.sealedLabels(serving) {
			fmt.Fprintf(&text, " %s=%d", label, secret.loaves[at])
			at++
		}
		text.WriteByte('\n')
	}
	fmt.Fprintf(&text, "salt: %s\n", hex.EncodeToString(secret.salt[:]))
	return text.String()
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
