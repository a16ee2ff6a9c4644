package photo_test

import (
	"bytes"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"image"
	"io"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"twinloaf/journal/photo"
	"twinloaf/journal/photo/phototest"
)

// planted are the strings that must not leave; each stands somewhere in a picture.
const planted = "SECRET-PLACE-54.3N"

// laden are pictures of each kind with planted data wherever such data is kept:
// EXIF (main, GPS, maker's note, thumbnail), XMP, IPTC, comments, names of profiles,
// a second picture, and bytes after the end.
func laden(tb testing.TB) map[string][]byte {
	scene := phototest.Scene(48, 32)
	x := phototest.EXIF{Orientation: 6, Taken: "2026:03:14 07:05:00", Offset: "+02:00",
		Make: planted, GPS: planted, MakerNote: planted, Thumbnail: []byte(planted), ColorSpace: 1}
	out := map[string][]byte{
		"laden.jpg":  ladenJPEG(phototest.JPEG(scene, x)),
		"laden.png":  ladenPNG(phototest.PNG(scene), x.Block()),
		"laden.webp": ladenWebP(phototest.Sample(tb, "turned.webp"), x.Block()),
	}
	heic := phototest.Sample(tb, "upright.heic")
	out["laden.heic"] = ladenHEIC(heic, x.Block(), []byte(planted), planted)
	out["turned.heic"] = ladenHEIC(phototest.TurnedHEIC(heic, 3), x.Block(), []byte(planted), planted)
	return out
}

func segment(mark byte, payload string) []byte {
	out := binary.BigEndian.AppendUint16([]byte{0xff, mark}, uint16(len(payload)+2))
	return append(out, payload...)
}

func ladenJPEG(jpg []byte) []byte {
	out := append([]byte(nil), jpg[:2]...)
	out = append(out, segment(0xe0, "JFIF\x00\x01\x02\x00\x00\x01\x00\x01\x02\x02"+planted)...)
	out = append(out, segment(0xe0, "JFXX\x00\x10"+planted)...)
	out = append(out, segment(0xe1, "http://ns.adobe.com/xap/1.0/\x00<x:xmpmeta>"+planted)...)
	out = append(out, segment(0xe2, "ICC_PROFILE\x00\x01\x01the profile")...)
	out = append(out, segment(0xe2, "MPF\x00"+planted)...)
	out = append(out, segment(0xed, "Photoshop 3.0\x008BIM\x04\x04"+planted)...)
	out = append(out, segment(0xee, "Adobe\x00\x64\x00\x00\x00\x00\x01"+planted)...)
	out = append(out, segment(0xfe, planted)...)
	out = append(out, jpg[2:]...)
	return append(append(out, jpg...), planted...) // a second picture after the first
}

func chunk(kind, data string) []byte {
	out := binary.BigEndian.AppendUint32(nil, uint32(len(data)))
	out = append(append(out, kind...), data...)
	return binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(out[4:]))
}

func ladenPNG(png, tiff []byte) []byte {
	const ihdr = 8 + 25
	out := append([]byte(nil), png[:ihdr]...)
	out = append(out, chunk("iCCP", planted+"\x00\x00the profile")...)
	out = append(out, chunk("gAMA", "\x00\x00\xb1\x8f")...)
	out = append(out, chunk("eXIf", string(tiff))...)
	out = append(out, chunk("tEXt", "Author\x00"+planted)...)
	out = append(out, chunk("iTXt", "XML:com.adobe.xmp\x00\x00\x00\x00\x00"+planted)...)
	out = append(out, chunk("sPLT", planted)...)
	out = append(out, png[ihdr:]...)
	return append(out, planted...)
}

func riff(kind, data string) []byte {
	out := binary.LittleEndian.AppendUint32([]byte(kind), uint32(len(data)))
	out = append(out, data...)
	return append(out, make([]byte, len(data)%2)...)
}

// isoBox is a box of ISO/IEC 14496-12.
func isoBox(kind, content string) []byte {
	out := binary.BigEndian.AppendUint32(nil, uint32(8+len(content)))
	return append(append(out, kind...), content...)
}

// ladenWebP exchanges the EXIF of a sample for another and adds what is not kept.
func ladenWebP(webp, tiff []byte) []byte {
	out := append([]byte(nil), webp[:bytes.Index(webp, []byte("EXIF"))]...)
	out = append(out, riff("EXIF", string(tiff))...)
	out = append(out, riff("XMP ", planted)...)
	out = append(out, riff("OWNR", planted)...)
	out[bytes.Index(out, []byte("VP8X"))+8] |= 4
	binary.LittleEndian.PutUint32(out[4:], uint32(len(out)-8))
	return append(out, planted...)
}

