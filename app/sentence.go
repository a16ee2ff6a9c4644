package app

import (
	"errors"

	"fyne.io/fyne/v2/lang"

	"twinloaf/journal"
	"twinloaf/journal/measure"
)

// Refusal words for the baker why a journal was not opened.
func Refusal(err error) string {
	switch {
	case errors.Is(err, journal.ErrInUse):
		return lang.L("This journal is open in another window of Twinloaf already. Nothing was changed.")
	case errors.Is(err, journal.ErrNotJournal):
		return lang.L("The file in this folder is not a Twinloaf journal. It was left untouched.")
	case errors.Is(err, journal.ErrNewer):
		return lang.L("A newer version of Twinloaf wrote this journal. It was left untouched; please use the newer version.")
	case errors.Is(err, journal.ErrDamaged):
		return lang.L("Nothing in this journal can be read any more. The file was left untouched. One of its backups, or a copy on another disk, may still be sound.")
	}
	return measure.Units{}.ErrorText(err)
}
