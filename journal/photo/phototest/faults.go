package phototest

import (
	"io"
	"sync"

	"twinloaf/journal/photo"
)

// Step names a step of storing a file.
type Step string

// The steps, in the order in which they are taken.
const (
	Mkdir   Step = "make folder"
	Create  Step = "create"
	Write   Step = "write"
	Sync    Step = "sync"
	Close   Step = "close"
	Rename  Step = "rename"
	SyncDir Step = "sync folder"
	Remove  Step = "remove"
)

// Faults is a file layer over another that counts the steps taken and fails those
// it is told to. Use [NewFaults].
type Faults struct {
	under photo.FS

	mu    sync.Mutex
	count map[Step]int
	fail  map[Step]fault
	order []Step
}

type fault struct {
	nth int // 0 means each
	err error
}

// NewFaults makes a file layer over the disk that fails nothing yet.
func NewFaults() *Faults {
	return &Faults{under: photo.Disk{}, count: make(map[Step]int), fail: make(map[Step]fault)}
}

// Fail makes the nth taking of a step from now fail with err; nth 0 means each one.
func (f *Faults) Fail(step Step, nth int, err error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	if nth > 0 {
		nth += f.count[step]
	}
	f.fail[step] = fault{nth, err}
}

// Heal makes nothing fail any more.
func (f *Faults) Heal() {
	f.mu.Lock()
	defer f.mu.Unlock()
	clear(f.fail)
}

// Count is how often a step was taken, failures included.
func (f *Faults) Count(step Step) int {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.count[step]
}

// Order is every step taken so far.
func (f *Faults) Order() []Step {
	f.mu.Lock()
	defer f.mu.Unlock()
	return append([]Step(nil), f.order...)
}

func (f *Faults) take(step Step) error {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.count[step]++
	f.order = append(f.order, step)
	if x, ok := f.fail[step]; ok && (x.nth == 0 || x.nth == f.count[step]) {
		return x.err
	}
	return nil
}

// MkdirAll implements photo.FS.
func (f *Faults) MkdirAll(dir string) error {
	if err := f.take(Mkdir); err != nil {
		return err
	}
	return f.under.MkdirAll(dir)
}

// CreateTemp implements photo.FS.
func (f *Faults) CreateTemp(dir, pattern string) (photo.TempFile, error) {
	if err := f.take(Create); err != nil {
		return nil, err
	}
	t, err := f.under.CreateTemp(dir, pattern)
	if err != nil {
		return nil, err
	}
	return &faultyFile{t, f}, nil
}

// Rename implements photo.FS.
func (f *Faults) Rename(from, to string) error {
	if err := f.take(Rename); err != nil {
		return err
	}
	return f.under.Rename(from, to)
}

// Remove implements photo.FS.
func (f *Faults) Remove(path string) error {
	if err := f.take(Remove); err != nil {
		return err
	}
	return f.under.Remove(path)
}

// Open implements photo.FS; it is no step of storing.
func (f *Faults) Open(path string) (io.ReadSeekCloser, error) { return f.under.Open(path) }

// SyncDir implements photo.FS.
func (f *Faults) SyncDir(dir string) error {
	if err := f.take(SyncDir); err != nil {
		return err
	}
	return f.under.SyncDir(dir)
}

type faultyFile struct {
	photo.TempFile
	faults *Faults
}

// Write writes only half before it fails, as a disk does that fills up.
func (t *faultyFile) Write(p []byte) (int, error) {
	if err := t.faults.take(Write); err != nil {
		n, _ := t.TempFile.Write(p[:len(p)/2])
		return n, err
	}
	return t.TempFile.Write(p)
}

// Sync implements photo.TempFile.
func (t *faultyFile) Sync() error {
	if err := t.faults.take(Sync); err != nil {
		return err
	}
	return t.TempFile.Sync()
}

// Close closes the file in any case, so that a failing close leaks nothing.
func (t *faultyFile) Close() error {
	err := t.TempFile.Close()
	if failed := t.faults.take(Close); failed != nil {
		return failed
	}
	return err
}
