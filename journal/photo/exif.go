package photo

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/bep/imagemeta"
)

// exif is what the journal wants of a picture's EXIF, as it was written.
type exif struct {
	orientation Orientation
	colorSpace  uint16 // 1 sRGB, 2 Adobe RGB, 0xFFFF another one; 0 not told
	colorRules  string // the interoperability rules "R98", "R03" or "THM", or empty
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
		JPEG: imagemeta.JPEG, PNG: imagemeta.PNG, WebP: imagemeta.TIFF, HEIC: imagemeta.HEIF,
	}[format]
	if !ok {
		return x
	}
	if _, err := r.Seek(0, io.SeekStart); err != nil {
		return x
	}
	if format == WebP {
		block, err := webpEXIF(r) // the library loses its place behind an odd chunk
		if err != nil {
			return x
		}
		r = bytes.NewReader(block)
	}
	wanted := map[string]bool{"Orientation": true, "ColorSpace": true, "InteropIndex": true}
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
			s, isText := t.Value.(string)
			s = strings.TrimSpace(s)
			switch {
			case t.Tag == "Orientation":
				x.orientation = toOrientation(t.Value)
			case t.Tag == "ColorSpace":
				if n := toInt(t.Value); n == 1 || n == 2 || n == 0xFFFF {
					x.colorSpace = uint16(n)
				}
			case t.Tag == "InteropIndex":
				if s == "R98" || s == "R03" || s == "THM" {
					x.colorRules = s
				}
			case isText:
				x.text[t.Tag] = s
			}
			return nil
		},
	})
	return x
}

// toInt reads a tag's number, which writers store in several widths; 0 for none.
func toInt(v any) int64 {
	switch v := v.(type) {
	case uint16:
		return int64(v)
	case uint32:
		return int64(v)
	case int32:
		return int64(v)
	case uint8:
		return int64(v)
	}
	return 0
}

// toOrientation takes anything but the eight for no orientation.
func toOrientation(v any) Orientation {
	n := toInt(v)
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
