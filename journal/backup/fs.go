package backup

import (
	"os"

	"twinloaf/journal/photo"
)

// FS is what keeping backups asks of the file system beside reading, one method per
// step, so that a test can make any step fail. [Disk] is the real one.
type FS interface {
	photo.FS
	// Link gives a file a second name.
	Link(from, to string) error
	// RemoveAll deletes a folder with what is in it.
	RemoveAll(dir string) error
	// Free is how many bytes can still be written to the disk of a folder.
	Free(dir string) (int64, error)
}

// Disk is the file system of the machine.
type Disk struct{ photo.Disk }

// Link implements [FS].
func (Disk) Link(from, to string) error { return os.Link(from, to) }

// RemoveAll implements [FS].
func (Disk) RemoveAll(dir string) error { return os.RemoveAll(dir) }

// Free implements [FS].
func (Disk) Free(dir string) (int64, error) { return free(dir) }
