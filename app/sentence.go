package app

import (
	"errors"
	"unicode"
	"unicode/utf8"

	"fyne.io/fyne/v2/lang"

	"twinloaf/journal"
)

// sentence words an error for the baker: what happened, what was kept, what to do.
func sentence(err error) string {
	switch {
	case errors.Is(err, journal.ErrMovedOn):
		return lang.L("That can no longer be undone: the record has moved on since. Nothing was changed.")
	case errors.Is(err, journal.ErrNewer):
		return lang.L("A newer version of Twinloaf wrote that. It was left untouched; please use the newer version.")
	case errors.Is(err, journal.ErrNotFound):
		return lang.L("That is no longer in the journal.")
	}
	s := err.Error()
	r, n := utf8.DecodeRuneInString(s)
	s = string(unicode.ToUpper(r)) + s[n:]
	if last := s[len(s)-1]; last != '.' && last != '!' && last != '?' {
		s += "."
	}
	return s
}

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
		return lang.L("This journal is damaged and was not opened. The file was left untouched. If there is a copy in its backups folder or on another disk, that may still be sound.")
	}
	return sentence(err)
}
