package backup

import (
	"bytes"
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"testing"
	"time"

	"twinloaf/journal/photo"
)

// errDead is what every step gives after the program was killed.
var errDead = errors.New("the program was killed")

// trouble is a disk on which things go wrong.
type trouble struct {
	disk
	steps   int   // made so far
	killed  int   // from this step on nothing happens any more; 0: never
	left    int64 // what Free tells; 0: as the disk has it
	full    bool  // nothing can be written, whatever Free tells
	other   bool  // the backups lie on another disk: no links
	plain   bool  // the disk knows no second names
	failing int   // this step alone fails
}

func (d *trouble) step() error {
	d.steps++
	if d.killed > 0 && d.steps >= d.killed {
		return errDead
	}
	if d.steps == d.failing {
		return errDead
	}
	return nil
}

func (d *trouble) MkdirAll(dir string) error {
	if err := d.step(); err != nil {
		return err
	}
	return d.disk.MkdirAll(dir)
}

func (d *trouble) CreateTemp(dir, pattern string) (photo.TempFile, error) {
	if err := d.step(); err != nil {
		return nil, err
	}
	f, err := d.disk.CreateTemp(dir, pattern)
	return &file{f, d}, err
}

func (d *trouble) Rename(from, to string) error {
	if err := d.step(); err != nil {
		return err
	}
	return d.disk.Rename(from, to)
}

func (d *trouble) Remove(path string) error {
	if err := d.step(); err != nil {
		return err
	}
	return d.disk.Remove(path)
}

func (d *trouble) RemoveAll(dir string) error {
	if err := d.step(); err != nil {
		return err
	}
	return d.disk.RemoveAll(dir)
}

func (d *trouble) SyncDir(string) error {
	return d.step() // the tests kill the program, not the power
}

func (d *trouble) Link(from, to string) error {
	if err := d.step(); err != nil {
		return err
	}
	if d.other {
		return &os.LinkError{Op: "link", Old: from, New: to, Err: exdev}
	}
	if d.plain {
		return &os.LinkError{Op: "link", Old: from, New: to, Err: eperm}
	}
	return d.disk.Link(from, to)
}

func (d *trouble) Free(dir string) (int64, error) {
	if d.left != 0 {
		return d.left, nil
	}
	return d.disk.Free(dir)
}

// file is one being written on such a disk.
type file struct {
	photo.TempFile
	d *trouble
}

func (f *file) Write(p []byte) (int, error) {
	if err := f.d.step(); err != nil {
		n, _ := f.TempFile.Write(p[:len(p)/2]) // it was killed half-way
		return n, err
	}
	if f.d.full {
		return 0, &os.PathError{Op: "write", Path: f.Name(), Err: enospc}
	}
	return f.TempFile.Write(p)
}

func (f *file) Sync() error { return f.d.step() }

// world is a journal of one file and some originals, with its keeper.
type world struct {
	t         testing.TB
	dir       string
	disk      *trouble
	now       time.Time
	keeper    *Keeper
	originals []Original
}

func newWorld(t testing.TB) *world {
	t.Helper()
	w := &world{t: t, dir: filepath.Join(t.TempDir(), "journal"), disk: &trouble{}, now: day("2026-11-28 21:00")}
	if err := os.MkdirAll(w.dir, 0o755); err != nil {
		t.Fatal(err)
	}
	w.write("the first records")
	w.start()
	return w
}

// start begins a program on the journal.
func (w *world) start() {
	w.t.Helper()
	var err error
	w.keeper, err = NewKeeper(Options{
		Dir: w.dir, FS: w.disk, Clock: func() time.Time { return w.now },
		NewID: func() (string, error) { return "J", nil },
		Inspect: func(_ context.Context, path string) error {
			b, err := os.ReadFile(path)
			if err == nil && !bytes.Contains(b, []byte("records")) {
				err = ErrDamaged
			}
			return err
		},
	})
	if err != nil {
		w.t.Fatal(err)
	}
}

func (w *world) write(records string) {
	w.t.Helper()
	if err := os.WriteFile(filepath.Join(w.dir, recordsName), []byte(records), 0o644); err != nil {
		w.t.Fatal(err)
	}
}

func (w *world) read() string {
	w.t.Helper()
	b, err := os.ReadFile(filepath.Join(w.dir, recordsName))
	if err != nil {
		w.t.Fatal(err)
	}
	return string(b)
}

// picture adds an original.
func (w *world) picture(content string) Original {
	w.t.Helper()
	o := Original{Hash: sha256.Sum256([]byte(content)), Format: photo.JPEG}
	path := filepath.Join(w.dir, photosFolder, o.name())
	if err := errors.Join(os.MkdirAll(filepath.Dir(path), 0o755), os.WriteFile(path, []byte(content), 0o644)); err != nil {
		w.t.Fatal(err)
	}
	w.originals = append(w.originals, o)
	return o
}

// Size implements [Source].
func (w *world) Size() (int64, error) { return int64(len(w.read())), nil }

// Copy implements [Source].
func (w *world) Copy(_ context.Context, to io.Writer) (Content, error) {
	_, err := io.WriteString(to, w.read())
	return w.content(), err
}

func (w *world) content() Content {
	return Content{Records: 1, Bakes: 1, Originals: w.originals}
}

func (w *world) make(why Reason) Backup {
	w.t.Helper()
	b, err := w.keeper.Make(w.t.Context(), w, why)
	if err != nil {
		w.t.Fatal(err)
	}
	return b
}

func (w *world) list() []Backup {
	w.t.Helper()
	all, err := w.keeper.List(w.t.Context())
	if err != nil {
		w.t.Fatal(err)
	}
	return all
}

// whole holds a backup against its checksums with nothing of this package.
func (w *world) whole(b Backup) error {
	sums, err := os.ReadFile(filepath.Join(b.Path, sumsName))
	if err != nil {
		return err
	}
	for line := range bytes.Lines(sums) {
		var sum, name string
		if _, err := fmt.Sscanf(string(line), "%s %s", &sum, &name); err != nil {
			return err
		}
		data, err := os.ReadFile(filepath.Join(b.Path, filepath.FromSlash(name)))
		if err != nil {
			return err
		}
		if got := fmt.Sprintf("%x", sha256.Sum256(data)); got != sum {
			return fmt.Errorf("%s has %s, not %s", name, got, sum)
		}
	}
	return nil
}
