package journal

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"golang.org/x/sync/errgroup"

	"twinloaf/journal/photo"
	"twinloaf/journal/store"
)

// folderPrefix is before the series' ID in the key under which the folder of its files is
// remembered once they are read. It is no part of the record: a path is of use on this
// computer alone, and nobody else's business.
const folderPrefix = "folder/"

// FinishSeries ends reading a series: it keeps the originals of the frames named, or of all
// if it is to be kept whole, as [Journal.KeepOriginals] does, and takes the folder and the
// files out of the record.
func (j *Journal) FinishSeries(ctx context.Context, id ID, label string, frames []*Photo) (refused []error, err error) {
	s, err := Get[Series](j, id)
	if err != nil || !s.Reading() {
		return nil, err
	}
	if s.Whole {
		if frames, err = Frames(j, s); err != nil {
			return nil, err
		}
	}
	if refused, err = j.KeepOriginals(ctx, s, label, frames); err != nil {
		return refused, err
	}
	return refused, j.DoWithoutUndo("reading a row of pictures", func(tx *Tx) error {
		folder := derived[string]{Value: s.Folder}
		if err := keepDerived(tx.st, folderPrefix+string(id), folder); err != nil {
			return err
		}
		return Change(tx, id, func(s *Series) { s.Folder, s.Files = "", nil })
	})
}

// FilesOf is the folder in which the files of a series are, or were when they were read;
// empty where that is not known on this computer.
func FilesOf(r Reader, s *Series) (folder string, err error) {
	if s.Folder != "" {
		return s.Folder, nil
	}
	err = r.view(func(tx *store.Tx) error {
		d, _ := readDerived[string](tx, folderPrefix+string(s.ID))
		folder = d.Value
		return nil
	})
	return folder, err
}

// KeepOriginals keeps the originals of frames of a series, each as a photo that belongs to its
// frame; those that are kept stay as they are. An original that is not there any more is told
// in refused. Undoing what label names takes the originals away again.
func (j *Journal) KeepOriginals(ctx context.Context, s *Series, label string, frames []*Photo) (refused []error, err error) {
	j.adding.RLock()
	defer j.adding.RUnlock()
	if j.Closed() {
		return nil, ErrClosed
	}
	folder, err := FilesOf(j, s)
	if err != nil {
		return nil, err
	}
	if folder == "" && len(frames) > 0 {
		return nil, ErrNoFolder
	}
	originals, failures := make([]*Photo, len(frames)), make([]error, len(frames))
	work, within := errgroup.WithContext(ctx)
	work.SetLimit(2)
	for i, p := range frames {
		there, err := Photos(j, p.ID)
		if err != nil {
			return nil, errors.Join(err, work.Wait())
		}
		if len(there) > 0 {
			continue // kept before, or it was cut off the last time
		}
		work.Go(func() error {
			file := Picture{Name: filepath.Base(p.Name), Path: filepath.Join(folder, p.Name)}
			originals[i], failures[i] = j.storePicture(within, RefOf(p), RoleJar, file)
			return within.Err()
		})
	}
	if err := work.Wait(); err != nil {
		return nil, err
	}
	var keep []*Photo
	for i, err := range failures {
		switch {
		case errors.Is(err, photo.ErrNoSpace), errors.Is(err, photo.ErrNotStored):
			return nil, err
		case err != nil:
			refused = append(refused, err)
		case originals[i] != nil:
			keep = append(keep, originals[i])
		}
	}
	if len(keep) == 0 {
		return refused, nil
	}
	return refused, j.Do(label, func(tx *Tx) error {
		for _, p := range keep {
			if err := Put(tx, p); err != nil {
				return err
			}
		}
		return nil
	})
}

// OriginalsLeft looks for the files of frames whose originals are not kept, and gives the bytes
// of each by its frame.
func (j *Journal) OriginalsLeft(ctx context.Context, s *Series, frames []*Photo) (map[ID]int64, error) {
	folder, err := FilesOf(j, s)
	if err != nil || folder == "" {
		return nil, err
	}
	left := map[ID]int64{}
	for _, p := range frames {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		there, err := Photos(j, p.ID)
		if err != nil {
			return nil, fmt.Errorf("looking for originals: %w", err)
		}
		info, err := os.Stat(filepath.Join(folder, p.Name))
		if len(there) == 0 && err == nil && info.Mode().IsRegular() {
			left[p.ID] = info.Size()
		}
	}
	return left, nil
}

// OriginalsOf gives the originals that are kept of a series, in the order of its frames.
func OriginalsOf(r Reader, frames []*Photo) ([]*Photo, error) {
	var out []*Photo
	for _, p := range frames {
		photos, err := Photos(r, p.ID)
		if err != nil {
			return nil, err
		}
		out = append(out, photos...)
	}
	return out, nil
}
