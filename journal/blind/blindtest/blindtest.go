// Package blindtest draws tastings for tests, which may see what a taster may not.
package blindtest

import (
	"io"
	"testing"

	"twinloaf/journal/blind"
)

// Seal draws a tasting, reads its card and seals it.
func Seal(t testing.TB, p blind.Plan, random io.Reader) (blind.Sealed, blind.Setting, []blind.CardLine) {
	t.Helper()
	draft, err := blind.Draw(p, random)
	if err != nil {
		t.Fatal(err)
	}
	card, err := draft.Card()
	if err != nil {
		t.Fatal(err)
	}
	lines, err := card.Lines()
	if err != nil {
		t.Fatal(err)
	}
	sealed, setting, err := draft.Seal()
	if err != nil {
		t.Fatal(err)
	}
	return sealed, setting, lines
}
