package backup

import (
	"os"

	"golang.org/x/sys/unix"
)

// uncached asks that what is read next of a synced file comes from the disk, not
// from memory. It is a wish: where it is not granted, memory is read.
func uncached(f *os.File) { _ = unix.Fadvise(int(f.Fd()), 0, 0, unix.FADV_DONTNEED) }
