package photo

import (
	"context"
	"fmt"
	"image"
	"io"
	"path/filepath"
	"strconv"

	xdraw "golang.org/x/image/draw"
	"golang.org/x/sync/singleflight"
)

// Size is a thumbnail's longer side in pixels. A photo smaller than that is not
// scaled up.
type Size int

// The sizes that are kept.
const (
	Small  Size = 320  // a row of a list, at twice the density too
	Medium Size = 640  // a card of a grid
	Large  Size = 1600 // a photo opened, before its full size is there
)

// eager are the sizes that an addition makes at once, the largest first: each is
// made from the one before. Large is made when it is first looked at.
var eager = []Size{Medium, Small}

// recipe names the way thumbnails are made. A change of it leaves the old ones
// aside.
const recipe = "thumbs-1"

// Thumbs gives stored photos in smaller sizes, upright, and keeps them as files
// in a folder that may be deleted at any time. What is missing or damaged there is
// made again. Its methods take their time and belong on a goroutine of their own;
// they are safe for concurrent use, and those who ask for the same thumbnail share
// the work.
type Thumbs struct {
	files  *Files
	dir    string
	fs     FS
	flight singleflight.Group
}

// NewThumbs makes the cache of a store's thumbnails in dir and deletes what a
// crash has left half written there. The folder is made when the first thumbnail is
// kept. A nil fs means Disk.
func NewThumbs(files *Files, dir string, fs FS) *Thumbs {
	if fs == nil {
		fs = Disk{}
	}
	t := &Thumbs{files: files, dir: filepath.Join(dir, recipe), fs: fs}
	_ = removeUnfinished(fs, t.dir) // in a cache it only takes room
	return t
}

// AddFile adds the picture at path to the store, as [Files.AddFile] does, and makes
// its thumbnails from the same decoding.
func (t *Thumbs) AddFile(ctx context.Context, path string) (Added, error) {
	return t.files.addFile(ctx, path, t.makeEager)
}

// Add is [Files.Add] with the thumbnails made from the same decoding.
func (t *Thumbs) Add(ctx context.Context, name string, r io.Reader) (Added, error) {
	return t.files.add(ctx, name, r, t.makeEager)
}

// Get gives a photo in a size. Others may hold the same picture: it is to be looked
// at, not drawn on.
//
// A cancelled ctx ends the wait at once. When the original is gone or damaged the
// error is an *Error; a cache that cannot be written to is no error.
func (t *Thumbs) Get(ctx context.Context, h Hash, size Size) (*image.RGBA, error) {
	if size <= 0 {
		return nil, fmt.Errorf("thumbnail of %d pixels", size)
	}
	for {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		if img, ok := readThumb(t.path(h, size)); ok {
			return img, nil
		}
		key := h.String() + "/" + strconv.Itoa(int(size))
		result := t.flight.DoChan(key, func() (any, error) { return t.make(ctx, h, size) })
		select {
		case <-ctx.Done():
			return nil, ctx.Err()
		case r := <-result:
			if r.Err == nil {
				return r.Val.(*image.RGBA), nil
			}
			if !isCancelled(r.Err) {
				return nil, r.Err
			}
			// The one who began this work gave up, not we: begin again.
		}
	}
}

// path is where a thumbnail is kept.
func (t *Thumbs) path(h Hash, size Size) string {
	name := h.String()
	return filepath.Join(t.dir, strconv.Itoa(int(size)), name[:2], name+".jpg")
}

// make makes one thumbnail from the original, unless it is there by now.
func (t *Thumbs) make(ctx context.Context, h Hash, size Size) (*image.RGBA, error) {
	if img, ok := readThumb(t.path(h, size)); ok {
		return img, nil // another has just made it
	}
	var img *image.RGBA
	if err := t.files.withPicture(ctx, h, func(p *Picture) { img = p.Fit(int(size)) }); err != nil {
		return nil, err
	}
	t.keep(h, size, img)
	return img, nil
}

// makeEager makes the thumbnails of a photo being added.
func (t *Thumbs) makeEager(h Hash, p *Picture) {
	var img *image.RGBA
	for _, size := range eager {
		if img == nil {
			img = p.Fit(int(size))
		} else {
			img = smaller(img, int(size))
		}
		t.keep(h, size, img)
	}
}

// smaller scales an upright picture down to a longer side of maxSide.
func smaller(src *image.RGBA, maxSide int) *image.RGBA {
	w, h := fitted(src.Rect.Dx(), src.Rect.Dy(), maxSide)
	if w == src.Rect.Dx() && h == src.Rect.Dy() {
		return src
	}
	dst := image.NewRGBA(image.Rect(0, 0, w, h))
	xdraw.CatmullRom.Scale(dst, dst.Rect, src, src.Rect, xdraw.Src, nil)
	return dst
}

// keep writes a thumbnail to the cache. A full disk or a folder that cannot be
// written to costs only the time to make it again, so it is no error.
func (t *Thumbs) keep(h Hash, size Size, img *image.RGBA) {
	_ = writeThumb(t.fs, t.dir, t.path(h, size), img)
}
