// Package key holds the key to a sealed assignment. Being internal, it can be
// imported by blind and by blind/vault and by nobody else: that is the
// compiler's share in keeping the secret.
package key

// Key opens a sealed assignment for storing it. The zero Key opens nothing.
type Key struct{ valid bool }

// New makes a key.
func New() Key { return Key{valid: true} }

// Valid reports whether the key came from New.
func (k Key) Valid() bool { return k.valid }
