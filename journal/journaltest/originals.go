package journaltest

import (
	"bytes"
	"cmp"
	"context"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"math/rand/v2"
	"path/filepath"
	"runtime"

	"golang.org/x/sync/errgroup"

	"twinloaf/journal"
	"twinloaf/journal/photo"
)

// pictures stores small JPEGs of different contents as originals of the journal
// in dir and tells what a photo record says of each.
func pictures(ctx context.Context, dir string, spec Spec) ([]journal.Photo, error) {
	n := cmp.Or(spec.Contents, 200)
	if spec.Photos == 0 {
		return nil, nil
	}
	files, err := photo.OpenFiles(filepath.Join(dir, "photos"), photo.Options{})
	if err != nil {
		return nil, err
	}
	out := make([]journal.Photo, min(n, spec.Photos))
	work, ctx := errgroup.WithContext(ctx)
	work.SetLimit(4 * runtime.GOMAXPROCS(0)) // it is the disk that is waited for
	for i := range out {
		work.Go(func() error {
			name := fmt.Sprintf("picture-%d.jpg", i)
			a, err := files.Add(ctx, name, bytes.NewReader(small(spec.Seed, i)))
			if err != nil {
				return err
			}
			out[i] = journal.Photo{
				Name: name, Hash: a.Hash.String(), Bytes: a.Size, Format: a.Meta.Format.String(),
				Width: a.Meta.Width, Height: a.Meta.Height,
			}
			return nil
		})
	}
	return out, work.Wait()
}

// small is a JPEG of a loaf, more or less: an oval on a ground.
func small(seed uint64, i int) []byte {
	rng := rand.New(rand.NewPCG(seed, uint64(i)))
	shade := func() uint8 { return uint8(60 + rng.IntN(180)) }
	ground, crust := color.RGBA{shade(), shade(), shade(), 255}, color.RGBA{shade(), shade(), 40, 255}
	const w, h = 400, 300
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	a, b := 80+90*rng.Float64(), 50+80*rng.Float64()
	for y := range h {
		for x := range w {
			u, v := (float64(x)-w/2)/a, (float64(y)-h/2)/b
			c := ground
			if u*u+v*v < 1 {
				c = crust
			}
			img.SetRGBA(x, y, c)
		}
	}
	var buf bytes.Buffer
	if err := jpeg.Encode(&buf, img, nil); err != nil {
		panic(err) // a picture of a fixed size into memory: it cannot fail
	}
	return buf.Bytes()
}
