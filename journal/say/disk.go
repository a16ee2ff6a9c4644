package say

import (
	"errors"
	"io/fs"
	"strings"
	"syscall"
)

// A Trouble is what can be wrong with a disk or a file on it, as the operating
// system tells it.
type Trouble int

// The troubles; the zero Trouble is none that is known.
const (
	NoTrouble Trouble = iota
	DiskFull
	ReadOnly     // the disk can be read and not be written to
	DiskFault    // it answered a reading or a writing with an error
	Disconnected // it is no longer there
	TooLong      // a file may not grow so long here
	NotAllowed
	NotThere
	InUse // another program keeps the file to itself
)

// TroubleOf tells what trouble an error is about. Some libraries keep only the
// words of the system's error: those are looked for too.
func TroubleOf(err error) Trouble {
	if err == nil {
		return NoTrouble
	}
	for _, known := range troubles {
		if errors.Is(err, known.err) {
			return known.trouble
		}
	}
	switch {
	case errors.Is(err, fs.ErrPermission):
		return NotAllowed
	case errors.Is(err, fs.ErrNotExist):
		return NotThere
	}
	said := err.Error()
	for _, known := range troubles {
		if strings.HasSuffix(said, known.err.Error()) {
			return known.trouble
		}
	}
	return NoTrouble
}

// Line says the trouble; the zero Line for none.
func (t Trouble) Line() Line { return troubleWords[t] }

var troubleWords = map[Trouble]Line{
	DiskFull:     Of("the disk is full"),
	ReadOnly:     Of("the disk can be read, but nothing can be written to it"),
	DiskFault:    Of("the disk reported a fault"),
	Disconnected: Of("the disk is no longer connected"),
	TooLong:      Of("the file may not grow any longer on this disk"),
	NotAllowed:   Of("there is no permission to read or write that"),
	NotThere:     Of("that file or folder is not there"),
	InUse:        Of("another program is using the file"),
}

// told is an error of the system and the trouble that it means.
type told struct {
	err     syscall.Errno
	trouble Trouble
}
