package bakeday

import (
	"testing"

	"twinloaf/app/pages"
	"twinloaf/journal"
)

// A day under way lies behind the door of today; a plan, and a day that is over, lie behind that
// of the bakes.
func TestOnlyADayUnderWayLiesBehindToday(t *testing.T) {
	for state, want := range map[journal.BakeState]string{journal.Planned: pages.Bake, journal.Running: pages.BakeDay, journal.Finished: pages.Bake} {
		if got := (&page{state: state}).Behind(); got != want {
			t.Errorf("a bake that is %v lies behind %q, want %q", state, got, want)
		}
	}
}
