package bakeday

import (
	"testing"

	"twinloaf/app/pages"
	"twinloaf/journal"
)

// What is planned or under way lies behind the door of today, a day that is over behind that
// of the bakes.
func TestADayThatIsOverLiesBehindTheBakes(t *testing.T) {
	for state, want := range map[journal.BakeState]string{journal.Planned: pages.BakeDay, journal.Running: pages.BakeDay, journal.Finished: pages.Bake} {
		if got := (&page{state: state}).Behind(); got != want {
			t.Errorf("a bake that is %v lies behind %q, want %q", state, got, want)
		}
	}
}
