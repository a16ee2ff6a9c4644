package photo

import (
	"context"
	"crypto/sha256"
	"errors"
	"hash"
	"io"
	"sync"

	"twinloaf/journal/plainfile"
)

// An Intake stores many originals as one: they are written and synced without a
// photo's name, and get their names together at the end. Until then the store
// holds none of them, and a crash leaves nothing that the next opening does not
// delete.
type Intake struct {
	f *Files

	mu      sync.Mutex
	waiting map[Hash]waiting
}

// waiting is a photo that has no name yet.
type waiting struct {
	temp   string
	format Format
}

// Intake begins to store many originals. End it by [Intake.Settle] or [Intake.Drop].
func (f *Files) Intake() *Intake { return &Intake{f: f, waiting: map[Hash]waiting{}} }

// Add writes one original. It is refused when its bytes are not those of the hash, or
// when they do not begin as a picture of that format, of a size that can be opened. It
// is not decoded: that takes long, and a picture that cannot be shown is told where it
// would be. Add may be called from several goroutines.
func (in *Intake) Add(ctx context.Context, h Hash, format Format, r io.Reader) (err error) {
	name := h.String() + format.Ext()
	t, err := in.f.fs.CreateTemp(in.f.dir, incoming)
	if err != nil {
		return refuseWrite(name, err)
	}
	keep := false
	defer func() {
		if !keep {
			_ = in.f.fs.Remove(t.Name())
		}
	}()
	if err := errors.Join(copyChecked(ctx, t, name, h, r), t.Close()); err != nil {
		return err
	}
	if err := in.inspect(t.Name(), name, format); err != nil {
		return err
	}
	in.mu.Lock()
	defer in.mu.Unlock()
	if _, twice := in.waiting[h]; !twice {
		in.waiting[h], keep = waiting{t.Name(), format}, true
	}
	return nil
}

// copyChecked writes and syncs what r gives, which must be the bytes of h.
func copyChecked(ctx context.Context, t TempFile, name string, h Hash, r io.Reader) error {
	sum := summed{r: plainfile.WithContext(ctx, r), sum: sha256.New()}
	if _, err := io.Copy(t, &sum); err != nil {
		if sum.err != nil { // it is the reading that failed
			return sum.err
		}
		return refuseWrite(name, err)
	}
	if Hash(sum.sum.Sum(nil)) != h {
		return refuse(name, ErrAltered, nil)
	}
	if err := t.Sync(); err != nil {
		return refuseWrite(name, err)
	}
	return nil
}

// summed hashes what is read and remembers why reading ended.
type summed struct {
	r   io.Reader
	sum hash.Hash
	err error
}

func (s *summed) Read(p []byte) (int, error) {
	n, err := s.r.Read(p)
	s.sum.Write(p[:n])
	if err != nil && err != io.EOF {
		s.err = err
	}
	return n, err
}

func (in *Intake) inspect(path, name string, format Format) error {
	r, err := in.f.fs.Open(path)
	if err != nil {
		return refuseRead(name, err)
	}
	defer r.Close()
	meta, err := Inspect(name, r, in.f.limits)
	if err != nil {
		return err
	}
	if meta.Format != format {
		return &Error{Name: name, Kind: ErrNotPicture, Found: meta.Format.String()}
	}
	return nil
}

// Settle gives every original its name. When it returns without an error they last
// through a power failure, so that records may name them. After an error some may
// be in the store, whole and named by no record.
func (in *Intake) Settle() error {
	in.mu.Lock()
	defer in.mu.Unlock()
	in.f.mu.Lock()
	defer in.f.mu.Unlock()
	shards := map[string]string{}
	for h, w := range in.waiting {
		name, shard := h.String()+w.format.Ext(), in.f.shard(h)
		if err := in.f.fs.MkdirAll(shard); err != nil {
			return refuseWrite(name, err)
		}
		if err := in.f.fs.Rename(w.temp, in.f.path(h, w.format)); err != nil {
			return refuseWrite(name, err)
		}
		delete(in.waiting, h)
		shards[shard] = name
	}
	for shard, name := range shards {
		if err := in.f.fs.SyncDir(shard); err != nil {
			return refuseWrite(name, err)
		}
	}
	for shard, name := range shards {
		if in.f.synced[shard] {
			continue
		}
		if err := in.f.fs.SyncDir(in.f.dir); err != nil {
			return refuseWrite(name, err)
		}
		for shard := range shards {
			in.f.synced[shard] = true
		}
	}
	return nil
}

// Drop deletes what has no name yet.
func (in *Intake) Drop() {
	in.mu.Lock()
	defer in.mu.Unlock()
	for h, w := range in.waiting {
		_ = in.f.fs.Remove(w.temp) // what stays behind is deleted at the next opening
		delete(in.waiting, h)
	}
}

// Has reports whether an original lies in the store; it does not check its content.
func (f *Files) Has(h Hash) bool {
	_, _, err := f.find(h)
	return err == nil
}
