//go:build unix

package store

import (
	"os"

	"golang.org/x/sys/unix"
)

// mapFile gives the content of a file without reading it into memory first. It is valid
// until done is called; where the disk cannot read it the processor faults.
func mapFile(f *os.File) (data []byte, done func(), err error) {
	info, err := f.Stat()
	if err != nil {
		return nil, nil, err
	}
	if info.Size() == 0 {
		return nil, func() {}, nil
	}
	data, err = unix.Mmap(int(f.Fd()), 0, int(info.Size()), unix.PROT_READ, unix.MAP_SHARED)
	if err != nil {
		return nil, nil, err
	}
	_ = unix.Madvise(data, unix.MADV_WILLNEED) // it is only quicker so
	return data, func() { _ = unix.Munmap(data) }, nil
}
