package journal

import (
	"twinloaf/journal/say"
	"twinloaf/journal/store"
)

// Errors of a journal. They are wrapped with what they are about.
var (
	// ErrInUse, ErrNotJournal, ErrNewer and ErrDamaged tell why a journal was not
	// opened, and the latter two why a record was not read.
	ErrInUse      = store.ErrInUse
	ErrNotJournal = store.ErrNotJournal
	ErrNewer      = store.ErrNewer
	ErrDamaged    = store.ErrDamaged
	// ErrNotFound is wrapped when a record is asked for that is not there.
	ErrNotFound = say.NewError("that is no longer in the journal")
	// ErrClosed is wrapped when a closed journal is asked to change.
	ErrClosed = say.NewError("the journal is closed")
	// ErrNothingToUndo, ErrNothingToRedo and ErrMovedOn tell why a step of the
	// history was not taken.
	ErrNothingToUndo = store.ErrNothingToUndo
	ErrNothingToRedo = store.ErrNothingToRedo
	ErrMovedOn       = store.ErrMovedOn
)
