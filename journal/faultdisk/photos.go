package faultdisk

import (
	"io"
	"os"

	"twinloaf/journal/photo"
)

// Photos is the disk as the store of photos knows it.
func (d *Disk) Photos() photo.FS { return photos{d} }

// photos is the real disk, each step counted and perhaps failed.
type photos struct{ d *Disk }

func (p photos) take(op Op) error {
	p.d.mu.Lock()
	defer p.d.mu.Unlock()
	return p.d.take(op)
}

// do does one step unless it is to fail.
func (p photos) do(op Op, step func() error) error {
	if err := p.take(op); err != nil {
		return err
	}
	return step()
}

func (p photos) MkdirAll(dir string) error {
	return p.do(Mkdir, func() error { return photo.Disk{}.MkdirAll(dir) })
}

func (p photos) Rename(from, to string) error {
	return p.do(Rename, func() error { return photo.Disk{}.Rename(from, to) })
}

func (p photos) Remove(path string) error {
	return p.do(Remove, func() error { return photo.Disk{}.Remove(path) })
}

func (p photos) SyncDir(dir string) error {
	return p.do(SyncDir, func() error { return photo.Disk{}.SyncDir(dir) })
}

func (p photos) CreateTemp(dir, pattern string) (photo.TempFile, error) {
	if err := p.take(Create); err != nil {
		return nil, err
	}
	f, err := photo.Disk{}.CreateTemp(dir, pattern)
	if err != nil {
		return nil, err
	}
	return file{f, p}, nil
}

// Open opens a file of which each read is counted and perhaps fails.
func (p photos) Open(path string) (io.ReadSeekCloser, error) {
	if err := p.take(Read); err != nil {
		return nil, err
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	return struct {
		reading
		io.Seeker
		io.Closer
	}{reading{f, p}, f, f}, nil
}

// Reader gives what is read from elsewhere, a picture that is added, say, so that each
// read is counted and perhaps fails.
func (d *Disk) Reader(r io.Reader) io.ReadCloser { return io.NopCloser(reading{r, photos{d}}) }

// reading is what is being read.
type reading struct {
	io.Reader
	p photos
}

// Read fails when it is told to.
func (r reading) Read(b []byte) (int, error) {
	if err := r.p.take(Read); err != nil {
		return 0, err
	}
	return r.Reader.Read(b)
}

// file is a photo that is being written. What is copied into it goes through Write, too.
type file struct {
	photo.TempFile
	p photos
}

// Write writes half of what it is given when it fails.
func (f file) Write(b []byte) (int, error) {
	if err := f.p.take(Write); err != nil {
		n, _ := f.TempFile.Write(b[:len(b)/2])
		return n, err
	}
	return f.TempFile.Write(b)
}

func (f file) Sync() error { return f.p.do(Sync, f.TempFile.Sync) }

// Close closes the file also when it fails, as the system does.
func (f file) Close() error {
	if err := f.p.take(Close); err != nil {
		_ = f.TempFile.Close()
		return err
	}
	return f.TempFile.Close()
}
