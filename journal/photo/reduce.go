package photo

import (
	"bytes"
	"context"
	"image"
	"image/jpeg"
	"path/filepath"
)

// Reduce reads the picture at path, which is no picture of the store, and gives it upright,
// its longer side at most maxSide pixels. It waits while others decode.
func (f *Files) Reduce(ctx context.Context, path string, maxSide int) (*image.RGBA, Meta, error) {
	file, err := openPicture(path)
	if err != nil {
		return nil, Meta{}, err
	}
	defer file.Close()
	name := filepath.Base(path)
	meta, err := Inspect(name, file, f.limits)
	if err != nil {
		return nil, Meta{}, err
	}
	done, err := f.decoding(ctx, meta.Width*meta.Height)
	if err != nil {
		return nil, Meta{}, err
	}
	defer done()
	if _, err := file.Seek(0, 0); err != nil {
		return nil, Meta{}, refuseRead(name, err)
	}
	data, err := f.readAll(ctx, name, file)
	if err != nil {
		return nil, Meta{}, err
	}
	pic, err := Decode(name, data, f.limits)
	if err != nil {
		return nil, Meta{}, err
	}
	return pic.Fit(maxSide), pic.Meta, nil
}

// AddImage stores a picture as a JPEG of its own making, as [Files.Add] does.
func (f *Files) AddImage(ctx context.Context, name string, img image.Image) (Added, error) {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: thumbQuality}); err != nil {
		return Added{}, err
	}
	return f.Add(ctx, name, &b)
}
