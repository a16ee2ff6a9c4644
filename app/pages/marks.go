package pages

import "fyne.io/fyne/v2/lang"

// BowlMarks are drawn on the bowls of a trial: forms that a pen or a strip of tape
// makes.
func BowlMarks() []string {
	return []string{lang.L("ring"), lang.L("cross"), lang.L("bar"), lang.L("wave")}
}
