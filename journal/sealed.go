package journal

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"

	"twinloaf/journal/blind"
	"twinloaf/journal/blind/vault"
	"twinloaf/journal/store"
)

// keepSealed keeps the secret of a tasting that is being sealed. It lies in a
// bucket of its own, apart from the records: no list, index, search, export or
// step of the history reads it. Where its key lies on the helper's paper it is
// locked up, and t remembers its hash.
func keepSealed(tx *Tx, t *Tasting, sealed blind.Sealed) error {
	secret, err := vault.Bytes(sealed, randomOf{tx.j})
	if err != nil {
		return fmt.Errorf("sealing tasting %s: %w", t.ID, err)
	}
	tx.secret = true
	side := tx.st.Side(sideVault)
	if side.Has(string(t.ID)) {
		return fmt.Errorf("sealing tasting %s: it is sealed already", t.ID)
	}
	if t.Locked = ""; vault.Locked(secret) {
		t.Locked = lockHash(secret)
	}
	return side.Put(string(t.ID), secret)
}

func lockHash(b []byte) string {
	sum := sha256.Sum256(b)
	return hex.EncodeToString(sum[:])
}

// kept reads what the vault holds of a tasting.
func kept(t *Tx, tasting ID) ([]byte, error) {
	body, err := t.st.Side(sideVault).Get(string(tasting))
	if err == nil && body == nil {
		err = ErrNotFound
	}
	if err != nil {
		return nil, fmt.Errorf("reading the seal of tasting %s: %w", tasting, err)
	}
	return bytes.Clone(body), nil
}

// sealedOf gives the sealed assignment of a tasting. It stays within this
// package: whoever held it and the setting could make up a finished session
// and open it. setting is the public part that it was sealed with; code is that of
// the helper's paper, where there is one.
func sealedOf(t *Tx, tasting ID, setting blind.Setting, code string) (blind.Sealed, error) {
	body, err := kept(t, tasting)
	if err != nil {
		return blind.Sealed{}, err
	}
	if vault.Locked(body) {
		return vault.Unlock(body, code, setting)
	}
	return vault.Restore(body, setting)
}

// CheckSeal verifies a sealed tasting before anybody tastes, or at any time while
// it is sealed: that the vault holds its assignment, that the plan, the names, the
// codes and the orders are those that were sealed, and that the answers are those
// that were handed in. Where the key lies on the helper's paper only that nothing
// was changed in the locked box can be told. The error wraps [blind.ErrTampered]
// or says what cannot be read.
func (j *Journal) CheckSeal(id ID) error {
	return j.view(func(st *store.Tx) error {
		tx := &Tx{st: st, j: j}
		t, err := Get[Tasting](tx, id)
		if err != nil {
			return err
		}
		return t.checkSeal(tx)
	})
}

func (t *Tasting) checkSeal(tx *Tx) error {
	setting, err := t.Setting()
	if err != nil {
		return err
	}
	wrong := func(err error) error { return fmt.Errorf("checking the seal of tasting %s: %w", t.ID, err) }
	if setting.Commitment != t.Commitment || t.Sealed.IsZero() || !t.ofItsBakes(setting) || t.IsOpen() != (len(t.Result) > 0) {
		return wrong(blind.ErrTampered)
	}
	if err := t.checkKept(tx, setting); err != nil {
		return wrong(err)
	}
	if t.IsOpen() {
		if _, _, err := t.Opened(); err != nil {
			return wrong(err)
		}
		return nil
	}
	progress, err := t.Progress()
	if err != nil {
		return err
	}
	session, err := blind.Resume(setting, progress)
	if err != nil {
		return wrong(err)
	}
	if t.Answered != "" && t.Answered != session.Fingerprint() {
		return wrong(blind.ErrTampered)
	}
	return nil
}

// checkKept verifies what the vault holds of the tasting. One that came open with an
// archive has nothing there: the text that was sealed came with it.
func (t *Tasting) checkKept(tx *Tx, setting blind.Setting) error {
	body, err := kept(tx, t.ID)
	switch {
	case errors.Is(err, ErrNotFound) && t.IsOpen():
		return nil
	case err != nil:
		return err
	case !vault.Locked(body):
		_, err := vault.Restore(body, setting)
		return err
	case lockHash(body) != t.Locked:
		return blind.ErrTampered
	}
	return nil
}

// verifySeals verifies every tasting that was ever sealed and calls fn with each in
// which something is wrong.
func verifySeals(tx *Tx, fn func(ID, error)) error {
	ids, err := tx.st.IDs(KindTasting)
	if err != nil {
		return err
	}
	for _, id := range ids {
		t, err := Get[Tasting](tx, id)
		if err != nil {
			continue // one that cannot be read is reported as such
		}
		if t.Sealed.IsZero() && len(t.Result) == 0 && !tx.st.Side(sideVault).Has(string(id)) {
			continue // it is planned
		}
		if err := t.checkSeal(tx); err != nil {
			fn(id, err)
		}
	}
	return nil
}
