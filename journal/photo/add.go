package photo

import (
	"bytes"
	"context"
	"crypto/sha256"
	"errors"
	"io"
	"io/fs"
	"path/filepath"

	"golang.org/x/sync/errgroup"

	"twinloaf/journal/plainfile"
)

// Added is what an addition has stored.
type Added struct {
	Hash    Hash
	Meta    Meta
	Size    int64 // of the original, in bytes
	Existed bool  // the store had this content already
}

// AddFile adds the picture at path; see Add. The file itself is only read.
func (f *Files) AddFile(ctx context.Context, path string) (Added, error) {
	return f.addFile(ctx, path, nil)
}

// Add reads a picture to its end, decodes it to be sure that it is whole, and
// stores its bytes. When it returns without an error the photo lasts through a
// power failure, so that a record may name it. Content that is there already is
// not stored again; a stored copy that has gone bad is replaced. On an error the
// store holds nothing new under a photo's name, save that a photo whose folder
// could not be synced may stay, whole and unnamed by any record.
//
// The name is for the error's sentence. Refusals are an *Error; a cancelled ctx
// gives its error.
func (f *Files) Add(ctx context.Context, name string, r io.Reader) (Added, error) {
	return f.add(ctx, name, r, nil)
}

// use is called with the decoded picture of a new photo before it is stored.
type use func(Hash, *Picture)

func (f *Files) addFile(ctx context.Context, path string, use use) (Added, error) {
	file, err := openPicture(path)
	if err != nil {
		return Added{}, err
	}
	defer file.Close()
	return f.add(ctx, filepath.Base(path), file, use)
}

func (f *Files) add(ctx context.Context, name string, r io.Reader, use use) (Added, error) {
	data, err := f.readAll(ctx, name, r)
	if err != nil {
		return Added{}, err
	}
	meta, err := Inspect(name, bytes.NewReader(data), f.limits)
	if err != nil {
		return Added{}, err
	}
	added := Added{Hash: sha256.Sum256(data), Meta: meta, Size: int64(len(data))}

	done, err := f.decoding(ctx, meta.Width*meta.Height)
	if err != nil {
		return Added{}, err
	}
	defer done()
	pic, err := Decode(name, data, f.limits)
	if err != nil {
		return Added{}, err
	}
	added.Meta = pic.Meta

	// The disk is busy with the original while the processor makes thumbnails.
	var g errgroup.Group
	g.Go(func() (err error) {
		added.Existed, err = f.store(ctx, name, added.Hash, meta.Format, data)
		return err
	})
	if use != nil {
		use(added.Hash, pic)
	}
	if err := g.Wait(); err != nil {
		return Added{}, err
	}
	return added, nil
}

// store makes the bytes of a hash last under its name.
func (f *Files) store(ctx context.Context, name string, h Hash, format Format, data []byte) (existed bool, err error) {
	if err := ctx.Err(); err != nil {
		return false, err
	}
	if f.Verify(ctx, h) == nil {
		return true, f.settle(name, h)
	}
	temp, err := f.writeTemp(name, data)
	if err != nil {
		return false, err
	}
	named := false
	defer func() {
		if !named {
			_ = f.fs.Remove(temp) // what stays behind is deleted at the next opening
		}
	}()
	if err := ctx.Err(); err != nil {
		return false, err
	}
	if err := f.fs.MkdirAll(f.shard(h)); err != nil {
		return false, refuseWrite(name, err)
	}

	f.mu.Lock()
	defer f.mu.Unlock()
	if f.Verify(ctx, h) == nil { // another addition of the same content came first
		return true, f.settleLocked(name, h)
	}
	if err := f.fs.Rename(temp, f.path(h, format)); err != nil {
		return false, refuseWrite(name, err)
	}
	named = true
	return false, f.settleLocked(name, h)
}

// writeTemp writes and syncs a file that has no photo's name yet.
func (f *Files) writeTemp(name string, data []byte) (path string, err error) {
	t, err := f.fs.CreateTemp(f.dir, incoming)
	if err != nil {
		return "", refuseWrite(name, err)
	}
	n, err := t.Write(data)
	if err == nil && n < len(data) {
		err = io.ErrShortWrite
	}
	if err == nil {
		err = t.Sync()
	}
	if err = errors.Join(err, t.Close()); err != nil {
		_ = f.fs.Remove(t.Name())
		return "", refuseWrite(name, err)
	}
	return t.Name(), nil
}

func (f *Files) settle(name string, h Hash) error {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.settleLocked(name, h)
}

// settleLocked makes a photo's name last, and once in the life of the store its
// folder's name too.
func (f *Files) settleLocked(name string, h Hash) error {
	shard := f.shard(h)
	if err := f.fs.SyncDir(shard); err != nil {
		return refuseWrite(name, err)
	}
	if f.synced[shard] {
		return nil
	}
	if err := f.fs.SyncDir(f.dir); err != nil {
		return refuseWrite(name, err)
	}
	f.synced[shard] = true
	return nil
}

// readAll reads a picture's bytes, looking at the first of them before the rest:
// a film of many gigabytes is refused at once.
func (f *Files) readAll(ctx context.Context, name string, r io.Reader) ([]byte, error) {
	length := 0
	if file, ok := r.(interface{ Stat() (fs.FileInfo, error) }); ok {
		if info, err := file.Stat(); err == nil {
			length = int(min(info.Size(), f.limits.bytes()))
		}
	}
	r = plainfile.WithContext(ctx, r)
	head := make([]byte, sniffLen)
	n, err := io.ReadFull(r, head)
	head = head[:n]
	if err != nil && err != io.EOF && err != io.ErrUnexpectedEOF {
		return nil, readFailure(ctx, name, err)
	}
	if _, err := tell(name, head); err != nil {
		return nil, err
	}
	data := bytes.NewBuffer(head)
	data.Grow(length + bytes.MinRead)
	limit := f.limits.bytes()
	if _, err := data.ReadFrom(io.LimitReader(r, limit+1-int64(n))); err != nil {
		return nil, readFailure(ctx, name, err)
	}
	if int64(data.Len()) > limit {
		return nil, &Error{Name: name, Kind: ErrTooLarge, Bytes: limit}
	}
	return data.Bytes(), nil
}

// readFailure tells a cancelled read from one that failed.
func readFailure(ctx context.Context, name string, err error) error {
	if ctx.Err() != nil {
		return ctx.Err()
	}
	return refuseRead(name, err)
}
