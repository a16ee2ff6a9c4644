package journal

import (
	"bytes"
	"fmt"

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
	side := t.st.Side(sideVault)
	if side.Has(string(tasting)) {
		return fmt.Errorf("sealing tasting %s: it is sealed already", tasting)
	}
	return side.Put(string(tasting), secret)
}

// sealedOf gives the sealed assignment of a tasting. It stays within this
// package: whoever held it and the setting could make up a finished session
// and open it. setting is the public part that it was sealed with.
func sealedOf(t *Tx, tasting ID, setting blind.Setting) (blind.Sealed, error) {
	body, err := t.st.Side(sideVault).Get(string(tasting))
	if err == nil && body == nil {
		err = ErrNotFound
	}
	if err != nil {
		return blind.Sealed{}, fmt.Errorf("reading the seal of tasting %s: %w", tasting, err)
	}
	return vault.Restore(bytes.Clone(body), setting)
}
