package carry

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"
	"slices"
	"strconv"

	"github.com/go-json-experiment/json/jsontext"
	"golang.org/x/sync/errgroup"

	"twinloaf/journal"
	"twinloaf/journal/archive"
	"twinloaf/journal/photo"
)

// Write writes the archive. What is written is of no use unless it returns without
// an error. Pictures that are missing, or cannot be cleaned, are left out with their
// records, as the manifest tells. progress, which may be nil, is told how many bytes of
// pictures are done.
func (p *Packing) Write(ctx context.Context, w io.Writer, progress func(done int64)) (*archive.Manifest, error) {
	m := archive.Manifest{Made: p.j.Now(), Scope: p.Scope}
	for _, ref := range p.chosen {
		m.Chosen = append(m.Chosen, archive.Ref{Kind: string(ref.Kind), ID: string(ref.ID)})
	}
	out := archive.NewWriter(w, m)
	gone, err := p.writePictures(ctx, out, progress)
	if err != nil {
		return nil, err
	}
	for _, l := range p.LeftOut {
		out.LeaveOut(l)
	}
	for _, kind := range journal.Kinds() {
		var bodies []jsontext.Value
		for _, raw := range p.records[kind] {
			body := raw.Body
			if kind == journal.KindPhoto {
				how := gone[fileOf(raw).hash]
				if how.why != "" {
					out.LeaveOut(leftOut(raw, how.why))
					continue
				}
				if body, err = how.named(body); err != nil {
					return nil, err
				}
			}
			bodies = append(bodies, body)
		}
		if len(bodies) == 0 {
			continue
		}
		if err := out.Records(ctx, string(kind), bodies); err != nil {
			return nil, err
		}
	}
	return out.Close(ctx)
}

// went is how a picture went.
type went struct {
	why   archive.Why // why it did not go; empty when it did
	hash  string      // of what went, where it is not the original
	bytes int
}

// named gives a photo record that names what went.
func (w went) named(body jsontext.Value) (jsontext.Value, error) {
	if w.hash == "" {
		return body, nil
	}
	return archive.With(body, map[string]jsontext.Value{
		"hash":  jsontext.Value(strconv.Quote(w.hash)),
		"bytes": jsontext.Value(strconv.Itoa(w.bytes)),
	})
}

// A loaded picture is in memory, ready to be written.
type loaded struct {
	picture
	data   []byte
	format photo.Format
	err    error
}

// writePictures writes every picture; the next is read while one is written.
func (p *Packing) writePictures(ctx context.Context, out *archive.Writer, progress func(int64)) (map[string]went, error) {
	work, ctx := errgroup.WithContext(ctx)
	ready := make(chan loaded, 1)
	work.Go(func() error {
		defer close(ready)
		for _, pic := range p.pictures {
			select {
			case ready <- p.load(ctx, pic):
			case <-ctx.Done():
				return ctx.Err()
			}
		}
		return nil
	})
	gone := map[string]went{}
	work.Go(func() error {
		done := int64(0)
		for pic := range ready {
			how, err := p.writePicture(ctx, out, pic)
			if err != nil {
				return err
			}
			gone[pic.hash] = how
			if done += pic.bytes; progress != nil {
				progress(done)
			}
		}
		return ctx.Err()
	})
	return gone, work.Wait()
}

// load reads a picture, without place and device where a choice goes.
func (p *Packing) load(ctx context.Context, pic picture) loaded {
	l := loaded{picture: pic}
	r, format, err := p.j.OpenOriginal(pic.hash)
	if err != nil {
		l.err = err
		return l
	}
	defer r.Close()
	l.format = format
	buf := bytes.NewBuffer(make([]byte, 0, min(pic.bytes, archive.MaxPhoto)+bytes.MinRead))
	if p.Scope == archive.Choice {
		l.err = p.j.Stripped(ctx, buf, pic.hash)
	} else {
		_, l.err = buf.ReadFrom(r)
	}
	l.data = buf.Bytes()
	return l
}

func (p *Packing) writePicture(ctx context.Context, out *archive.Writer, pic loaded) (went, error) {
	if err := ctx.Err(); err != nil {
		return went{}, err
	}
	if pic.err != nil {
		if p.Scope == archive.Choice && !slices.ContainsFunc([]error{photo.ErrMissing, photo.ErrAltered, photo.ErrUnreadable},
			func(kind error) bool { return errors.Is(pic.err, kind) }) {
			return went{why: archive.NotCleaned}, nil
		}
		return went{why: archive.NoPicture}, nil
	}
	if p.Scope == archive.Whole {
		err := out.Photo(ctx, pic.hash, pic.format.Ext(), "", pic.data)
		if errors.Is(err, archive.ErrAltered) || errors.Is(err, archive.ErrTooLarge) {
			return went{why: archive.NoPicture}, nil
		}
		return went{}, err
	}
	sum := sha256.Sum256(pic.data)
	hash := hex.EncodeToString(sum[:])
	if hash == pic.hash { // there was nothing to take out
		return went{}, out.Photo(ctx, hash, pic.format.Ext(), "", pic.data)
	}
	return went{hash: hash, bytes: len(pic.data)}, out.Photo(ctx, hash, pic.format.Ext(), pic.hash, pic.data)
}
