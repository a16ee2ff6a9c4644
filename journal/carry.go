package journal

import (
	"context"
	"io"

	"twinloaf/journal/photo"
	"twinloaf/journal/store"
)

// What journal/carry needs beside the records as they are stored (raw.go) to take a
// journal to another place.

// Snapshot runs fn on the journal as it stands, what was typed included: what
// others change meanwhile does not show. fn must not be slow, nor change anything.
func (j *Journal) Snapshot(fn func(r Reader) error) error {
	if err := j.Flush(); err != nil {
		return err
	}
	return j.store.View(func(st *store.Tx) error { return fn(&Tx{st: st, j: j}) })
}

// OpenOriginal opens the original file of a photo, byte for byte, and tells its format.
func (j *Journal) OpenOriginal(hash string) (io.ReadSeekCloser, photo.Format, error) {
	h, err := photo.ParseHash(hash)
	if err != nil {
		return nil, photo.Unknown, err
	}
	return j.files.Open(h)
}

// HasOriginal reports whether the original of a photo lies in the journal; its
// content is not checked.
func (j *Journal) HasOriginal(hash string) bool {
	h, err := photo.ParseHash(hash)
	return err == nil && j.files.Has(h)
}

// Stripped writes a photo without what tells where and with what it was taken.
func (j *Journal) Stripped(ctx context.Context, w io.Writer, hash string) error {
	h, err := photo.ParseHash(hash)
	if err != nil {
		return err
	}
	return j.files.Stripped(ctx, w, h)
}

// Adding keeps originals that no record names yet from being swept until done is
// called, which must be after the change that names them.
func (j *Journal) Adding() (done func()) {
	j.adding.RLock()
	return j.adding.RUnlock
}

// Intake begins to store many originals. Hold [Journal.Adding] around it and the change
// that names them.
func (j *Journal) Intake() *photo.Intake { return j.files.Intake() }
