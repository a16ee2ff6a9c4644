package backup

import (
	"errors"
	"math"

	"golang.org/x/sys/windows"
)

// free asks for what this person may still write.
func free(dir string) (int64, error) {
	path, err := windows.UTF16PtrFromString(dir)
	if err != nil {
		return 0, err
	}
	var mine, all, total uint64
	if err := windows.GetDiskFreeSpaceEx(path, &mine, &total, &all); err != nil {
		return 0, err
	}
	return int64(min(mine, math.MaxInt64)), nil
}

// otherDisk reports whether a link failed since its two names are on two disks.
func otherDisk(err error) bool { return errors.Is(err, windows.ERROR_NOT_SAME_DEVICE) }
