package pages

import (
	"fyne.io/fyne/v2/lang"

	"twinloaf/journal/shelf"
)

// SeasonWord names a quarter by its months, which are the same in both hemispheres.
func SeasonWord(s shelf.Season) string {
	switch s {
	case 3:
		return lang.L("March to May")
	case 6:
		return lang.L("June to August")
	case 9:
		return lang.L("September to November")
	}
	return lang.L("December to February")
}
