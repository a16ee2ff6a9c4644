package backup

import (
	"slices"
	"time"
)

// How many backups stay of those that are made by themselves.
const (
	keptDays   = 7
	keptWeeks  = 4
	keptMonths = 12
	// keptWhole is how long every backup stays.
	keptWhole = 24 * time.Hour
)

// Kept tells which of the backups made at these times stay at a later time now: all
// of the last 24 hours; the last one of each of the last seven days, four weeks and
// twelve months that have one. Days, weeks from Monday (ISO 8601) and months are
// those of now's zone. One that is dated later than now stays and counts for
// nothing: a clock that was wrong for a day pushes none out.
func Kept(made []time.Time, now time.Time) []bool {
	kept := make([]bool, len(made))
	var order []int // the latest first
	for i, t := range made {
		if t.After(now) {
			kept[i] = true
			continue
		}
		order = append(order, i)
	}
	slices.SortStableFunc(order, func(a, b int) int { return made[b].Compare(made[a]) })
	for _, i := range order {
		if now.Sub(made[i]) < keptWhole {
			kept[i] = true
		}
	}
	for _, rule := range []struct {
		most int
		span func(time.Time) [2]int
	}{
		{keptDays, func(t time.Time) [2]int { return [2]int{t.Year(), t.YearDay()} }},
		{keptWeeks, func(t time.Time) [2]int { y, w := t.ISOWeek(); return [2]int{y, w} }},
		{keptMonths, func(t time.Time) [2]int { return [2]int{t.Year(), int(t.Month())} }},
	} {
		seen := map[[2]int]bool{}
		for _, i := range order {
			span := rule.span(made[i].In(now.Location()))
			if seen[span] {
				continue
			}
			if len(seen) == rule.most {
				break
			}
			seen[span], kept[i] = true, true
		}
	}
	return kept
}

// due reports whether a backup is to be made at now, when the last good one is of
// another day of now's zone, or of a time to come.
func due(last, now time.Time) bool {
	if last.IsZero() || last.After(now) {
		return true
	}
	y, m, d := last.In(now.Location()).Date()
	ny, nm, nd := now.Date()
	return y != ny || m != nm || d != nd
}
