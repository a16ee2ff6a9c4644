//go:build !windows

package backup

import (
	"errors"
	"math"
	"os"

	"golang.org/x/sys/unix"
)

// free asks for what a person without special rights may still write.
func free(dir string) (int64, error) {
	var s unix.Statfs_t
	if err := unix.Statfs(dir, &s); err != nil {
		return 0, &os.PathError{Op: "statfs", Path: dir, Err: err}
	}
	blocks, size := uint64(s.Bavail), uint64(s.Bsize)
	if size > 0 && blocks > math.MaxInt64/size {
		return math.MaxInt64, nil
	}
	return int64(blocks * size), nil
}

// otherDisk reports whether a link failed since its two names are on two disks.
func otherDisk(err error) bool { return errors.Is(err, unix.EXDEV) }
