package photo

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"sync"

	"golang.org/x/sync/semaphore"
)

// Files is the store of original photos: one folder that holds each content once,
// byte for byte, as ab/<sha256>.jpg (or .png, .webp, .heic), where ab are the
// hash's first two digits. Nothing in it is ever altered, and nothing half
// written ever has such a name. It is safe for concurrent use.
type Files struct {
	dir    string
	fs     FS
	limits Limits
	slots  *semaphore.Weighted // how many pictures are decoded at a time

	mu     sync.Mutex
	synced map[string]bool // shards whose own name is known to be on the disk
}

// Options are what a store can be given; the zero value serves the program.
type Options struct {
	FS     FS     // nil means Disk
	Limits Limits // what is opened at all
}

const (
	// slots bounds decoding: two 12-megapixel pictures at a time, or one huge one.
	slots = 2
	// hugePixels is from where a picture is decoded alone.
	hugePixels = 50_000_000

	incoming = "incoming-*.part"
)

// OpenFiles opens the store in dir, making the folder if it is not there, and
// deletes what additions cut off by a crash have left. Only one program may hold
// the store at a time: the journal's lock sees to that.
func OpenFiles(dir string, opt Options) (*Files, error) {
	f := &Files{dir: dir, fs: opt.FS, limits: opt.Limits, slots: semaphore.NewWeighted(slots), synced: make(map[string]bool)}
	if f.fs == nil {
		f.fs = Disk{}
	}
	if err := f.fs.MkdirAll(dir); err != nil {
		return nil, fmt.Errorf("make the photo folder: %w", err)
	}
	if err := f.fs.SyncDir(filepath.Dir(dir)); err != nil {
		return nil, fmt.Errorf("make the photo folder last: %w", err)
	}
	if err := removeUnfinished(f.fs, dir); err != nil {
		return nil, fmt.Errorf("delete an unfinished photo: %w", err)
	}
	return f, nil
}

// Dir is the store's folder.
func (f *Files) Dir() string { return f.dir }

// shard is the folder that a hash's file lies in.
func (f *Files) shard(h Hash) string { return filepath.Join(f.dir, h.String()[:2]) }

// path is where a photo lies, or would lie.
func (f *Files) path(h Hash, format Format) string {
	return filepath.Join(f.shard(h), h.String()+format.Ext())
}

// find gives a stored photo's path and format.
func (f *Files) find(h Hash) (string, Format, error) {
	for _, format := range formats {
		path := f.path(h, format)
		info, err := os.Stat(path)
		switch {
		case err == nil && info.Mode().IsRegular():
			return path, format, nil
		case err != nil && !errors.Is(err, os.ErrNotExist):
			return "", Unknown, refuseRead(h.String(), err)
		}
	}
	return "", Unknown, refuse(h.String(), ErrMissing, os.ErrNotExist)
}

// decoding waits for its turn to decode a picture of so many pixels and gives
// what ends that turn.
func (f *Files) decoding(ctx context.Context, pixels int) (done func(), err error) {
	weight := int64(1)
	if pixels > hugePixels {
		weight = slots
	}
	if err := f.slots.Acquire(ctx, weight); err != nil {
		return nil, err
	}
	return func() { f.slots.Release(weight) }, nil
}

// removeUnfinished deletes the files of a folder that never got their name.
func removeUnfinished(fs FS, dir string) error {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return err
	}
	for _, e := range entries {
		if ok, _ := filepath.Match(incoming, e.Name()); !ok || e.IsDir() {
			continue
		}
		if err := fs.Remove(filepath.Join(dir, e.Name())); err != nil && !errors.Is(err, os.ErrNotExist) {
			return err
		}
	}
	return nil
}
