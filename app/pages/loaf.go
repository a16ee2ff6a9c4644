package pages

import (
	"slices"
	"strings"

	"twinloaf/app/kit"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/shelf"
)

// LoafTone is how dark a loaf is drawn that has no photo: the darker the more of its
// flour is rye or whole grain. It tells bakes apart, so it has no place where loaves
// are hidden.
func LoafTone(c *journal.BakeSummary) kit.LoafTone {
	dark := 0.0
	if whole := c.Metric(shelf.Wholegrain); whole > 0 {
		dark = whole / 2
	}
	for _, f := range c.Flours {
		if isRye(f) {
			dark += float64(f.Share) / 2
		}
	}
	switch {
	case dark < 6:
		return kit.PaleLoaf
	case dark < 20:
		return kit.GoldenLoaf
	case dark < 45:
		return kit.BrownLoaf
	}
	return kit.DarkLoaf
}

// isRye goes by the grain and the flour's name, as far as they tell.
func isRye(f journal.SummaryFlour) bool {
	return slices.Contains(formula.FindAllergens(strings.TrimSpace(f.Name+" "+f.Grain)).Allergens, formula.Rye)
}
