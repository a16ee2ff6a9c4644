package photo

import (
	"fmt"
	"os"
	"sync"
)

// A Gate is a file layer that can be closed. From then on nothing is made, renamed or
// deleted through it, whoever is at work still: a thumbnail goes on being made after
// nobody waits for it any more, and the folder may be another journal's by then, or
// gone. Reading goes on.
type Gate struct {
	FS
	mu     sync.RWMutex // held for reading during each step
	closed bool
}

// NewGate gives fs with a gate before it; nil means [Disk].
func NewGate(fs FS) *Gate {
	if fs == nil {
		fs = Disk{}
	}
	return &Gate{FS: fs}
}

// Close closes the gate, when the steps that are being taken have ended. Closing twice
// is harmless.
func (g *Gate) Close() {
	g.mu.Lock()
	defer g.mu.Unlock()
	g.closed = true
}

func (g *Gate) step(do func() error) error {
	g.mu.RLock()
	defer g.mu.RUnlock()
	if g.closed {
		return fmt.Errorf("the folder of photos: %w", os.ErrClosed)
	}
	return do()
}

// MkdirAll implements [FS].
func (g *Gate) MkdirAll(dir string) error {
	return g.step(func() error { return g.FS.MkdirAll(dir) })
}

// CreateTemp implements [FS].
func (g *Gate) CreateTemp(dir, pattern string) (f TempFile, err error) {
	err = g.step(func() error { f, err = g.FS.CreateTemp(dir, pattern); return err })
	return f, err
}

// Rename implements [FS].
func (g *Gate) Rename(from, to string) error {
	return g.step(func() error { return g.FS.Rename(from, to) })
}

// Remove implements [FS].
func (g *Gate) Remove(path string) error {
	return g.step(func() error { return g.FS.Remove(path) })
}
