package journal

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"

	"github.com/go-json-experiment/json"

	"twinloaf/journal/store"
)

// What took long to work out is kept in a bucket of its own, apart from what
// was recorded: it is no step of the history, belongs to no archive as a fact, and
// may be lost without loss, since it can be worked out again. Each value carries
// the version of the method it was made by and a fingerprint of what it rests on;
// one that does not fit is as good as none.

// derived is the body of a value in the derived bucket.
type derived[T any] struct {
	Method int    `json:"method"`
	Basis  string `json:"basis"` // see fingerprint
	Value  T      `json:"value"`
}

// fingerprint names what a derived value rests on, so that a change of it shows.
func fingerprint(basis any) (string, error) {
	b, err := json.Marshal(basis, jsonOptions)
	if err != nil {
		return "", fmt.Errorf("telling what a figure rests on: %w", err)
	}
	sum := sha256.Sum256(b)
	return hex.EncodeToString(sum[:16]), nil
}

// keepDerived writes a derived value under a key.
func keepDerived[T any](st *store.Tx, key string, d derived[T]) error {
	body, err := json.Marshal(d, jsonOptions)
	if err != nil {
		return err
	}
	return st.Side(sideDerived).Put(key, body)
}

// readDerived reads what is kept under a key; false where there is nothing, or
// nothing that can be read: it is then worked out again.
func readDerived[T any](st *store.Tx, key string) (d derived[T], ok bool) {
	body, err := st.Side(sideDerived).Get(key)
	if err != nil || body == nil || json.Unmarshal(body, &d, jsonOptions) != nil {
		return derived[T]{}, false
	}
	return d, true
}

// checkDerived counts the derived values that cannot be read and, with repair,
// takes them away.
func checkDerived(st *store.Tx, repair bool) (damaged int, err error) {
	side := st.Side(sideDerived)
	var bad []string
	err = side.Each("", func(key string, _ []byte, damage error) error {
		if damage != nil {
			bad = append(bad, key)
		}
		return nil
	})
	if err != nil || !repair {
		return len(bad), err
	}
	for _, key := range bad {
		if err := side.Delete(key); err != nil {
			return len(bad), err
		}
	}
	return len(bad), nil
}
