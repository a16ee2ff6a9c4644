package journal

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"

	"twinloaf/journal/say"
)

// SaveCopy writes a copy of the journal as it reads now into a new folder below
// folder, and gives that: every record, with what was typed and is not on the disk
// yet, and every photo that is still in its place. It works while the journal's own
// file has lost its name.
func (j *Journal) SaveCopy(ctx context.Context, folder string) (dir string, err error) {
	dir = filepath.Join(folder, "twinloaf-copy-"+j.Now().Format("2006-01-02-150405"))
	if err := os.Mkdir(dir, 0o755); err != nil {
		return "", fmt.Errorf("making a folder for the copy: %w", err)
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, os.RemoveAll(dir))
		}
	}()
	if err := j.copyRecords(dir); err != nil {
		return "", fmt.Errorf("copying the journal: %w", err)
	}
	photos := j.files.Dir()
	if _, err := os.Stat(photos); err == nil && ctx.Err() == nil {
		if err := os.CopyFS(filepath.Join(dir, "photos"), os.DirFS(photos)); err != nil {
			return "", fmt.Errorf("copying the photos: %w", err)
		}
	}
	copied, err := Open(ctx, dir, Options{Clock: j.opt.Clock})
	if err != nil {
		return "", err
	}
	j.mu.Lock()
	for _, g := range j.queue {
		typed := *g
		typed.apply = slices.Clone(g.apply)
		copied.queue = append(copied.queue, &typed)
	}
	j.mu.Unlock()
	if err := copied.Close(); err != nil {
		return "", errors.Join(say.Caused(errCopy, err), copied.Discard())
	}
	return dir, nil
}

var errCopy = say.NewError("what you typed could not be written into the copy")

func (j *Journal) copyRecords(dir string) error {
	f, err := os.OpenFile(filepath.Join(dir, FileName), os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o644)
	if err != nil {
		return err
	}
	_, err = j.store.WriteTo(f)
	return errors.Join(err, f.Sync(), f.Close())
}
