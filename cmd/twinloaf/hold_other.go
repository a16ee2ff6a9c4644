//go:build !unix

package main

import (
	"errors"
	"os"
)

// hold opens a file until it is closed, or the process ends. It fails at once when another
// process holds it: here a file that is open cannot be taken away.
func hold(path string, flag int) (*os.File, error) {
	if flag&os.O_CREATE == 0 {
		if err := os.Remove(path); err != nil {
			return nil, err
		}
		return os.Open(os.DevNull)
	}
	f, err := os.OpenFile(path, os.O_RDWR|flag|os.O_EXCL, 0o600)
	if errors.Is(err, os.ErrExist) {
		return nil, os.ErrExist
	}
	return f, err
}
