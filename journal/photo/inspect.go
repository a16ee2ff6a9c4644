package photo

import (
	"bytes"
	"errors"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"slices"

	"golang.org/x/image/webp"

	"twinloaf/journal/plainfile"
)

// Inspect reads a picture's header and EXIF without decoding its pixels. It
// refuses what is empty, no picture, larger than limits or visibly cut short; a
// picture that passes may still turn out damaged in [Decode]. Broken EXIF
// refuses nothing: its fields stay zero. The name is for the error's sentence.
func Inspect(name string, r io.ReadSeeker, limits Limits) (Meta, error) {
	size, err := r.Seek(0, io.SeekEnd)
	if err != nil {
		return Meta{}, refuseRead(name, err)
	}
	if size > limits.bytes() {
		return Meta{}, &Error{Name: name, Kind: ErrTooLarge, Bytes: limits.bytes()}
	}
	head, err := readHead(r)
	if err != nil {
		return Meta{}, refuseRead(name, err)
	}
	format, err := tell(name, head)
	if err != nil {
		return Meta{}, err
	}
	cfg, err := readConfig(format, r, size)
	if err != nil {
		return Meta{}, refuseDecode(name, err)
	}
	if cfg.Width <= 0 || cfg.Height <= 0 {
		return Meta{}, refuse(name, ErrDamaged, nil)
	}
	if !limits.allow(cfg) {
		return Meta{}, &Error{Name: name, Kind: ErrTooLarge, Width: cfg.Width, Height: cfg.Height}
	}

	m := Meta{Format: format, Width: cfg.Width, Height: cfg.Height, Orientation: Upright}
	x := readEXIF(r, format)
	m.Taken, m.TakenZoneKnown = x.taken()
	if o := x.orientation; format != HEIC && o.Valid() {
		m.Orientation = o
		if o.SwapsSides() {
			m.Width, m.Height = m.Height, m.Width
		}
	}
	return m, nil
}

// InspectFile is Inspect of the file at path. It refuses a folder, and what is
// neither file nor folder, before opening it: a pipe would wait for ever.
func InspectFile(path string, limits Limits) (Meta, error) {
	f, err := openPicture(path)
	if err != nil {
		return Meta{}, err
	}
	defer f.Close()
	return Inspect(filepath.Base(path), f, limits)
}

// openPicture opens a plain file to be read.
func openPicture(path string) (*os.File, error) {
	name := filepath.Base(path)
	f, err := plainfile.Open(path)
	switch {
	case errors.Is(err, plainfile.ErrFolder):
		return nil, refuse(name, ErrDirectory, nil)
	case errors.Is(err, plainfile.ErrNotPlain):
		return nil, refuse(name, ErrNotPicture, nil)
	case err != nil:
		return nil, refuseRead(name, err)
	}
	return f, nil
}

// allow reports whether a picture of this size may be decoded.
func (l Limits) allow(cfg image.Config) bool {
	weight := int64(1)
	switch cfg.ColorModel {
	case color.RGBA64Model, color.NRGBA64Model, color.Gray16Model:
		weight = 2
	}
	// Dividing keeps the product of two 31-bit sides from overflowing.
	return int64(cfg.Width) <= l.pixels()/weight/int64(cfg.Height)
}

// readHead reads the bytes that tell the format, fewer if there are no more.
func readHead(r io.ReadSeeker) ([]byte, error) {
	if _, err := r.Seek(0, io.SeekStart); err != nil {
		return nil, err
	}
	head := make([]byte, sniffLen)
	n, err := io.ReadFull(r, head)
	if err == io.EOF || err == io.ErrUnexpectedEOF {
		err = nil
	}
	return head[:n], err
}

// tell gives the format of a file that begins with head, or the refusal.
func tell(name string, head []byte) (Format, error) {
	if len(head) == 0 {
		return Unknown, refuse(name, ErrEmpty, nil)
	}
	format, other := sniff(head)
	if format == Unknown {
		return Unknown, &Error{Name: name, Kind: ErrNotPicture, Found: other}
	}
	return format, nil
}

// readConfig reads the size that the header claims.
func readConfig(format Format, r io.ReadSeeker, size int64) (image.Config, error) {
	if _, err := r.Seek(0, io.SeekStart); err != nil {
		return image.Config{}, err
	}
	switch format {
	case JPEG:
		return jpeg.DecodeConfig(r)
	case PNG:
		return png.DecodeConfig(r)
	case WebP:
		var head [12]byte
		if _, err := io.ReadFull(r, head[:]); err != nil {
			return image.Config{}, err
		}
		if riffLength(head[:]) > size {
			return image.Config{}, io.ErrUnexpectedEOF
		}
		return webp.DecodeConfig(io.MultiReader(bytes.NewReader(head[:]), r))
	case HEIC:
		return heicConfig(r, size)
	}
	return image.Config{}, errors.New("unknown format")
}

// riffLength is the length that a RIFF header claims for its whole file.
func riffLength(head []byte) int64 {
	return 8 + int64(le32(head[4:]))
}

// refuseDecode makes the Error for what a decoder said.
func refuseDecode(name string, err error) *Error {
	if isCutShort(err) {
		return refuse(name, ErrCutShort, err)
	}
	return refuse(name, ErrDamaged, err)
}

// isCutShort tells an end that came too soon from other damage. The JPEG and PNG
// decoders have words of their own for it.
func isCutShort(err error) bool {
	return slices.ContainsFunc([]error{
		io.ErrUnexpectedEOF,
		io.EOF,
		jpeg.FormatError("short Huffman data"),
		png.FormatError("unexpected EOF"),
		png.FormatError("not enough pixel data"),
	}, func(end error) bool { return errors.Is(err, end) })
}
