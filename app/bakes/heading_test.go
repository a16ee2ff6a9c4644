package bakes

import (
	"testing"

	"twinloaf/journal"
)

// A bake that is read has its name and its score in its heading, and asks where there is none.
func TestTheHeadingOfABakeThatIsRead(t *testing.T) {
	b := &journal.Bake{Name: "Ferry loaf"}
	if got, want := readHeading(b), "Ferry loaf: how did it come out?"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	b.Outcome.Scores = []journal.AttributeScore{{Attribute: "crust", Score: 8}, {Attribute: journal.Overall, Score: 6}}
	if got, want := readHeading(b), "Ferry loaf: 6 out of 9"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}
