package blind_test

import (
	"bytes"
	"encoding/gob"
	"encoding/json"
	"errors"
	"fmt"
	"log/slog"
	"testing"

	"twinloaf/journal/blind"
)

func TestWhatHoldsTheSecretSaysAFewWords(t *testing.T) {
	for _, v := range []any{blind.Card{}, blind.Draft{}, &blind.Draft{}, blind.Sealed{}} {
		for _, verb := range []string{"%v", "%+v", "%#v", "%s", "%q", "%x", "%d"} {
			if got := fmt.Sprintf(verb, v); got != "secret of a tasting" {
				t.Errorf("%T by %s: %q", v, verb, got)
			}
		}
		if got, err := json.Marshal(v); err != nil || string(got) != `"secret of a tasting"` {
			t.Errorf("%T as JSON: %s, %v", v, got, err)
		}
		if got := slog.AnyValue(v).Resolve().String(); got != "secret of a tasting" {
			t.Errorf("%T in a log: %q", v, got)
		}
		if err := gob.NewEncoder(&bytes.Buffer{}).Encode(v); !errors.Is(err, blind.ErrSealed) {
			t.Errorf("%T as a gob: %v", v, err)
		}
	}
}
