package journal

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"time"

	"twinloaf/journal/backup"
	"twinloaf/journal/photo"
	"twinloaf/journal/say"
	"twinloaf/journal/store"
)

// freshFor is how long an original stays that nothing names: nobody looks for what was
// just put there.
const freshFor = 24 * time.Hour

// Unneeded are the originals that no record, no step of the history and no backup
// names. Nothing of the program shows them any more.
type Unneeded struct {
	Pictures int
	Bytes    int64
}

// ErrAdding means that pictures are being added, so that nobody can tell yet what is
// needed.
var ErrAdding = say.NewError("pictures are being added; try again when they are in")

// UnneededOriginals tells what [Journal.SweepOriginals] would delete. It is an error if
// something that might name originals cannot be read, such as a backups folder whose
// disk is not plugged in.
func (j *Journal) UnneededOriginals(ctx context.Context) (Unneeded, error) {
	if !j.adding.TryLock() {
		return Unneeded{}, ErrAdding
	}
	defer j.adding.Unlock()
	all, err := j.unneeded(ctx)
	return sumUp(all), err
}

// SweepOriginals deletes them, for good. It tells what was deleted, after an error too.
func (j *Journal) SweepOriginals(ctx context.Context) (Unneeded, error) {
	if !j.adding.TryLock() {
		return Unneeded{}, ErrAdding
	}
	defer j.adding.Unlock()
	all, err := j.unneeded(ctx)
	if err != nil {
		return Unneeded{}, err
	}
	for i, s := range all {
		if err := errors.Join(ctx.Err(), j.files.Delete(s)); err != nil {
			return sumUp(all[:i]), fmt.Errorf("deleting the pictures that nothing needs: %w", err)
		}
	}
	return sumUp(all), nil
}

func sumUp(all []photo.Stored) Unneeded {
	u := Unneeded{Pictures: len(all)}
	for _, s := range all {
		u.Bytes += s.Size
	}
	return u
}

// unneeded lists the originals that nothing names. The caller holds adding, so that no
// record is about to name one of them.
func (j *Journal) unneeded(ctx context.Context) ([]photo.Stored, error) {
	named, err := j.namedOriginals(ctx)
	if err != nil {
		return nil, fmt.Errorf("looking for pictures that nothing needs: %w", err)
	}
	stored, err := j.files.List(ctx)
	if err != nil {
		return nil, fmt.Errorf("looking for pictures that nothing needs: %w", err)
	}
	return slices.DeleteFunc(stored, func(s photo.Stored) bool { return named[s.Hash] || j.Now().Sub(s.Modified) < freshFor }), nil
}

func (j *Journal) namedOriginals(ctx context.Context) (map[photo.Hash]bool, error) {
	var c backup.Content
	err := j.view(func(st *store.Tx) (err error) {
		c, err = contentOf(ctx, st)
		return err
	})
	if err != nil {
		return nil, err
	}
	if c.Unlisted {
		return nil, say.NewError("a record that may name a picture cannot be read")
	}
	if damaged, err := os.ReadDir(filepath.Join(j.dir, AsideFolder)); err == nil && len(damaged) > 0 {
		return nil, say.NewError("a damaged file of the journal is kept that may name pictures")
	}
	named := map[photo.Hash]bool{}
	add := func(all []backup.Original) {
		for _, o := range all {
			named[o.Hash] = true
		}
	}
	add(c.Originals)
	backups, err := j.backups.List(ctx)
	if err != nil {
		return nil, err
	}
	for _, b := range backups {
		originals, err := b.Originals()
		if err != nil {
			return nil, err
		}
		add(originals)
	}
	return named, nil
}

// MissingPhotos lists the photos, those in the bin too, whose originals are not there.
func (j *Journal) MissingPhotos(ctx context.Context) ([]*Photo, error) {
	stored, err := j.files.List(ctx)
	if err != nil {
		return nil, fmt.Errorf("looking for missing pictures: %w", err)
	}
	there := map[string]bool{}
	for _, s := range stored {
		there[s.Hash.String()] = true
	}
	return collect[Photo](j, func(p *Photo) bool { return !there[p.Hash] })
}
