package demo

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/jpeg"
	"path/filepath"
	"runtime"
	"sync"

	"golang.org/x/sync/errgroup"

	"twinloaf/assets/demo/scene"
	"twinloaf/journal"
	"twinloaf/journal/crumb/phantom"
	"twinloaf/journal/photo"
)

// quality is that of the JPEGs.
const quality = 88

// A print is a picture that has been drawn and stored.
type print struct {
	photo.Added
	// scale is the slice's width, for a cut face.
	scale *journal.Slice
}

// develop draws each picture once, stores it among the originals of the journal
// in dir, and gives them by their keys. Thumbnails are made when they are first
// looked at.
func develop(ctx context.Context, dir string, wanted []shot, progress func(done, of int)) (map[string]print, error) {
	files, err := photo.OpenFiles(filepath.Join(dir, "photos"), photo.Options{})
	if err != nil {
		return nil, err
	}
	var each []shot
	prints := map[string]print{}
	for _, sh := range wanted {
		if _, seen := prints[sh.key]; !seen {
			prints[sh.key] = print{}
			each = append(each, sh)
		}
	}
	painter := scene.NewPainter()
	var mu sync.Mutex
	done := 0
	work, ctx := errgroup.WithContext(ctx)
	work.SetLimit(runtime.GOMAXPROCS(0))
	for _, sh := range each {
		work.Go(func() error {
			p, err := sh.take(ctx, painter, files)
			if err != nil {
				return fmt.Errorf("%s: %w", sh.key, err)
			}
			mu.Lock()
			prints[sh.key] = p
			done++
			n := done
			mu.Unlock()
			if progress != nil {
				progress(n, len(each))
			}
			return nil
		})
	}
	return prints, work.Wait()
}

// take draws a shot and stores it.
func (sh *shot) take(ctx context.Context, painter *scene.Painter, files *photo.Files) (out print, err error) {
	if err := ctx.Err(); err != nil {
		return print{}, err
	}
	var img image.Image
	switch {
	case sh.loaf != nil:
		img = painter.Loaf(*sh.loaf)
	case sh.bowl != nil:
		img = painter.Bowl(*sh.bowl)
	case sh.jar != nil:
		img = painter.Jar(*sh.jar)
	default:
		p, err := phantom.Draw(ctx, *sh.slice)
		if err != nil {
			return print{}, err
		}
		img, out.scale = p.Photo, scaleOf(p.Truth)
	}
	var buf bytes.Buffer
	if err := jpeg.Encode(&buf, img, &jpeg.Options{Quality: quality}); err != nil {
		return print{}, err
	}
	out.Added, err = files.Add(ctx, sh.key, &buf)
	return out, err
}

// scaleOf is the slice's width between its leftmost and its rightmost place.
func scaleOf(t phantom.Truth) *journal.Slice {
	if len(t.Outline) == 0 || t.PxPerMM <= 0 {
		return nil
	}
	left, right := t.Outline[0], t.Outline[0]
	for _, p := range t.Outline {
		if p.X < left.X {
			left = p
		}
		if p.X > right.X {
			right = p
		}
	}
	y := round((left.Y+right.Y)/2, 1)
	return &journal.Slice{
		From: journal.Spot{X: round(left.X, 1), Y: y}, To: journal.Spot{X: round(right.X, 1), Y: y},
		LengthMM: round((right.X-left.X)/t.PxPerMM, 1),
	}
}

// photos writes the record of every shot.
func (s *story) photos(prints map[string]print) {
	for _, sh := range s.wanted {
		p := prints[sh.key]
		rec := &journal.Photo{
			Head: journal.Head{ID: sh.id}, Owner: sh.owner, Role: sh.role, Caption: sh.caption,
			Hash: p.Hash.String(), Bytes: p.Size, Format: p.Meta.Format.String(), Width: p.Meta.Width, Height: p.Meta.Height,
			Taken: sh.at, Added: sh.at, Name: sh.at.Format("20060102_150405") + ".jpg",
		}
		if sh.scaled && p.scale != nil {
			rec.Slice = new(*p.scale)
			rec.Slice.Same = sh.same
		}
		put(s, sh.at, rec)
	}
}
