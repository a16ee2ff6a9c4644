package photo

import (
	"bytes"
	"context"
	"errors"
	"hash/crc32"
	"image"
	"image/draw"
	"image/jpeg"
	"os"
	"path/filepath"
)

// A kept thumbnail is a JPEG followed by a checksum of it, which viewers pass
// over. The file is not synced, so after a power failure it may hold anything; the
// checksum tells.
const (
	thumbQuality = 85
	thumbTag     = "twl1"
	thumbMost    = 32 << 20 // longer than any thumbnail
)

// readThumb reads a kept thumbnail; anything wrong with it is the same as its not
// being there.
func readThumb(path string) (*image.RGBA, bool) {
	info, err := os.Stat(path)
	if err != nil || info.Size() > thumbMost {
		return nil, false
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, false
	}
	const tail = len(thumbTag) + crc32.Size
	if len(data) < tail {
		return nil, false
	}
	body, end := data[:len(data)-tail], data[len(data)-tail:]
	if string(end[:len(thumbTag)]) != thumbTag || be32(end[len(thumbTag):]) != crc32.ChecksumIEEE(body) {
		return nil, false
	}
	src, err := jpeg.Decode(bytes.NewReader(body))
	if err != nil {
		return nil, false
	}
	img := image.NewRGBA(image.Rect(0, 0, src.Bounds().Dx(), src.Bounds().Dy()))
	draw.Draw(img, img.Rect, src, src.Bounds().Min, draw.Src)
	return img, true
}

// writeThumb keeps a thumbnail under its name in one step, by way of a file in root.
func writeThumb(fs FS, root, path string, img *image.RGBA) error {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: thumbQuality}); err != nil {
		return err
	}
	sum := crc32.ChecksumIEEE(b.Bytes())
	b.WriteString(thumbTag)
	b.Write([]byte{byte(sum >> 24), byte(sum >> 16), byte(sum >> 8), byte(sum)})

	if err := fs.MkdirAll(filepath.Dir(path)); err != nil {
		return err
	}
	f, err := fs.CreateTemp(root, incoming)
	if err != nil {
		return err
	}
	_, err = f.Write(b.Bytes())
	if err = errors.Join(err, f.Close()); err == nil {
		err = fs.Rename(f.Name(), path)
	}
	if err != nil {
		return errors.Join(err, fs.Remove(f.Name()))
	}
	return nil
}

func isCancelled(err error) bool {
	return errors.Is(err, context.Canceled) || errors.Is(err, context.DeadlineExceeded)
}
