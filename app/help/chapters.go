package help

import (
	"slices"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/dough"
	"twinloaf/app/pages"
	"twinloaf/journal/ferment"
	"twinloaf/journal/measure"
)

// A chapter is a title and its sentences.
type chapter struct {
	title     string
	sentences []string
}

// chapters are the text of the help, the cautions first.
func chapters(u measure.Units) []chapter {
	return []chapter{
		{lang.L("Be careful"), []string{
			u.Say(ferment.RawFlour()),
			lang.L("Mould of any colour, pink or orange streaks: throw the culture away, jar and all if in doubt. Grey liquid on top alone is a sign of hunger (common practice)."),
			lang.L("Never seal a fermenting culture in glass: gas builds up. Lay the lid on loosely (common practice, no source)."),
			lang.L("A culture proving in the oven with its light on: mark the oven, before someone heats it (common practice, no source)."),
			lang.L("A lidded pot out of a hot oven lets out steam, and its iron stays hot for long: dry gloves, and open it away from you (common practice, no source)."),
			lang.L("Boiling water can crack cold glass: warm a jar before you scald it (common practice, no source)."),
			lang.L("Sodium hydroxide burns skin and eyes from a strength of 2 % (Regulation (EC) 1272/2008, Annex VI); 0.1 M has 0.4 %, and is made from stronger. Wear gloves and goggles, and keep it away from children."),
			lang.L("Keep the refrigerator at or below 40 °F, that is 4 °C (FoodSafety.gov); the United Kingdom advises 5 °C or below (Food Standards Agency). Bake golden rather than dark: acrylamide (EU 2017/2158)."),
			lang.L("Allergens are always shown, in a blind tasting too. What Twinloaf reads from names is a help, not a guarantee: read the label."),
			dough.Coeliac(),
			lang.L("Local food law and professional advice come before anything written here."),
		}},
		{lang.L("How do I begin?"), slices.Concat(For(pages.Today)[:1], For(pages.Cultures)[:1], For(pages.Bakes))},
		{lang.L("How do I taste two loaves blind?"), For(pages.Tastings)},
		{lang.L("Baker's percentages"), []string{
			lang.L("Weights are given in percent of all the flour in the dough: what is weighed for the final dough, what is weighed for its levains, and what the culture brings with it. Water is counted in the same way."),
			lang.L("A culture is flour and water in the proportion its hydration says; where nothing is said, half and half (100 %)."),
			lang.L("Many formulas in print leave the culture out of flour and water. Hydration is shown by that count too, and above a dough you can choose it for the percentages."),
			lang.L("Seeds and the water they are soaked in stay out of hydration, unless you say that the water counts."),
		}},
		{lang.L("Checking the seal of a tasting"), []string{
			lang.L("Photograph the fingerprint that the sealing shows and the one that is shown when the last answer is in, or print the filled score sheets, which bear both. After unsealing, save seal.txt and answers.txt and run sha256sum on each: if it prints those digits, neither plan nor answers were changed."),
			lang.L("A program on your own computer cannot keep out somebody who has a copy of the journal's folder and wants to look; with the key on the helper's paper it can."),
		}},
		{lang.L("Keeping and copying"), []string{
			lang.L("You never need to save: what you type is on disk within a second. Ctrl+Z undoes changes one by one, even after a restart."),
			lang.L("A journal is one folder. With Twinloaf closed it can be copied like any other."),
			lang.L("There is no password and no account: whoever can open that folder can read the journal. Nothing leaves this computer unless you save it elsewhere."),
			lang.L("While it is open, Twinloaf backs the journal up by itself once a day, with its pictures, within the journal's folder or into one that you choose under Safekeeping. There you also go back to a backup; the journal as it was is kept."),
			lang.L("In every language tables have commas between cells and points in numbers. Their headings are in English; what a chart names itself stays as it is there. Where numbers are written with a comma, use the spreadsheet's import for CSV and choose English for the numbers."),
			lang.L("In each backup, sha256sum -c SHA256SUMS checks the copy without Twinloaf."),
		}},
	}
}
