package formulas

import (
	"strings"
	"testing"

	"twinloaf/journal"
)

// A new version does not say of its formula that it was never baked.
func TestTheHeadingOfAVersion(t *testing.T) {
	for _, c := range []struct {
		number, baked int
		want          string
	}{
		{1, 0, "Ferry loaf, not baked yet"}, {1, 2, "Ferry loaf, baked 2 times"},
		{3, 0, "Ferry loaf, version 3 not baked yet"}, {3, 1, "Ferry loaf, baked once"},
	} {
		if got := heading(&journal.Formula{Name: "Ferry loaf", Number: c.number}, c.baked); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// A version says that it is kept by how many bakes, and whether some are only planned; what
// is changed then becomes the version after the newest.
func TestWhatKeepsAVersion(t *testing.T) {
	versions := []*journal.Formula{{Number: 1}, {Number: 2}, {Number: 4}}
	for _, c := range []struct {
		followed, baked int
		says            string
	}{
		{0, 0, "No bake follows version 2 yet"},
		{1, 1, "Your changes become version 5."},
		{3, 3, "3 bakes follow version 2,"},
		{3, 2, "3 bakes, planned ones among them, follow version 2,"},
	} {
		if got := frozenWords(versions[1], c.followed, c.baked, versions); !strings.Contains(got, c.says) {
			t.Errorf("%d follow, %d baked: %q", c.followed, c.baked, got)
		}
	}
}
