package shelf

import (
	"cmp"
	"slices"
	"strings"
)

// A Choice is one thing that a filter can ask for, and how many rows would be
// left if it did.
type Choice struct {
	Key    string
	N      int // what would be left
	Chosen bool
}

// Counts are the choices beside a filter. Where all chosen things must hold
// (flours, add-ins), N counts the rows seen now that have it too; where any may
// hold (the others), it counts the rows that it would bring, whatever else of
// its kind is chosen.
type Counts struct {
	Flours, AddIns, Cultures, Trials []Choice // the most first
	Seasons                          map[Season]int
	With, Crumb, Without             int // photos
}

// Counts counts every choice.
func (l *View) Counts(f Filter) Counts {
	s := l.shelf
	var out Counts
	out.Flours = counted(s.flours, func(key string) bool { return f.Flour(key) != nil }, func(list []posting) int {
		n := 0
		for _, p := range list {
			if p.share > 0 && l.all.has(int(p.row)) {
				n++
			}
		}
		return n
	})
	out.AddIns = counted(s.addIns, func(key string) bool { return slices.Contains(f.AddIns, key) }, func(list []int32) int {
		n := 0
		for _, i := range list {
			if l.all.has(int(i)) {
				n++
			}
		}
		return n
	})
	cultures, trials := map[string]int{}, map[string]int{}
	s.except(l.parts, byCulture).each(func(i int) { cultures[s.rows[i].Culture]++ })
	s.except(l.parts, byTrial).each(func(i int) { trials[s.rows[i].Trial]++ })
	out.Cultures = tallied(cultures, f.Cultures)
	out.Trials = tallied(trials, f.Trials)
	out.Seasons = map[Season]int{}
	s.except(l.parts, bySeason).each(func(i int) { out.Seasons[SeasonOf(s.rows[i].At)]++ })
	s.except(l.parts, byPhotos).each(func(i int) {
		r := &s.rows[i]
		switch {
		case r.Photos > 0:
			out.With++
		default:
			out.Without++
		}
		if r.Crumb {
			out.Crumb++
		}
	})
	return out
}

func counted[P any](lists map[string][]P, chosen func(string) bool, count func([]P) int) []Choice {
	var out []Choice
	for key, list := range lists {
		out = append(out, Choice{Key: key, N: count(list), Chosen: chosen(key)})
	}
	return inOrder(out)
}

// tallied makes choices of counts; those chosen are there even when nothing is
// left of them.
func tallied(counts map[string]int, chosen []string) []Choice {
	delete(counts, "")
	for _, key := range chosen {
		counts[key] += 0
	}
	var out []Choice
	for key, n := range counts {
		if key != AnyTrial {
			out = append(out, Choice{Key: key, N: n, Chosen: slices.Contains(chosen, key)})
		}
	}
	return inOrder(out)
}

// inOrder leaves out what nobody chose and nothing is left of, and puts the
// chosen first, then the most.
func inOrder(choices []Choice) []Choice {
	choices = slices.DeleteFunc(choices, func(c Choice) bool { return c.N == 0 && !c.Chosen })
	slices.SortFunc(choices, func(a, b Choice) int {
		if a.Chosen != b.Chosen {
			if a.Chosen {
				return -1
			}
			return 1
		}
		return cmp.Or(b.N-a.N, strings.Compare(a.Key, b.Key))
	})
	return choices
}
