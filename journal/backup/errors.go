package backup

import (
	"errors"
	"fmt"

	"twinloaf/journal/say"
)

// Errors of backups.
var (
	ErrDamaged  = say.NewError("the backup is damaged")
	ErrNewer    = say.NewError("a newer version of Twinloaf made that backup")
	ErrUnlisted = say.NewError("it is not known which pictures the backup needs")
	// ErrGone means that the folder of the baker's choice is not there, as when
	// its disk is unplugged.
	ErrGone = errors.New("the backups folder is not there")
	// ErrNoRoom means that the disk of the backups is too full.
	ErrNoRoom = errors.New("there is too little room for a backup")
)

// gone tells that a folder is not there.
func gone(dir string) error {
	return &say.Error{Said: say.Of("the backups folder {{.Folder}} is not there", say.With{"Folder": dir}), Err: ErrGone}
}

// noRoom tells how much room is needed and left, in bytes.
func noRoom(dir string, need, left int64) error {
	return &say.Error{Said: say.Of("the disk of {{.Folder}} has {{.Left}} MB left and a backup needs {{.Need}} MB", say.With{
		"Folder": dir, "Left": left / 1e6, "Need": need/1e6 + 1,
	}), Err: ErrNoRoom}
}

// failed words the failure of a step in the folder dir.
func failed(dir string, err error) error {
	if err == nil {
		return nil
	}
	if _, said := say.OfError(err); said {
		return fmt.Errorf("backing up to %s: %w", dir, err)
	}
	t := say.TroubleOf(err)
	switch t {
	case say.NoTrouble:
		return fmt.Errorf("backing up to %s: %w", dir, err)
	case say.DiskFull:
		err = errors.Join(ErrNoRoom, err)
	case say.Disconnected:
		err = errors.Join(ErrGone, err)
	}
	return &say.Error{Said: say.Of("the backups folder {{.Folder}} cannot be used: {{.Why}}", say.With{"Folder": dir, "Why": t.Line()}), Err: err}
}
