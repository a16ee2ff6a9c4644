//go:build unix

package store

import (
	"errors"
	"os"
	"time"

	"golang.org/x/sys/unix"
)

// lockFile holds off other programs, as bbolt does: those that write and, when
// alone, those that read, too. Closing the file lets go of it.
func lockFile(f *os.File, alone bool) error {
	how := unix.LOCK_SH
	if alone {
		how = unix.LOCK_EX
	}
	for end := time.Now().Add(lockTimeout); ; time.Sleep(lockTimeout / 10) {
		err := unix.Flock(int(f.Fd()), how|unix.LOCK_NB)
		switch {
		case err == nil:
			return nil
		case !errors.Is(err, unix.EWOULDBLOCK):
			return nil // a file system without locks
		case time.Now().After(end):
			return ErrInUse
		}
	}
}

// unlockFile lets go of what bbolt holds off other programs with.
func unlockFile(f *os.File) { _ = unix.Flock(int(f.Fd()), unix.LOCK_UN) }
