package photo

import (
	"errors"
	"syscall"
)

// syncDir has nothing to do: Windows offers no sync of a folder, and NTFS writes
// names to its own log.
func syncDir(string) error { return nil }

// NoSpace reports whether the disk is full.
func NoSpace(err error) bool {
	const (
		errorHandleDiskFull = syscall.Errno(39)
		errorDiskFull       = syscall.Errno(112)
	)
	return errors.Is(err, errorDiskFull) || errors.Is(err, errorHandleDiskFull)
}
