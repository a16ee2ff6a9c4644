package help

import (
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/pages"
)

// For gives the sentences that help on the page of a name: what to do there first, and what
// its figures mean. None for a page that has none.
func For(page string) []string {
	switch page {
	case pages.Today:
		return []string{begin(), lang.L("Today shows what needs you next: the dough under way, cultures to feed, tastings to score.")}
	case pages.Cultures, pages.Culture, pages.Feeding, pages.History:
		return []string{
			lang.L("Begin with New culture: name, flour and water. Feed it with F, and read its height a few hours later with R."),
			lang.L("Rise is the height over the mark made right after feeding: 2 is doubled. Ripe is above 90 % of its greatest rise."),
		}
	case pages.Series:
		return []string{
			lang.L("Drag the lines on the first picture: the bottom of the jar, the level at the start, and as high as can be seen, between its two sides. Then drag the surface wherever it was read wrongly."),
			lang.L("Stand the camera still and level with the jar, with the same light all along, and nothing before it. Leave the lid loose: a jar that ferments must not be sealed."),
		}
	case pages.Bakes, pages.Bake:
		return []string{
			lang.L("Write down the dough line by line: a name, then a weight. Percentages and hydration follow from the weights."),
			lang.L("After the bake, add weights, photos and a score. What you leave empty is never guessed."),
		}
	case pages.Formulas, pages.Formula:
		return []string{lang.L("A formula is a dough and its day. Bakes keep the version they were made by; change it, and a new version begins.")}
	case pages.BakeDay:
		return []string{lang.L("Give the time the bread should be ready, or when you begin. Steps with room to move shift around your sleep.")}
	case pages.Tastings, pages.Tasting, pages.Trial:
		return []string{
			lang.L("To taste two loaves blind: bake a fair pair, plan a tasting, have a helper set out plates by the card, seal, then score."),
			lang.L("p says how often guessing alone would do as well. Up to the risk you chose, a difference is shown."),
		}
	case pages.Shelf, pages.Compare, pages.Flour, pages.Findings:
		return []string{lang.L("Narrow the shelf at the left, select two to four loaves with Space, and compare them with C.")}
	case pages.Crumb, pages.Photo:
		return []string{lang.L("Mark the slice, and a length you know. Every figure says what it means when you point at it.")}
	case pages.Bin:
		return []string{lang.L("What you delete waits here. Restore puts it back where it was.")}
	case pages.Settings:
		return []string{lang.L("Each choice counts at once. Where nothing is chosen, Twinloaf does as this computer does.")}
	case pages.Safekeeping, pages.BringIn:
		return []string{lang.L("Backups are made once a day while Twinloaf is open. An archive takes the journal, or a part of it, to another computer.")}
	case pages.Help, pages.About:
		return []string{lang.L("F1 on any page tells what can be done there, and by which keys.")}
	}
	return nil
}

// begin answers the first question of a new baker.
func begin() string {
	return lang.L("Begin a culture from flour and water, or write down a bake. Nothing has to be saved.")
}
