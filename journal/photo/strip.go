package photo

import (
	"bufio"
	"context"
	"fmt"
	"io"

	"twinloaf/journal/plainfile"
	"twinloaf/journal/say"
)

// Strip copies a picture from r to w and leaves out what tells where it was taken,
// with what and by whom: GPS, camera, lens, owner, makers' notes, comments, XMP,
// IPTC, embedded thumbnails, and whatever follows the picture in its file. What is
// not known to be needed is left out, so that a new kind of such data is too.
//
// The picture itself is not decoded: its compressed pixels are copied byte for
// byte. Kept besides are the orientation, the colour profile (whole) or colour
// space, the size of its pixels, and when it was taken with the zone if the file
// says it: [Inspect] tells the same of the copy.
//
//   - JPEG (ITU-T T.81): the segments that decoding needs, JFIF, ICC and Adobe's
//     colour transform, up to the end of the first picture.
//   - PNG (ISO/IEC 15948): the chunks of the pixels and their colours.
//   - WebP (RFC 9649): the chunks of one still picture.
//   - HEIC (ISO/IEC 23008-12): the file keeps its layout, and every byte that is
//     not structure or an image item's data becomes zero; thumbnails are taken
//     out of the list of items. Auxiliary pictures, such as a depth map, stay. Films
//     and sounds beside the picture do not.
//
// Memory stays small however large the picture is. The name is for the error's
// sentence. What is damaged or not understood is refused by an *Error, and w may
// have got a part by then; only an error of w itself is none.
func Strip(w io.Writer, name string, r io.ReadSeeker, limits Limits) error {
	m, err := Inspect(name, r, limits)
	if err != nil {
		return err
	}
	size, err := r.Seek(0, io.SeekEnd)
	if err != nil {
		return refuseRead(name, err)
	}
	kept := keptEXIF(m, readEXIF(r, m.Format))
	if _, err := r.Seek(0, io.SeekStart); err != nil {
		return refuseRead(name, err)
	}
	out := &sink{w: w}
	buf := bufio.NewWriterSize(out, 1<<16) // remembers until Flush that something could not be written
	switch m.Format {
	case JPEG:
		err = stripJPEG(buf, bufio.NewReaderSize(r, 1<<16), kept)
	case PNG:
		err = stripPNG(buf, bufio.NewReaderSize(r, 1<<16), kept)
	case WebP:
		err = stripWebP(buf, r, m, kept)
	case HEIC:
		err = stripHEIC(buf, r, size, kept)
	}
	if err == nil {
		err = buf.Flush()
	}
	switch {
	case out.err != nil:
		return fmt.Errorf("writing “%s”: %w", say.Printable(name), out.err)
	case err != nil:
		return refuseDecode(name, err)
	}
	return nil
}

// Stripped writes a stored photo as [Strip] does, once its content has been found
// to match its hash.
func (f *Files) Stripped(ctx context.Context, w io.Writer, h Hash) error {
	if err := f.Verify(ctx, h); err != nil {
		return err
	}
	r, _, err := f.Open(h)
	if err != nil {
		return err
	}
	defer r.Close()
	until := struct {
		io.Reader
		io.Seeker
	}{plainfile.WithContext(ctx, r), r}
	if err := Strip(w, h.String(), until, f.limits); err != nil {
		if ctx.Err() != nil {
			return ctx.Err()
		}
		return err
	}
	return nil
}

// sink remembers what its writer said, to tell a full disk from a damaged picture.
type sink struct {
	w   io.Writer
	err error
}

func (s *sink) Write(p []byte) (int, error) {
	n, err := s.w.Write(p)
	if err != nil {
		s.err = err
	}
	return n, err
}
