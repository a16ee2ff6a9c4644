package archive

import (
	"archive/zip"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"hash"
	"io"
	"strings"
	"time"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"
)

// A Writer writes an archive as a stream: photos and records in any order, then
// [Writer.Close]. Nothing of it can be read until Close has returned without an
// error.
type Writer struct {
	zip *zip.Writer
	m   Manifest
	has map[string]bool
}

// NewWriter begins an archive. What m says of the members is filled in as they
// are written; Made, Scope, Chosen and LeftOut are the caller's.
func NewWriter(w io.Writer, m Manifest) *Writer {
	m.Format, m.Version, m.Made = formatName, version, m.Made.Round(time.Second)
	m.Records, m.Photos = []Records{}, []Photo{}
	return &Writer{zip: zip.NewWriter(w), m: m, has: map[string]bool{}}
}

// Photo adds a photo; a photo that is in already is passed over. ext is the
// ending of its name with the dot, original as in [Photo]. The error wraps
// [ErrAltered] when the bytes are not those of the hash; nothing has been written
// then.
func (w *Writer) Photo(ctx context.Context, hash, ext, original string, data []byte) error {
	path := "photos/" + hash + ext
	if w.has[path] {
		return nil
	}
	if _, _, ok := photoHash(path); !ok {
		return odd(path)
	}
	if len(data) > MaxPhoto {
		return large(path)
	}
	if sum := sha256.Sum256(data); hex.EncodeToString(sum[:]) != hash {
		return altered(path, nil)
	}
	// Photos are packed already; packing them again costs time and gains nothing.
	out, err := w.create(ctx, path, zip.Store)
	if err == nil {
		_, err = out.Write(data)
	}
	if err != nil {
		return fmt.Errorf("writing %s: %w", path, err)
	}
	w.m.Photos = append(w.m.Photos, Photo{Member: Member{Path: path, Bytes: int64(len(data)), SHA256: hash}, Original: original})
	return nil
}

// Records adds all records of one kind, each a JSON object on one line.
func (w *Writer) Records(ctx context.Context, kind string, bodies []jsontext.Value) error {
	path := "records/" + kind + ".jsonl"
	if _, ok := recordsKind(path); !ok || w.has[path] {
		return odd(path)
	}
	m, err := w.add(ctx, path, zip.Deflate, func(out io.Writer) error {
		for _, b := range bodies {
			if err := ctx.Err(); err != nil {
				return err
			}
			line := b.Clone()
			if err := line.Compact(); err != nil {
				return fmt.Errorf("writing %s: %w", path, err)
			}
			if _, err := out.Write(append(line, '\n')); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		return err
	}
	w.m.Records = append(w.m.Records, Records{Member: m, Kind: kind, Count: len(bodies)})
	return nil
}

// LeaveOut notes a record that does not travel.
func (w *Writer) LeaveOut(l LeftOut) { w.m.LeftOut = append(w.m.LeftOut, l) }

// Close adds the description and the manifest and ends the archive. It does not
// close what it is written to. It gives the manifest.
func (w *Writer) Close(ctx context.Context) (*Manifest, error) {
	m, err := w.add(ctx, readmeName, zip.Deflate, func(out io.Writer) error {
		_, err := io.Copy(out, strings.NewReader(Format))
		return err
	})
	if err != nil {
		return nil, err
	}
	w.m.Readme = m
	_, err = w.add(ctx, manifestName, zip.Deflate, func(out io.Writer) error {
		return json.MarshalWrite(out, &w.m, jsontext.WithIndent("  "))
	})
	if err != nil {
		return nil, err
	}
	if err := w.zip.Close(); err != nil {
		return nil, fmt.Errorf("ending the archive: %w", err)
	}
	return &w.m, nil
}

// add writes a member and tells its size and fingerprint.
func (w *Writer) add(ctx context.Context, path string, method uint16, fill func(io.Writer) error) (Member, error) {
	out, err := w.create(ctx, path, method)
	if err != nil {
		return Member{}, fmt.Errorf("writing %s: %w", path, err)
	}
	sum := &summing{w: out, sum: sha256.New()}
	if err := fill(sum); err != nil {
		return Member{}, fmt.Errorf("writing %s: %w", path, err)
	}
	return Member{Path: path, Bytes: sum.n, SHA256: hex.EncodeToString(sum.sum.Sum(nil))}, nil
}

func (w *Writer) create(ctx context.Context, path string, method uint16) (io.Writer, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	h := &zip.FileHeader{Name: path, Method: method, Modified: w.m.Made}
	h.SetMode(0o644)
	out, err := w.zip.CreateHeader(h)
	if err == nil {
		w.has[path] = true
	}
	return out, err
}

// summing counts and hashes what it writes.
type summing struct {
	w   io.Writer
	sum hash.Hash
	n   int64
}

// Write implements io.Writer.
func (s *summing) Write(p []byte) (int, error) {
	n, err := s.w.Write(p)
	s.sum.Write(p[:n])
	s.n += int64(n)
	return n, err
}
