package phototest

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/jpeg"
	"image/png"
	"os"
	"path/filepath"
	"testing"
)

// EXIF is what a written picture's EXIF says. Empty fields are left out.
type EXIF struct {
	Orientation int    // 1 to 8
	Taken       string // "2026:03:14 07:05:00", as EXIF writes it
	Offset      string // "+02:00"
	Modified    string // DateTime, in the same form as Taken

	// What a picture that leaves must not tell.
	Make      string // the camera's maker
	GPS       string // GPSAreaInformation, in a directory of its own
	MakerNote string
	Thumbnail []byte // in a second directory
	// ColorSpace is 1 for sRGB.
	ColorSpace int
}

// JPEG writes img as a JPEG of quality 90 with EXIF. It panics on a picture that
// a JPEG cannot hold, of more than 65,535 pixels on a side.
func JPEG(img image.Image, x EXIF) []byte {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: 90}); err != nil {
		panic(err)
	}
	return WithEXIF(b.Bytes(), x.Block())
}

// WithEXIF puts a TIFF block into a JPEG as its first segment.
func WithEXIF(jpg, tiff []byte) []byte {
	out := append([]byte{}, jpg[:2]...)
	out = append(out, 0xff, 0xe1)
	out = binary.BigEndian.AppendUint16(out, uint16(2+6+len(tiff)))
	out = append(out, "Exif\x00\x00"...)
	out = append(out, tiff...)
	return append(out, jpg[2:]...)
}

// PNG writes img as a PNG. It panics on an empty picture.
func PNG(img image.Image) []byte {
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		panic(err)
	}
	return b.Bytes()
}

// Sample reads a file of testdata/photo, from whatever package the test is in.
func Sample(tb testing.TB, name string) []byte {
	tb.Helper()
	data, err := os.ReadFile(SamplePath(tb, name))
	if err != nil {
		tb.Fatal(err)
	}
	return data
}

// SamplePath is where a file of testdata/photo lies.
func SamplePath(tb testing.TB, name string) string {
	tb.Helper()
	dir, err := os.Getwd()
	if err != nil {
		tb.Fatal(err)
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return filepath.Join(dir, "testdata", "photo", name)
		}
		up := filepath.Dir(dir)
		if up == dir {
			tb.Fatalf("no go.mod above the test, so no testdata/photo/%s", name)
		}
		dir = up
	}
}

// entry is one field of a TIFF directory.
type entry struct {
	tag, kind uint16
	count     uint32
	value     []byte
}

// The field types of TIFF 6.0 that are written here.
const (
	kindASCII = 2
	kindShort = 3
	kindLong  = 4

	kindUndefined = 7
)

// Block is the TIFF structure that EXIF is kept in (CIPA DC-008), big-endian.
func (x EXIF) Block() []byte {
	text := func(tag uint16, s string) entry {
		return entry{tag, kindASCII, uint32(len(s) + 1), append([]byte(s), 0)}
	}
	var main, sub, gps, second []entry
	if x.Make != "" {
		main = append(main, text(0x010f, x.Make))
	}
	if x.Orientation != 0 {
		main = append(main, entry{0x0112, kindShort, 1, []byte{0, byte(x.Orientation), 0, 0}})
	}
	if x.Modified != "" {
		main = append(main, text(0x0132, x.Modified))
	}
	if x.Taken != "" {
		sub = append(sub, text(0x9003, x.Taken))
	}
	if x.Offset != "" {
		sub = append(sub, text(0x9011, x.Offset))
	}
	if x.MakerNote != "" {
		sub = append(sub, entry{0x927c, kindUndefined, uint32(len(x.MakerNote)), []byte(x.MakerNote)})
	}
	if x.ColorSpace != 0 {
		sub = append(sub, entry{0xa001, kindShort, 1, []byte{0, byte(x.ColorSpace), 0, 0}})
	}
	if x.GPS != "" {
		gps = append(gps, entry{0x001c, kindUndefined, uint32(len(x.GPS)), []byte(x.GPS)})
	}
	if len(x.Thumbnail) > 0 {
		second = append(second, entry{0x0201, kindLong, 1, make([]byte, 4)}, entry{0x0202, kindLong, 1, binary.BigEndian.AppendUint32(nil, uint32(len(x.Thumbnail)))})
	}

	const header = 8
	out := []byte("MM\x00*\x00\x00\x00\x08")
	pointTo := func(tag uint16, directory []entry) {
		if len(directory) > 0 {
			main = append(main, entry{tag, kindLong, 1, make([]byte, 4)})
		}
	}
	pointTo(0x8769, sub)
	pointTo(0x8825, gps)
	at := header + len(directory(main, header))
	behind := []byte(nil)
	for i := range main {
		switch main[i].tag {
		case 0x8769:
			binary.BigEndian.PutUint32(main[i].value, uint32(at+len(behind)))
			behind = append(behind, directory(sub, at+len(behind))...)
		case 0x8825:
			binary.BigEndian.PutUint32(main[i].value, uint32(at+len(behind)))
			behind = append(behind, directory(gps, at+len(behind))...)
		}
	}
	first := directory(main, header)
	if len(second) > 0 {
		secondAt := at + len(behind)
		binary.BigEndian.PutUint32(first[2+12*len(main):], uint32(secondAt))
		binary.BigEndian.PutUint32(second[0].value, uint32(secondAt+len(directory(second, 0))))
		behind = append(append(behind, directory(second, secondAt)...), x.Thumbnail...)
	}
	return append(append(out, first...), behind...)
}

// directory lays out one IFD that begins at byte at, its long values after it.
func directory(entries []entry, at int) []byte {
	out := binary.BigEndian.AppendUint16(nil, uint16(len(entries)))
	var long []byte
	longAt := at + 2 + 12*len(entries) + 4
	for _, e := range entries {
		out = binary.BigEndian.AppendUint16(out, e.tag)
		out = binary.BigEndian.AppendUint16(out, e.kind)
		out = binary.BigEndian.AppendUint32(out, e.count)
		if len(e.value) > 4 {
			out = binary.BigEndian.AppendUint32(out, uint32(longAt+len(long)))
			long = append(long, e.value...)
			continue
		}
		out = append(out, append(e.value, make([]byte, 4-len(e.value))...)...)
	}
	out = append(out, 0, 0, 0, 0)
	return append(out, long...)
}