func strip(tb testing.TB, name string, data []byte) []byte {
	tb.Helper()
	var out bytes.Buffer
	if err := photo.Strip(&out, name, bytes.NewReader(data), photo.Limits{}); err != nil {
		tb.Fatalf("%s: %v", name, err)
	}
	return out.Bytes()
}

func pixels(tb testing.TB, name string, data []byte) *image.RGBA {
	tb.Helper()
	p, err := photo.Decode(name, data, photo.Limits{})
	if err != nil {
		tb.Fatalf("%s: %v", name, err)
	}
	return p.Fit(0)
}

func TestAStrippedPhotoTellsNeitherPlaceNorCamera(t *testing.T) {
	for name, data := range laden(t) {
		t.Run(name, func(t *testing.T) {
			if !bytes.Contains(data, []byte(planted)) {
				t.Fatal("nothing was planted")
			}
			out := strip(t, name, data)
			if i := bytes.Index(out, []byte("SECRET")); i >= 0 {
				t.Errorf("at %d of %d there is %q", i, len(out), out[max(0, i-20):i+20])
			}
			before, err := photo.Inspect(name, bytes.NewReader(data), photo.Limits{})
			if err != nil {
				t.Fatal(err)
			}
			after, err := photo.Inspect(name, bytes.NewReader(out), photo.Limits{})
			if err != nil || after != before || after.Taken.IsZero() || !after.TakenZoneKnown {
				t.Errorf("told %+v, %v; want %+v", after, err, before)
			}
			alike := out
			if before.Format == photo.HEIC { // its decoder's colours waver with the file's length
				alike = append(slices.Clone(out), isoBox("free", string(make([]byte, len(data)-len(out)-8)))...)
			}
			if !bytes.Equal(pixels(t, name, alike).Pix, pixels(t, name, data).Pix) {
				t.Error("the pixels differ")
			}
			if again := strip(t, name, out); !bytes.Equal(again, out) {
				t.Error("a stripped photo is stripped into another")
			}
		})
	}
}

func TestWhatAPhotoNeedsStaysByteForByte(t *testing.T) {
	all := laden(t)
	jpg := strip(t, "laden.jpg", all["laden.jpg"])
	scan := func(b []byte) []byte { // from the first table to the end of the picture
		b = b[bytes.Index(b, []byte{0xff, 0xdb}):]
		return b[:bytes.Index(b, []byte{0xff, 0xd9})]
	}
	if !bytes.Equal(scan(jpg), scan(all["laden.jpg"])) {
		t.Error("the tables and pixels of the JPEG differ")
	}
	for name, want := range map[string]string{
		"laden.jpg":  "ICC_PROFILE\x00\x01\x01the profile",
		"laden.png":  "\x00\x00the profile",
		"laden.webp": "VP8 ",
	} {
		if !bytes.Contains(strip(t, name, all[name]), []byte(want)) {
			t.Errorf("%s has lost %q", name, want)
		}
	}
	png := all["laden.png"]
	idat := png[bytes.Index(png, []byte("IDAT"))-4 : bytes.Index(png, []byte("IEND"))]
	if !bytes.Contains(strip(t, "laden.png", png), idat) {
		t.Error("the pixels of the PNG differ")
	}
	heic := phototest.Sample(t, "upright.heic")
	for _, part := range [][]byte{
		heic[bytes.Index(heic, []byte("hvcC")) : bytes.Index(heic, []byte("ipma"))-4],
		heic[bytes.Index(heic, []byte("mdat"))+4 : bytes.LastIndex(heic, []byte("MM\x00*"))-10],
	} {
		if !bytes.Contains(strip(t, "laden.heic", all["laden.heic"]), part) {
			t.Errorf("%d bytes of the HEIC's picture differ", len(part))
		}
	}
	// ColorSpace: tag A001, SHORT, one value, 1.
	if !bytes.Contains(jpg, []byte("\xa0\x01\x00\x03\x00\x00\x00\x01\x00\x01")) {
		t.Error("the colour space is gone")
	}
}

func TestAPhotoWithoutSuchDataStaysAPicture(t *testing.T) {
	for _, name := range []string{"lossy.webp", "lossless.webp", "cmyk.jpg", "progressive.jpg"} {
		data := phototest.Sample(t, name)
		out := strip(t, name, data)
		if !bytes.Equal(pixels(t, name, out).Pix, pixels(t, name, data).Pix) {
			t.Errorf("%s: the pixels differ", name)
		}
	}
}

