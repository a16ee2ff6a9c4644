package photo

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"image"
	"image/color"
	"io"
	"slices"

	"github.com/bep/imagemeta"
	"github.com/gen2brain/heic"
)

// heicConfig tells the size of a HEIC from its boxes, turned as the picture asks,
// and refuses one whose boxes reach beyond the end of the file: the decoder
// would show the missing part as grey.
func heicConfig(r io.ReadSeeker, size int64) (image.Config, error) {
	boxes, err := outerBoxes(r, size)
	if err != nil {
		return image.Config{}, err
	}
	if err := countItems(r, boxes); err != nil {
		return image.Config{}, err
	}
	if _, err := r.Seek(0, io.SeekStart); err != nil {
		return image.Config{}, err
	}
	res, err := imagemeta.Decode(imagemeta.Options{
		R:           &budgetReader{r: r, left: metaBudget},
		ImageFormat: imagemeta.HEIF,
		Sources:     imagemeta.CONFIG,
	})
	if err != nil {
		return image.Config{}, err
	}
	return image.Config{ColorModel: color.YCbCrModel, Width: res.ImageConfig.Width, Height: res.ImageConfig.Height}, nil
}

// countItems refuses a list of places that claims more items than its bytes can hold:
// the reader of metadata would count to the end of them all the same.
func countItems(r io.ReadSeeker, boxes []fileBox) error {
	for _, b := range boxes {
		if b.kind != "meta" {
			continue
		}
		if b.size > longestMeta || b.size < b.head+4 {
			return fmt.Errorf("a list of items of %d bytes", b.size)
		}
		data := make([]byte, b.size)
		if err := readAt(r, b.at, data); err != nil {
			return err
		}
		children, err := innerBoxes(data[b.head+4:])
		if err != nil {
			return err
		}
		for _, c := range children {
			if string(c[4:8]) != "iloc" {
				continue
			}
			l := bits{b: c[8:]}
			version := l.take(4) >> 24
			l.take(2)
			wide := 2
			if version >= 2 {
				wide = 4
			}
			// An item has at least its number, a reference and a count.
			if n := l.take(wide); version > 2 || l.bad || n > uint64(len(l.b)/(wide+4)) {
				return errItems
			}
		}
	}
	return nil
}

// decodeHEIC decodes in the WebAssembly sandbox, once the decoder has said that
// it sees no larger picture than the header showed us.
func decodeHEIC(data []byte, limits Limits) (img image.Image, err error) {
	// The glue between the sandbox and Go slices planes by sizes that the file
	// chose; what goes wrong there must not take the journal down.
	defer func() {
		if r := recover(); r != nil {
			img, err = nil, fmt.Errorf("heic decoder: %v", r)
		}
	}()
	// The decoder looks for the size in the first 32 KB only. Where it finds none
	// there, the header's word stands.
	cfg, err := heic.DecodeConfig(bytes.NewReader(data))
	if err == nil && cfg.Height > 0 && !limits.allow(cfg) {
		return nil, fmt.Errorf("the decoder sees %d x %d pixels", cfg.Width, cfg.Height)
	}
	if img, err = heic.Decode(bytes.NewReader(data)); err != nil && !holdsMdat(data) {
		err = fmt.Errorf("%w: %w", io.ErrUnexpectedEOF, err) // it ends between two boxes, before the picture
	}
	return img, err
}

// holdsMdat says whether there is a box of media data, which holds the picture.
func holdsMdat(data []byte) bool {
	boxes, _ := outerBoxes(bytes.NewReader(data), int64(len(data))) // they were read before
	return slices.ContainsFunc(boxes, func(b fileBox) bool { return b.kind == "mdat" })
}

func be32(b []byte) uint32 { return binary.BigEndian.Uint32(b) }

func le32(b []byte) uint32 { return binary.LittleEndian.Uint32(b) }

// metaBudget is how many reads and seeks the metadata reader gets for one file.
// It reads a few hundred times for a phone's picture.
const metaBudget = 20_000

// budgetReader stops a reader of metadata that a hostile file sends round in
// circles.
type budgetReader struct {
	r    io.ReadSeeker
	left int
}

var errBudget = errors.New("too much metadata")

// Read implements io.Reader.
func (b *budgetReader) Read(p []byte) (int, error) {
	if b.left--; b.left < 0 {
		return 0, errBudget
	}
	return b.r.Read(p)
}

// Seek implements io.Seeker.
func (b *budgetReader) Seek(offset int64, whence int) (int64, error) {
	if b.left--; b.left < 0 {
		return 0, errBudget
	}
	return b.r.Seek(offset, whence)
}
