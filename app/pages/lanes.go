package pages

import (
	"cmp"
	"slices"

	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/journal"
	"twinloaf/journal/plan"
)

// LaneOf gives a bake's day as it happened, as blocks of a lane: each step that has a
// beginning and an end, its turns as ticks. What was left out is not in it.
func LaneOf(name string, b *journal.Bake) kit.Lane {
	l := kit.Lane{Name: name}
	for _, s := range b.Steps {
		if s.Skipped || s.At.IsZero() || !s.End.After(s.At) {
			continue
		}
		words := cmp.Or(s.Name, StepWord(plan.Kind(s.Kind)))
		l.Blocks = append(l.Blocks, kit.LaneBlock{From: s.At, To: s.End, Color: StepColor(plan.Kind(s.Kind)), Words: words, Ticks: s.Done})
	}
	slices.SortStableFunc(l.Blocks, func(a, b kit.LaneBlock) int { return a.From.Compare(b.From) })
	return l
}

// StepColor is the colour of a step in a dough's lane, wherever it is drawn: it tells
// cold from warm, and the oven from both.
func StepColor(k plan.Kind) fyne.ThemeColorName {
	switch k {
	case plan.ColdRest:
		return look.ColorRest
	case plan.BakeCovered, plan.BakeUncovered:
		return look.ColorCrust
	}
	return look.ColorDough
}

// MainPhoto is the photo that says most of a bake: the crumb, or else the crust, or the
// first there is; nil without any.
func MainPhoto(photos []*journal.Photo) *journal.Photo {
	for _, role := range []journal.Role{journal.RoleCrumb, journal.RoleCrust} {
		if i := slices.IndexFunc(photos, func(ph *journal.Photo) bool { return ph.Role == role }); i >= 0 {
			return photos[i]
		}
	}
	if len(photos) > 0 {
		return photos[0]
	}
	return nil
}