func TestEXIFOutOfPlaceInAWebPIsKeptInItsPlace(t *testing.T) {
	data := phototest.Sample(t, "lossless.webp")
	x := phototest.EXIF{Orientation: 8, Taken: "2026:03:14 07:05:00", GPS: planted}
	data = append(slices.Clone(data), riff("EXIF", string(x.Block()))...)
	binary.LittleEndian.PutUint32(data[4:], uint32(len(data)-8))
	before, err := photo.Inspect("odd.webp", bytes.NewReader(data), photo.Limits{})
	if err != nil || before.Orientation != 8 {
		t.Fatalf("%+v, %v", before, err)
	}
	out := strip(t, "odd.webp", data)
	after, err := photo.Inspect("odd.webp", bytes.NewReader(out), photo.Limits{})
	if err != nil || after != before {
		t.Errorf("told %+v, %v", after, err)
	}
	if !bytes.Equal(pixels(t, "odd.webp", out).Pix, pixels(t, "odd.webp", data).Pix) {
		t.Error("the pixels differ")
	}
}

// A phone's HEIC of 12 megapixels keeps its picture, and nothing but it.
func TestAPhonesHEICIsStripped(t *testing.T) {
	data := phototest.Sample(t, "phone.heic")
	out := strip(t, "phone.heic", data)
	before, err := photo.Inspect("phone.heic", bytes.NewReader(data), photo.Limits{})
	if err != nil {
		t.Fatal(err)
	}
	after, err := photo.Inspect("phone.heic", bytes.NewReader(out), photo.Limits{})
	if err != nil || after != before {
		t.Errorf("told %+v, %v; want %+v", after, err, before)
	}
	if !bytes.Equal(pixels(t, "phone.heic", out).Pix, pixels(t, "phone.heic", data).Pix) {
		t.Error("the pixels differ")
	}
}

func TestADamagedPhotoIsNotStripped(t *testing.T) {
	for name, data := range laden(t) {
		rng := rand.New(rand.NewPCG(1, 2))
		for range 60 {
			cut := data[:rng.IntN(len(data))]
			var out bytes.Buffer
			if err := photo.Strip(&out, name, bytes.NewReader(cut), photo.Limits{}); err != nil {
				checkRefusal(t, err)
			} else if bytes.Contains(out.Bytes(), []byte("SECRET")) {
				t.Fatalf("%s cut to %d bytes leaves what was planted", name, len(cut))
			}
		}
	}
	if err := photo.Strip(io.Discard, "empty.jpg", bytes.NewReader(nil), photo.Limits{}); !errors.Is(err, photo.ErrEmpty) {
		t.Errorf("nothing: %v", err)
	}
}

// full is a disk without room.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, errFull }

var errFull = errors.New("no room")

func TestAFullDiskIsNotBlamedOnThePhoto(t *testing.T) {
	err := photo.Strip(full{}, "laden.jpg", bytes.NewReader(laden(t)["laden.jpg"]), photo.Limits{})
	var refusal *photo.Error
	if !errors.Is(err, errFull) || errors.As(err, &refusal) {
		t.Errorf("told %v", err)
	}
}

func TestAStoredPhotoIsStrippedOnTheWayOut(t *testing.T) {
	files := openFiles(t, photo.Options{})
	data := laden(t)["laden.jpg"]
	added, err := files.Add(t.Context(), "laden.jpg", bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := files.Stripped(t.Context(), &out, added.Hash); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(out.Bytes(), strip(t, "laden.jpg", data)) {
		t.Error("the stored photo is stripped in another way")
	}
	path := allFiles(t, files.Dir())[0]
	if kept, err := os.ReadFile(path); err != nil || !bytes.Equal(kept, data) {
		t.Errorf("the original was touched: %v", err)
	}
	if err := os.WriteFile(path, data[:len(data)-1], 0o644); err != nil {
		t.Fatal(err)
	}
	if err := files.Stripped(t.Context(), io.Discard, added.Hash); !errors.Is(err, photo.ErrAltered) {
		t.Errorf("an altered photo: %v", err)
	}
}

func FuzzStrip(f *testing.F) {
	seeds(f)
	for _, data := range laden(f) {
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		var out bytes.Buffer
		if err := photo.Strip(&out, "fuzzed", bytes.NewReader(data), photo.Limits{Bytes: 1 << 20}); err != nil {
			checkRefusal(t, err)
			return
		}
		if out.Len() > len(data)+1024 {
			t.Fatalf("%d bytes became %d", len(data), out.Len())
		}
		before, err := photo.Inspect("fuzzed", bytes.NewReader(data), photo.Limits{})
		if err != nil {
			t.Fatal(err)
		}
		after, err := photo.Inspect("stripped", bytes.NewReader(out.Bytes()), photo.Limits{})
		if err != nil || after != before {
			t.Fatalf("told %+v of the copy, %v; %+v of the original", after, err, before)
		}
		var again bytes.Buffer
		if err := photo.Strip(&again, "stripped", bytes.NewReader(out.Bytes()), photo.Limits{}); err != nil || !bytes.Equal(again.Bytes(), out.Bytes()) {
			t.Fatalf("the second time gives another picture: %v", err)
		}
	})
}
