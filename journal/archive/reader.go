package archive

import (
	"archive/zip"
	"bufio"
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"hash"
	"io"

	"twinloaf/journal/plainfile"
	"twinloaf/journal/say"
)

// An Archive is an archive being read.
type Archive struct {
	Manifest *Manifest
	files    map[string]*zip.File
}

// Open reads what an archive says it holds. It refuses, having read no more than
// the list of contents and the manifest, an archive of a newer version, and one in
// which
//   - a member has another name than the format gives it: with that go names that
//     lead out of the archive, links, and names that differ only in the size of letters,
//   - a name stands twice, or a member is missing or not in the manifest,
//   - a member is larger than the manifest says, than its packed size can be
//     honestly, or than the hard limits.
//
// What the members hold is checked against their fingerprints as they are read.
func Open(r io.ReaderAt, size int64) (*Archive, error) {
	limited := &budget{r: r, left: maxDirectory}
	z, err := zip.NewReader(limited, size)
	if err != nil {
		if limited.left < 0 {
			return nil, refuse(ErrTooLarge, err)
		}
		return nil, refuse(ErrNotArchive, err)
	}
	limited.off = true
	a := &Archive{files: map[string]*zip.File{}}
	for _, f := range z.File {
		if isFolder(f) {
			continue
		}
		_, isRecords := recordsKind(f.Name)
		_, _, isPhoto := photoHash(f.Name)
		switch {
		case !isRecords && !isPhoto && f.Name != manifestName && f.Name != readmeName, !f.Mode().IsRegular():
			return nil, odd(f.Name)
		case f.Flags&1 != 0:
			return nil, refuse(ErrDishonest, nil, say.Of("“{{.Member}}” is locked with a password", named(f.Name)))
		case a.files[f.Name] != nil:
			return nil, refuse(ErrDishonest, nil, say.Of("“{{.Member}}” is in it twice", named(f.Name)))
		}
		a.files[f.Name] = f
	}
	if a.Manifest, err = a.readManifest(); err != nil {
		return nil, err
	}
	return a, a.checkMembers(size)
}

// isFolder tells the entry of a folder, which an archive that was unpacked and
// packed again may have.
func isFolder(f *zip.File) bool {
	return (f.Name == "records/" || f.Name == "photos/") && f.UncompressedSize64 == 0
}

func (a *Archive) readManifest() (*Manifest, error) {
	f := a.files[manifestName]
	if f == nil {
		return nil, refuse(ErrNotArchive, nil)
	}
	if f.UncompressedSize64 > maxManifest || tooDense(f, maxRecordsRatio) {
		return nil, large(f.Name)
	}
	r, err := f.Open()
	if err != nil {
		return nil, refuse(ErrNotArchive, err)
	}
	defer r.Close()
	data, err := io.ReadAll(io.LimitReader(r, maxManifest+1))
	if err != nil {
		return nil, refuse(ErrNotArchive, err)
	}
	if len(data) > maxManifest {
		return nil, large(f.Name)
	}
	return ParseManifest(data)
}

// checkMembers holds the list of contents against the manifest.
func (a *Archive) checkMembers(size int64) error {
	inside := map[string]bool{manifestName: true}
	for _, m := range a.Manifest.members() {
		f := a.files[m.Path]
		_, _, isPhoto := photoHash(m.Path)
		switch {
		case f == nil:
			return missing(m.Path)
		case f.UncompressedSize64 != uint64(m.Bytes):
			return altered(m.Path, nil)
		case isPhoto && tooDense(f, maxPhotoRatio), tooDense(f, maxRecordsRatio):
			return large(m.Path)
		}
		inside[m.Path] = true
	}
	for name := range a.files {
		if !inside[name] {
			return odd(name)
		}
	}
	// Members that lie over one another in the file are small each and huge together.
	if all := a.Manifest.Bytes(); all > ratioFrom && all/maxRecordsRatio > size {
		return refuse(ErrTooLarge, nil)
	}
	return nil
}

// tooDense reports whether a member claims to unpack to more than ratio times
// what it takes.
func tooDense(f *zip.File, ratio uint64) bool {
	return f.UncompressedSize64 > ratioFrom && f.UncompressedSize64/ratio > f.CompressedSize64
}

