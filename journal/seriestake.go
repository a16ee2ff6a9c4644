package journal

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"image"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"time"

	"golang.org/x/sync/errgroup"

	"twinloaf/journal/jar"
	"twinloaf/journal/photo"
	"twinloaf/journal/say"
)

// frameSide is how long the longer side of the small pictures of a series is, in pixels:
// a jar that fills most of one is read as surely as in the original.
const frameSide = 480

// FrameBytes is about what a small picture takes on the disk: from made-up series.
const FrameBytes = 30_000

// A SeriesPlan is what some files would be as a series, before anything is kept.
type SeriesPlan struct {
	Order  jar.Order
	Shots  []jar.Shot // of the files that are pictures; the names are paths under Folder
	Folder string
	Bytes  int64 // of the files of Order
	// Refused are the files that are no pictures, a sentence each.
	Refused []error
}

// PlanSeries looks at the heads of some files: when each was taken, and which go together.
// Files without a path, such as a pasted picture, are left out.
func (j *Journal) PlanSeries(ctx context.Context, files []Picture) (SeriesPlan, error) {
	var p SeriesPlan
	var sizes []int64
	files = slices.DeleteFunc(slices.Clone(files), func(f Picture) bool { return f.Path == "" })
	for i, f := range files {
		if dir := filepath.Dir(f.Path); i == 0 {
			p.Folder = dir
		} else {
			for p.Folder != dir && !strings.HasPrefix(dir, p.Folder+string(filepath.Separator)) && p.Folder != filepath.Dir(p.Folder) {
				p.Folder = filepath.Dir(p.Folder)
			}
		}
	}
	for _, f := range files {
		if err := ctx.Err(); err != nil {
			return p, err
		}
		meta, err := photo.InspectFile(f.Path, photo.Limits{})
		if err != nil {
			p.Refused = append(p.Refused, err)
			continue
		}
		info, err := os.Stat(f.Path)
		if err != nil {
			p.Refused = append(p.Refused, err)
			continue
		}
		name, err := filepath.Rel(p.Folder, f.Path)
		if err != nil {
			return p, fmt.Errorf("naming %q: %w", f.Path, err)
		}
		p.Shots = append(p.Shots, jar.Shot{Name: name, Taken: meta.TakenIn(j.Now().Location()), Filed: info.ModTime()})
		sizes = append(sizes, info.Size())
	}
	p.Order = jar.Ordered(p.Shots)
	for _, i := range p.Order.Which {
		p.Bytes += sizes[i]
	}
	return p, nil
}

// BeginSeries writes down a series that is to be read, of the jars given; whole says that
// every original is to be kept. It is not undone:
// reading it takes minutes, and what was read of it by then is kept. It can be put in the
// bin.
func (j *Journal) BeginSeries(p SeriesPlan, whole bool, jars ...SeriesJar) (ID, error) {
	s := Series{Name: filepath.Base(p.Folder), Added: j.Now(), Whole: whole, Folder: p.Folder, Jars: jars}
	for _, i := range p.Order.Which {
		s.Files = append(s.Files, p.Shots[i].Name)
	}
	if len(p.Order.At) > 0 {
		s.From = p.Order.At[0]
	}
	err := j.DoWithoutUndo("a row of pictures", func(tx *Tx) error { return Put(tx, &s) })
	return s.ID, err
}

// ErrNoFolder means that the folder that a series is read from is not there.
var ErrNoFolder = say.NewError("the folder of the pictures is not there any more")

// A framing is a file of a series that was read.
type framing struct {
	photo *Photo
	img   *image.RGBA
	name  string
	err   error
}

// TakeSeries reads the files of a series that were not read yet, two at a time, the first
// picture before all others. What was read is written down every few seconds, so that it
// goes on from there when it was cut off. got, which may be nil, is told of each picture
// as it is kept, on the goroutine of the caller. A cancelled context stops it. Files that
// cannot be read are named in the series at the end, and told in refused.
func (j *Journal) TakeSeries(ctx context.Context, id ID, got func(p *Photo, img *image.RGBA)) (refused []error, err error) {
	j.adding.RLock()
	defer j.adding.RUnlock()
	if j.Closed() {
		return nil, ErrClosed
	}
	s, err := Get[Series](j, id)
	if err != nil {
		return nil, err
	}
	frames, err := Frames(j, s)
	if err != nil {
		return nil, err
	}
	files := slices.DeleteFunc(slices.Clone(s.Files), func(name string) bool {
		return slices.ContainsFunc(frames, func(p *Photo) bool { return p.Name == name })
	})
	if len(files) > 0 && !isThere(s.Folder) {
		return nil, ErrNoFolder
	}
	t := seriesTaking{j: j, series: s, got: got}
	if len(frames) > 0 {
		t.size = image.Pt(frames[0].Width, frames[0].Height)
	}
	err = j.takeFiles(ctx, s, files, t.keep)
	if err != nil || len(t.bad) == 0 {
		return t.refused, err
	}
	return t.refused, j.DoWithoutUndo("reading a row of pictures", func(tx *Tx) error {
		return Change(tx, id, func(s *Series) {
			for _, name := range t.bad {
				if !slices.Contains(s.Refused, name) {
					s.Refused = append(s.Refused, name)
				}
			}
		})
	})
}

