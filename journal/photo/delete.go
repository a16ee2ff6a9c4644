package photo

import (
	"errors"
	"os"
	"path/filepath"
)

// Delete takes a stored original away for good. One that is gone is no error.
func (f *Files) Delete(s Stored) error {
	f.mu.Lock()
	defer f.mu.Unlock()
	path := f.path(s.Hash, s.Format)
	if err := f.fs.Remove(path); err != nil && !errors.Is(err, os.ErrNotExist) {
		return refuseWrite(s.Hash.String(), err)
	}
	return f.fs.SyncDir(filepath.Dir(path))
}
