package photo

import (
	"io"
	"os"
)

// FS is what storing a photo asks of the file system, one method per step, so
// that a test can make any step fail. [Disk] is the real one.
type FS interface {
	// MkdirAll makes a folder and those above it.
	MkdirAll(dir string) error
	// CreateTemp makes a new file in dir; pattern is as in [os.CreateTemp].
	CreateTemp(dir, pattern string) (TempFile, error)
	// Rename gives a file its final name in one step, replacing what was there.
	Rename(from, to string) error
	// Open opens a file to be read.
	Open(path string) (io.ReadSeekCloser, error)
	// Remove deletes a file.
	Remove(path string) error
	// SyncDir makes the names in a folder last through a power failure.
	SyncDir(dir string) error
}

// TempFile is a file being written that does not have its final name yet.
type TempFile interface {
	io.Writer
	io.Closer
	// Name is the file's whole path.
	Name() string
	// Sync makes the content last through a power failure.
	Sync() error
}

// Disk is the file system of the machine.
type Disk struct{}

// MkdirAll implements [FS].
func (Disk) MkdirAll(dir string) error { return os.MkdirAll(dir, 0o755) }

// CreateTemp implements [FS].
func (Disk) CreateTemp(dir, pattern string) (TempFile, error) {
	f, err := os.CreateTemp(dir, pattern)
	if err != nil {
		return nil, err
	}
	return f, nil
}

// Rename implements [FS].
func (Disk) Rename(from, to string) error { return os.Rename(from, to) }

// Open implements [FS].
func (Disk) Open(path string) (io.ReadSeekCloser, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	return f, nil
}

// Remove implements [FS].
func (Disk) Remove(path string) error { return os.Remove(path) }

// SyncDir implements [FS].
func (Disk) SyncDir(dir string) error { return syncDir(dir) }
