package cultures

import (
	"twinloaf/journal"
	"twinloaf/journal/histories"
)

// A relative is a culture in its place in the family: children follow their parent.
type relative struct {
	life  *histories.CultureHistory
	depth int // 0 for one that was split from none that is still here
}

// familyOrder puts cultures in the order of the list: the living before the ended,
// each followed by those that were split from it.
func familyOrder(all []*histories.CultureHistory) []relative {
	here := map[journal.ID]bool{}
	for _, l := range all {
		here[l.Culture.ID] = true
	}
	var out []relative
	seen := map[journal.ID]bool{}
	var add func(l *histories.CultureHistory, depth int)
	add = func(l *histories.CultureHistory, depth int) {
		if seen[l.Culture.ID] { // a ring of parents cannot be, but would never end
			return
		}
		seen[l.Culture.ID] = true
		out = append(out, relative{l, depth})
		for _, child := range all {
			if child.Culture.Parent == l.Culture.ID {
				add(child, depth+1)
			}
		}
	}
	for _, ended := range []bool{false, true} {
		for _, l := range all {
			root := l.Culture.Parent == "" || !here[l.Culture.Parent]
			if root && l.Culture.Ended.IsZero() != ended {
				add(l, 0)
			}
		}
	}
	for _, l := range all { // what is left lies on a ring
		add(l, 0)
	}
	return out
}
