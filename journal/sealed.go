package journal

import (
	"bytes"
	"fmt"

	bolt "go.etcd.io/bbolt"

	"twinloaf/journal/blind"
	"twinloaf/journal/blind/vault"
)

// KeepSealed keeps the secret of a tasting that is being sealed. It lies in a
// bucket of its own, apart from the records: no list, index, search, export or
// step of the history reads it.
func KeepSealed(t *Tx, tasting ID, sealed blind.Sealed) error {
	secret, err := vault.Bytes(sealed)
	if err != nil {
		return fmt.Errorf("sealing tasting %s: %w", tasting, err)
	}
	t.secret = true
	b := t.tx.Bucket(bucketVault)
	if b.Get([]byte(tasting)) != nil {
		return fmt.Errorf("sealing tasting %s: it is sealed already", tasting)
	}
	return b.Put([]byte(tasting), wrap(string(bucketVault), string(tasting), secret))
}

// Sealed gives the sealed assignment of a tasting, which tells nothing until
// it is unsealed. setting is the public part that it was sealed with.
func (j *Journal) Sealed(tasting ID, setting blind.Setting) (blind.Sealed, error) {
	var kept []byte
	err := j.db.View(func(tx *bolt.Tx) error {
		v := tx.Bucket(bucketVault).Get([]byte(tasting))
		if v == nil {
			return ErrNotFound
		}
		body, err := unwrap(string(bucketVault), string(tasting), v)
		kept = bytes.Clone(body)
		return err
	})
	if err != nil {
		return blind.Sealed{}, fmt.Errorf("reading the seal of tasting %s: %w", tasting, err)
	}
	return vault.Restore(kept, setting)
}
