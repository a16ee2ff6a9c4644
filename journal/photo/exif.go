package photo

import (
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/bep/imagemeta"
)

// exif is what the journal wants of a picture's EXIF, as it was written.
type exif struct {
	orientation Orientation
	text        map[string]string
}

// exifTimes are the tags that tell when a picture was taken, the best first, each
// with the tag for its zone (CIPA DC-008-2019 section 4.6.6, tables "date and
// time"). ModifyDate and CreateDate are what the metadata library calls DateTime and
// DateTimeDigitized.
var exifTimes = [...]struct{ time, zone string }{
	{"DateTimeOriginal", "OffsetTimeOriginal"},
	{"CreateDate", "OffsetTimeDigitized"},
	{"ModifyDate", "OffsetTime"},
}

// readEXIF reads what it can. Broken EXIF gives fewer fields, never an error: a
// picture is worth keeping without its date.
func readEXIF(r io.ReadSeeker, format Format) exif {
	x := exif{text: make(map[string]string)}
	kind, ok := map[Format]imagemeta.ImageFormat{
		JPEG: imagemeta.JPEG, PNG: imagemeta.PNG, WebP: imagemeta.WebP, HEIC: imagemeta.HEIF,
	}[format]
	if !ok {
		return x
	}
	if _, err := r.Seek(0, io.SeekStart); err != nil {
		return x
	}
	wanted := map[string]bool{"Orientation": true}
	for _, t := range exifTimes {
		wanted[t.time], wanted[t.zone] = true, true
	}
	// What was read before an error still counts.
	_, _ = imagemeta.Decode(imagemeta.Options{
		R:            &budgetReader{r: r, left: metaBudget},
		ImageFormat:  kind,
		Sources:      imagemeta.EXIF,
		LimitNumTags: 1000,
		LimitTagSize: 4096,
		ShouldHandleTag: func(t imagemeta.TagInfo) bool {
			// IFD1 describes the embedded thumbnail, which may lie otherwise.
			return strings.HasPrefix(t.Namespace, "IFD0") && wanted[t.Tag]
		},
		HandleTag: func(t imagemeta.TagInfo) error {
			if t.Tag == "Orientation" {
				x.orientation = toOrientation(t.Value)
			} else if s, ok := t.Value.(string); ok {
				x.text[t.Tag] = strings.TrimSpace(s)
			}
			return nil
		},
	})
	return x
}

// toOrientation reads the tag's number, which writers store in several widths;
// anything but the eight is no orientation.
func toOrientation(v any) Orientation {
	var n int64
	switch v := v.(type) {
	case uint16:
		n = int64(v)
	case uint32:
		n = int64(v)
	case int32:
		n = int64(v)
	case uint8:
		n = int64(v)
	}
	if n < int64(Upright) || n > int64(TurnCounter) {
		return 0
	}
	return Orientation(n)
}

// taken is when the picture was taken and whether its zone is known.
func (x exif) taken() (time.Time, bool) {
	for _, tag := range exifTimes {
		t, err := time.Parse("2006:01:02 15:04:05", x.text[tag.time])
		if err != nil || t.Year() < 1800 {
			continue // absent, blank, or the zeros that some cameras write
		}
		zone, err := parseOffset(x.text[tag.zone])
		if err != nil {
			return t, false
		}
		return time.Date(t.Year(), t.Month(), t.Day(), t.Hour(), t.Minute(), t.Second(), 0, zone), true
	}
	return time.Time{}, false
}

// parseOffset reads an EXIF offset, such as "+02:00".
func parseOffset(s string) (*time.Location, error) {
	t, err := time.Parse("-07:00", s)
	if err != nil {
		return nil, fmt.Errorf("zone %q: %w", s, err)
	}
	_, seconds := t.Zone()
	return time.FixedZone("", seconds), nil
}
