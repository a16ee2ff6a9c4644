package blind

import (
	"fmt"
	"io"
	"log/slog"
)

// veiled is embedded in what holds the secret of a tasting: however that is printed,
// logged or encoded, it shows the same few words.
type veiled struct{}

const veiledWords = "secret of a tasting"

// String says what it is.
func (veiled) String() string { return veiledWords }

// GoString says what it is.
func (veiled) GoString() string { return veiledWords }

// Format says what it is, whatever the verb.
func (veiled) Format(f fmt.State, _ rune) { _, _ = io.WriteString(f, veiledWords) }

// LogValue says what it is.
func (veiled) LogValue() slog.Value { return slog.StringValue(veiledWords) }

// MarshalText says what it is; it cannot be read back. Package vault keeps the secret.
func (veiled) MarshalText() ([]byte, error) { return []byte(veiledWords), nil }

// MarshalJSON says what it is; it cannot be read back. Package vault keeps the secret.
func (veiled) MarshalJSON() ([]byte, error) { return []byte(`"` + veiledWords + `"`), nil }

// GobEncode refuses: a gob of a secret would be an empty promise.
func (veiled) GobEncode() ([]byte, error) { return nil, ErrSealed }
