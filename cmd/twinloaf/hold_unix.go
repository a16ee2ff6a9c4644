//go:build unix

package main

import (
	"errors"
	"os"

	"golang.org/x/sys/unix"
)

// hold opens a plain file and holds it alone until it is closed, or the process ends. It
// fails at once when another process holds it, or has taken it away meanwhile.
func hold(path string, flag int) (*os.File, error) {
	f, err := os.OpenFile(path, os.O_RDWR|unix.O_NOFOLLOW|unix.O_NONBLOCK|flag, 0o600)
	if err != nil {
		return nil, err
	}
	err = unix.Flock(int(f.Fd()), unix.LOCK_EX|unix.LOCK_NB)
	if err == nil {
		var mine, there os.FileInfo
		if mine, err = f.Stat(); err == nil {
			if there, err = os.Lstat(path); err == nil && !os.SameFile(mine, there) {
				err = os.ErrNotExist
			}
		}
	}
	if err != nil {
		return nil, errors.Join(err, f.Close())
	}
	return f, nil
}