// seriesTaking is what has been taken of a series so far.
type seriesTaking struct {
	j       *Journal
	series  *Series
	size    image.Point // of its pictures, once one is known
	got     func(*Photo, *image.RGBA)
	refused []error
	bad     []string // the names of those refused
}

// keep writes down pictures that were read, and sets aside the files that are none.
func (t *seriesTaking) keep(all []framing) error {
	var keep []*Photo
	for i, f := range all {
		switch {
		case errors.Is(f.err, photo.ErrNoSpace), errors.Is(f.err, photo.ErrNotStored):
			return f.err
		case f.err != nil && !isThere(t.series.Folder):
			return ErrNoFolder
		case f.err != nil:
			t.refuse(f.name, f.err)
		case t.size != image.Point{} && t.size != f.img.Rect.Size():
			t.refuse(f.name, &photo.Error{Name: f.name, Kind: photo.ErrOtherSize})
			all[i].photo = nil
		default:
			t.size = f.img.Rect.Size()
			keep = append(keep, f.photo)
		}
	}
	if len(keep) == 0 {
		return nil
	}
	err := t.j.DoWithoutUndo("reading a row of pictures", func(tx *Tx) error {
		if _, err := Get[Series](tx, t.series.ID); err != nil {
			return err // it is gone: nothing of it is kept any more
		}
		for _, p := range keep {
			if err := Put(tx, p); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil || t.got == nil {
		return err
	}
	for _, f := range all {
		if f.photo != nil {
			t.got(f.photo, f.img)
		}
	}
	return nil
}

func (t *seriesTaking) refuse(name string, err error) {
	t.refused, t.bad = append(t.refused, err), append(t.bad, name)
}

func isThere(folder string) bool {
	info, err := os.Stat(folder)
	return err == nil && info.IsDir()
}

// commitEvery is how long pictures that were read wait to be written down together.
const commitEvery = 2 * time.Second

// takeFiles reads files and hands what was read to keep, some at a time, the first alone.
func (j *Journal) takeFiles(ctx context.Context, s *Series, files []string, keep func([]framing) error) error {
	if len(files) == 0 {
		return nil
	}
	first := j.takeFile(ctx, s, files[0])
	if err := ctx.Err(); err != nil {
		return err
	}
	if err := keep([]framing{first}); err != nil {
		return err
	}
	var mu sync.Mutex
	var waiting []framing
	work, within := errgroup.WithContext(ctx)
	work.SetLimit(2)
	ended := make(chan error, 1)
	go func() {
		for _, name := range files[1:] {
			if within.Err() != nil {
				break
			}
			work.Go(func() error {
				f := j.takeFile(within, s, name)
				if within.Err() != nil {
					return within.Err()
				}
				mu.Lock()
				defer mu.Unlock()
				waiting = append(waiting, f)
				return nil
			})
		}
		ended <- work.Wait()
	}()
	commit := func() error {
		mu.Lock()
		all := waiting
		waiting = nil
		mu.Unlock()
		return keep(all)
	}
	tick := time.NewTicker(commitEvery)
	defer tick.Stop()
	for {
		select {
		case <-tick.C:
			if err := commit(); err != nil {
				return errors.Join(err, <-ended)
			}
		case err := <-ended:
			return cmp.Or(commit(), err, ctx.Err())
		}
	}
}

// takeFile stores the small picture of a file.
func (j *Journal) takeFile(ctx context.Context, s *Series, name string) framing {
	f := framing{name: name}
	path := filepath.Join(s.Folder, name)
	img, meta, err := j.files.Reduce(ctx, path, frameSide)
	if err != nil {
		f.err = err
		return f
	}
	a, err := j.files.AddImage(ctx, name, img)
	if err != nil {
		f.err = err
		return f
	}
	f.img = img
	f.photo = &Photo{
		Owner: RefOf(s), Role: RoleFrame, Name: name, Added: j.Now(), Hash: a.Hash.String(), Bytes: a.Size,
		Format: a.Meta.Format.String(), Width: a.Meta.Width, Height: a.Meta.Height, Taken: meta.TakenIn(j.Now().Location()),
	}
	if info, err := os.Stat(path); err == nil && f.photo.Taken.IsZero() {
		f.photo.Filed = info.ModTime()
	}
	return f
}
