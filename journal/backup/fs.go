package backup

import (
	"os"

	"twinloaf/journal/photo"
)

// FS is what keeping backups asks of the file system beside reading, one method per
// step, so that a test can make any step fail. disk is the real one.
type FS interface {
	photo.FS
	// Link gives a file a second name.
	Link(from, to string) error
	// RemoveAll deletes a folder with what is in it.
	RemoveAll(dir string) error
	// Free is how many bytes can still be written to the disk of a folder.
	Free(dir string) (int64, error)
}

// disk is the file system of the machine.
type disk struct{ photo.Disk }

// Link implements [FS].
func (disk) Link(from, to string) error { return os.Link(from, to) }

// RemoveAll implements [FS].
func (disk) RemoveAll(dir string) error { return os.RemoveAll(dir) }

// Free implements [FS].
func (disk) Free(dir string) (int64, error) { return free(dir) }
