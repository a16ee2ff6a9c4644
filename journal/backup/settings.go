package backup

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"time"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"
)

// settings are how the backups of a journal are kept. They lie beside the records,
// not in them, so that putting a backup back does not change them.
type settings struct {
	Journal string    `json:"journal"` // names this journal among others in one backups folder
	Begun   time.Time `json:"begun"`   // since when backups are made
	Good    time.Time `json:"good,omitzero"`
	// Folder is the one of the baker's choice; empty for the journal's own.
	Folder string         `json:"folder,omitzero"`
	Rest   jsontext.Value `json:",embed"`
}

// settingsName is the file that holds the settings, in the journal's folder.
const settingsName = "safekeeping.json"

// readSettings reads those of the journal in dir; none are no error. Settings that
// cannot be read are begun anew, since they must not keep a backup from being made.
func readSettings(dir string) (settings, error) {
	data, err := os.ReadFile(filepath.Join(dir, settingsName))
	if errors.Is(err, os.ErrNotExist) {
		return settings{}, nil
	}
	if err != nil {
		return settings{}, fmt.Errorf("reading how backups are kept: %w", err)
	}
	var s settings
	if err := json.Unmarshal(data, &s); err != nil {
		return settings{}, nil
	}
	return s, nil
}

// writeSettings replaces the settings in one step.
func writeSettings(fs FS, dir string, s settings) error {
	data, err := json.Marshal(s, jsontext.WithIndent("  "))
	if err != nil {
		return fmt.Errorf("writing how backups are kept: %w", err)
	}
	if err := writeWhole(fs, filepath.Join(dir, settingsName), data); err != nil {
		return fmt.Errorf("writing how backups are kept: %w", err)
	}
	return nil
}

// writeWhole writes a small file beside its place and puts it there when it is on
// the disk.
func writeWhole(fs FS, path string, data []byte) error {
	return place(fs, path, func(w io.Writer) error {
		_, err := w.Write(data)
		return err
	})
}

// place has write make a file that appears at path whole, and lasts, or not at all.
func place(fs FS, path string, write func(io.Writer) error) error {
	dir := filepath.Dir(path)
	f, err := fs.CreateTemp(dir, partPrefix+"*")
	if err != nil {
		return err
	}
	err = write(f)
	if err == nil {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close()); err == nil {
		err = fs.Rename(f.Name(), path)
	}
	if err != nil {
		_ = fs.Remove(f.Name()) // what stays behind is deleted with other unfinished work
		return err
	}
	return fs.SyncDir(dir)
}
