package kit_test

import (
	"testing"
	"time"

	"twinloaf/app/kit"
	"twinloaf/journal/measure"
)

// What is due says so in plain words; a whole minute late it says first by how much.
func TestDueSaysByHowMuchItIsOverdue(t *testing.T) {
	now := time.Date(2026, 3, 4, 9, 0, 0, 0, time.UTC)
	d := kit.NewDue(0)
	for _, tt := range []struct {
		by   time.Time
		late bool
		want string
	}{
		{time.Time{}, false, "feed it"},
		{now.Add(time.Hour), false, "feed it"},
		{now, false, "feed it"},
		{now.Add(-59 * time.Second), false, "feed it"},
		{now.Add(-time.Minute), true, "overdue by 1\u00a0min feed it"},
		{now.Add(-150*time.Minute - 30*time.Second), true, "overdue by 2\u00a0h 30\u00a0min feed it"},
		{now.AddDate(0, 0, -3), true, "overdue by 3 days feed it"},
	} {
		d.Set("feed it", tt.by, now, measure.Units{})
		if d.Late() != tt.late || kit.Overdue(tt.by, now) != tt.late || d.String() != tt.want {
			t.Errorf("due %v: it says %q, late %v", tt.by, d.String(), d.Late())
		}
	}
}
