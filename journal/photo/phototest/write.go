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
)

// Block is the TIFF structure that EXIF is kept in (CIPA DC-008), big-endian.
func (x EXIF) Block() []byte {
	text := func(tag uint16, s string) entry {
		return entry{tag, kindASCII, uint32(len(s) + 1), append([]byte(s), 0)}
	}
	var main, sub []entry
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

	const header = 8
	out := []byte("MM\x00*\x00\x00\x00\x08")
	if len(sub) == 0 {
		return append(out, directory(main, header)...)
	}
	main = append(main, entry{0x8769, kindLong, 1, make([]byte, 4)})
	subAt := header + len(directory(main, header))
	binary.BigEndian.PutUint32(main[len(main)-1].value, uint32(subAt))
	out = append(out, directory(main, header)...)
	return append(out, directory(sub, subAt)...)
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
