package journal

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"twinloaf/journal/say"
)

// A SavedCopy is where a copy of the journal is.
type SavedCopy struct {
	Dir  string
	Left []error // why a photo, or a folder of them, is not in it: it could not be read
}

// SaveCopy writes a copy of the journal as it reads now into a new folder below
// folder: every record, with what was typed and is not on the disk
// yet, and every photo that can still be read. It works while the journal's own
// file has lost its name.
func (j *Journal) SaveCopy(ctx context.Context, folder string) (out SavedCopy, err error) {
	dir := filepath.Join(folder, "twinloaf-copy-"+j.Now().Format("2006-01-02-150405"))
	if err := os.Mkdir(dir, 0o755); err != nil {
		return SavedCopy{}, fmt.Errorf("making a folder for the copy: %w", err)
	}
	defer func() {
		if err != nil {
			err = errors.Join(err, os.RemoveAll(dir))
		}
	}()
	if err := j.copyRecords(dir); err != nil {
		return SavedCopy{}, fmt.Errorf("copying the journal: %w", err)
	}
	left, err := copyReadable(ctx, j.files.Dir(), filepath.Join(dir, "photos"))
	if err != nil {
		return SavedCopy{}, fmt.Errorf("copying the photos: %w", err)
	}
	copied, err := Open(ctx, dir, Options{Clock: j.opt.Clock})
	if err != nil {
		return SavedCopy{}, err
	}
	j.mu.Lock()
	for _, g := range j.queue {
		typed := *g
		typed.apply = slices.Clone(g.apply)
		copied.queue = append(copied.queue, &typed)
	}
	j.mu.Unlock()
	if err := copied.Close(); err != nil {
		return SavedCopy{}, errors.Join(say.Caused(errCopy, err), copied.Discard())
	}
	return SavedCopy{Dir: dir, Left: left}, nil
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

// copyReadable copies the files below a folder, as far as they can be read, into one that is
// made for them; left says what could not be, and is empty where there is no such folder.
func copyReadable(ctx context.Context, from, to string) (left []error, err error) {
	err = filepath.WalkDir(from, func(path string, d fs.DirEntry, err error) error {
		if err == nil {
			err = ctx.Err()
		}
		switch {
		case errors.Is(err, fs.ErrNotExist) && path == from:
			return nil
		case err != nil && ctx.Err() == nil:
			left = append(left, err)
			return nil
		case err != nil:
			return err
		}
		rel, err := filepath.Rel(from, path)
		if err != nil {
			return err
		}
		target := filepath.Join(to, rel)
		if d.IsDir() {
			return os.Mkdir(target, 0o755)
		}
		unread, err := copyFile(path, target)
		if unread != nil {
			left = append(left, unread)
		}
		return err
	})
	return left, err
}

// copyFile copies a file; of one that cannot be read, which unread says, nothing is left.
func copyFile(from, to string) (unread, err error) {
	in, unread := os.Open(from)
	if unread != nil {
		return unread, nil
	}
	defer in.Close()
	out, err := os.OpenFile(to, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o644)
	if err != nil {
		return nil, err
	}
	_, err = io.Copy(out, readFailure{in, &unread})
	if unread != nil {
		err = os.Remove(to)
	}
	return unread, errors.Join(err, out.Close())
}

// readFailure remembers that reading failed, which io.Copy does not tell from writing.
type readFailure struct {
	io.Reader
	err *error
}

func (r readFailure) Read(p []byte) (int, error) {
	n, err := r.Reader.Read(p)
	if err != nil && err != io.EOF {
		*r.err = err
	}
	return n, err
}
