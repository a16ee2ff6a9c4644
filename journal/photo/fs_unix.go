//go:build !windows

package photo

import (
	"errors"
	"os"
	"syscall"
)

// syncDir passes over a file system that cannot sync a folder, as some network
// shares cannot: a journal there is as safe as the share is.
func syncDir(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	err = d.Sync()
	if errors.Is(err, syscall.EINVAL) || errors.Is(err, syscall.ENOTSUP) {
		err = nil
	}
	return errors.Join(err, d.Close())
}