// Records reads the records of one member, in the order in which they stand. A
// record that is no record at all, a wrong number of them, one that stands twice
// and a wrong fingerprint are refused with an error that wraps [ErrAltered]; the
// fingerprint is known only at the end, so do nothing with the records before it
// has returned. A record's body is the caller's own.
func (a *Archive) Records(ctx context.Context, m Records, fn func(Record) error) error {
	r, err := a.open(ctx, m.Member)
	if err != nil {
		return err
	}
	defer r.Close()
	lines := bufio.NewScanner(r)
	lines.Buffer(nil, maxRecord)
	seen := map[string]bool{}
	n := 0
	for lines.Scan() {
		n++
		rec, err := parseRecord(m.Kind, bytes.Clone(lines.Bytes()))
		if err != nil {
			return refuse(ErrAltered, err, say.Of("line {{.Line}} of “{{.Member}}” is no record", named(m.Path), say.With{"Line": n}))
		}
		if seen[rec.ID] {
			return refuse(ErrDishonest, nil, say.Of("line {{.Line}} of “{{.Member}}” is a record that is in it already", named(m.Path), say.With{"Line": n}))
		}
		seen[rec.ID] = true
		if err := fn(rec); err != nil {
			return err
		}
	}
	switch err := lines.Err(); {
	case errors.Is(err, bufio.ErrTooLong):
		return large(m.Path)
	case err != nil:
		return err
	case n != m.Count:
		return altered(m.Path, nil)
	}
	return nil
}

// Photo opens a photo. Its last Read gives an error that wraps [ErrAltered], and
// not io.EOF, when the bytes are not those of its fingerprint.
func (a *Archive) Photo(ctx context.Context, p Photo) (io.ReadCloser, error) {
	return a.open(ctx, p.Member)
}

// Verify reads everything and compares it with its fingerprints. progress, which
// may be nil, is told of each run of bytes that was read.
func (a *Archive) Verify(ctx context.Context, progress func(bytes int)) error {
	for _, m := range a.Manifest.members() {
		r, err := a.open(ctx, m)
		if err != nil {
			return err
		}
		_, err = io.Copy(told{progress}, r)
		if err = errors.Join(err, r.Close()); err != nil {
			return err
		}
	}
	return nil
}

type told struct{ progress func(int) }

// Write implements io.Writer.
func (t told) Write(p []byte) (int, error) {
	if t.progress != nil {
		t.progress(len(p))
	}
	return len(p), nil
}

// Ext is the ending of a photo's name, with the dot.
func (p Photo) Ext() string {
	_, ext, _ := photoHash(p.Path)
	return ext
}

func (a *Archive) open(ctx context.Context, m Member) (io.ReadCloser, error) {
	f := a.files[m.Path]
	if f == nil {
		return nil, missing(m.Path)
	}
	r, err := f.Open()
	if err != nil {
		return nil, altered(m.Path, err)
	}
	return &checked{m: m, r: plainfile.WithContext(ctx, r), c: r, ctx: ctx, sum: sha256.New()}, nil
}

// checked reads a member and, at its end, compares what it read with the manifest.
// It never gives more than the manifest says.
type checked struct {
	m   Member
	r   io.Reader
	c   io.Closer
	ctx context.Context
	sum hash.Hash
	n   int64
}

// Read implements io.Reader.
func (c *checked) Read(p []byte) (int, error) {
	n, err := c.r.Read(p)
	c.sum.Write(p[:n])
	c.n += int64(n)
	switch {
	case c.n > c.m.Bytes:
		return 0, altered(c.m.Path, nil)
	case err == io.EOF && (c.n != c.m.Bytes || hex.EncodeToString(c.sum.Sum(nil)) != c.m.SHA256):
		return 0, altered(c.m.Path, nil)
	case err != nil && err != io.EOF && c.ctx.Err() == nil:
		return 0, altered(c.m.Path, err)
	}
	return n, err
}

// Close implements io.Closer.
func (c *checked) Close() error { return c.c.Close() }

// budget bounds what is read while the list of contents is: its length is not
// known before.
type budget struct {
	r    io.ReaderAt
	left int64
	off  bool
}

// ReadAt implements io.ReaderAt.
func (b *budget) ReadAt(p []byte, at int64) (int, error) {
	if b.off {
		return b.r.ReadAt(p, at)
	}
	if b.left -= int64(len(p)); b.left < 0 {
		return 0, errors.New("the list of contents is too long")
	}
	return b.r.ReadAt(p, at)
}
