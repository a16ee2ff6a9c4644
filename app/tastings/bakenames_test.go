package tastings

import (
	"slices"
	"strings"
	"testing"
	"time"

	"twinloaf/journal"
	"twinloaf/journal/measure"
)

// Of two loaves of one formula and one day each can be chosen by its name.
func TestNoTwoBakesAreCalledAlike(t *testing.T) {
	now := time.Date(2026, 3, 4, 18, 0, 0, 0, time.UTC)
	at := func(day, hour, minute int) time.Time { return time.Date(2026, 3, day, hour, minute, 0, 0, time.UTC) }
	names, whens := bakeNames([]*journal.BakeSummary{
		{Name: "Ferry loaf", At: at(3, 9, 0), State: journal.Finished},
		{Name: "Ferry loaf", At: at(3, 9, 30), State: journal.Finished},
		{Name: "Ferry loaf", At: at(3, 9, 30), State: journal.Running},
		{Name: "Ferry loaf", At: at(1, 9, 0), State: journal.Finished},
		{At: at(3, 9, 0), State: journal.Planned},
	}, measure.Units{}, now)
	want := []string{"Ferry loaf · 3 Mar 09:00", "Ferry loaf · 3 Mar 09:30", "Ferry loaf · 3 Mar 09:30 (2) · under way", "Ferry loaf · 1 Mar", "a bake · 3 Mar · planned"}
	for i, name := range names {
		name = strings.ReplaceAll(name, "\u00a0", " ")
		if when := strings.ReplaceAll(whens[i], "\u00a0", " "); name != want[i] || !strings.Contains(name, " · "+when) {
			t.Errorf("%q, %q; want %q", name, when, want[i])
		}
	}
	if slices.Sort(names); len(slices.Compact(names)) != 5 {
		t.Errorf("%q", names)
	}
}
