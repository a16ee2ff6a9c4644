package journal

import (
	"context"
	"errors"
	"image"
	"io"
	"slices"
	"sync/atomic"

	"golang.org/x/sync/errgroup"

	"twinloaf/journal/photo"
)

// A Picture is a file to be added: a name for the baker, and its bytes.
type Picture struct {
	Name string
	// Path is the file's; or else Open gives its bytes.
	Path string
	Open func() (io.ReadCloser, error)
}

// AddPictures adds pictures to the record owner, two at a time, and commits
// them as one change. What cannot be added is told in refused, a sentence each
// that names the file; the others still go in. A cancelled ctx stops adding: what is
// in by then stays in, and err is ctx's. progress, which may be nil, is called
// from any goroutine with how many are done.
func (j *Journal) AddPictures(ctx context.Context, label string, owner Ref, role Role, pictures []Picture, progress func(done int)) (added []ID, refused []error, err error) {
	j.adding.RLock()
	defer j.adding.RUnlock()
	if j.Closed() {
		return nil, nil, ErrClosed
	}
	photos := make([]*Photo, len(pictures))
	failures := make([]error, len(pictures))
	var done atomic.Int64
	var work errgroup.Group
	work.SetLimit(2)
	for i, p := range pictures {
		if ctx.Err() != nil {
			break
		}
		work.Go(func() error {
			photos[i], failures[i] = j.storePicture(ctx, owner, role, p)
			if n := done.Add(1); progress != nil {
				progress(int(n))
			}
			return nil
		})
	}
	_ = work.Wait() // each failure is kept beside its picture
	for _, f := range failures {
		if f != nil && !errors.Is(f, context.Canceled) && !errors.Is(f, context.DeadlineExceeded) {
			refused = append(refused, f)
		}
	}
	if !slices.ContainsFunc(photos, func(p *Photo) bool { return p != nil }) {
		return nil, refused, ctx.Err()
	}
	err = j.Do(label, func(tx *Tx) error {
		added = added[:0]
		for _, p := range photos {
			if p == nil {
				continue
			}
			if err := Put(tx, p); err != nil {
				return err
			}
			added = append(added, p.ID)
		}
		return nil
	})
	if err != nil {
		return nil, refused, err
	}
	return added, refused, ctx.Err()
}

// storePicture keeps the original and describes it; the record is not written yet.
func (j *Journal) storePicture(ctx context.Context, owner Ref, role Role, p Picture) (*Photo, error) {
	var a photo.Added
	var err error
	if p.Open != nil {
		var r io.ReadCloser
		if r, err = p.Open(); err != nil {
			return nil, &photo.Error{Name: p.Name, Kind: photo.ErrUnreadable, Err: err}
		}
		defer r.Close()
		a, err = j.thumbs.Add(ctx, p.Name, r)
	} else {
		a, err = j.thumbs.AddFile(ctx, p.Path)
	}
	if err != nil {
		return nil, err
	}
	now := j.Now()
	return &Photo{
		Owner: owner, Role: role, Name: p.Name, Added: now,
		Hash: a.Hash.String(), Bytes: a.Size, Format: a.Meta.Format.String(),
		Width: a.Meta.Width, Height: a.Meta.Height, Taken: a.Meta.TakenIn(now.Location()),
	}, nil
}

// Thumb gives a stored photo no larger than size on its longer side, upright,
// from the cache where it can. It takes its time. The picture may be shared: it is not
// to be drawn on.
func (j *Journal) Thumb(ctx context.Context, hash string, size photo.Size) (*image.RGBA, error) {
	h, err := photo.ParseHash(hash)
	if err != nil {
		return nil, err
	}
	return j.thumbs.Get(ctx, h, size)
}

// FullSize gives a stored photo upright, no larger than maxSide on its longer
// side; 0 means as large as it is.
func (j *Journal) FullSize(ctx context.Context, hash string, maxSide int) (*image.RGBA, error) {
	h, err := photo.ParseHash(hash)
	if err != nil {
		return nil, err
	}
	return j.files.DecodeUpright(ctx, h, maxSide)
}

// Photos lists the photos of a record in the order in which they were taken.
func Photos(r Reader, owner ID) ([]*Photo, error) { return Linked[Photo](r, owner) }
