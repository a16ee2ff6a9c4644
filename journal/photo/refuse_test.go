package photo_test

import (
	"bytes"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"pgregory.net/rapid"

	_ "twinloaf/journal/journaltest/race" // few draws under the race detector
	"twinloaf/journal/photo"
	"twinloaf/journal/photo/phototest"
)

// claiming gives a picture of each format whose header claims w x h pixels.
func claiming(t *testing.T, w, h int) map[string][]byte {
	t.Helper()
	scene := phototest.Scene(64, 48)

	jpg := phototest.JPEG(scene, phototest.EXIF{})
	sof := bytes.Index(jpg, []byte{0xff, 0xc0})
	binary.BigEndian.PutUint16(jpg[sof+5:], uint16(h))
	binary.BigEndian.PutUint16(jpg[sof+7:], uint16(w))

	png := phototest.PNG(scene)
	binary.BigEndian.PutUint32(png[16:], uint32(w))
	binary.BigEndian.PutUint32(png[20:], uint32(h))
	binary.BigEndian.PutUint32(png[29:], crc32.ChecksumIEEE(png[12:29]))

	webp := append([]byte(nil), phototest.Sample(t, "turned.webp")...)
	at := bytes.Index(webp, []byte("VP8X")) + 12
	webp[at], webp[at+1], webp[at+2] = byte(w-1), byte((w-1)>>8), byte((w-1)>>16)
	webp[at+3], webp[at+4], webp[at+5] = byte(h-1), byte((h-1)>>8), byte((h-1)>>16)

	heic := append([]byte(nil), phototest.Sample(t, "upright.heic")...)
	at = bytes.Index(heic, []byte("ispe")) + 8
	binary.BigEndian.PutUint32(heic[at:], uint32(w))
	binary.BigEndian.PutUint32(heic[at+4:], uint32(h))

	return map[string][]byte{"huge.jpg": jpg, "huge.png": png, "huge.webp": webp, "huge.heic": heic}
}

func TestAClaimOf30000By30000IsRefusedBeforeDecoding(t *testing.T) {
	for name, data := range claiming(t, 30000, 30000) {
		_, err := photo.Decode(name, data, photo.Limits{})
		var refusal *photo.Error
		if !errors.Is(err, photo.ErrTooLarge) || !errors.As(err, &refusal) {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if refusal.Width != 30000 || refusal.Height != 30000 {
			t.Errorf("%s: refusal names %d x %d", name, refusal.Width, refusal.Height)
		}
		if text := err.Error(); !strings.Contains(text, name) || !strings.Contains(text, "30000 x 30000") {
			t.Errorf("%s: the sentence is %q", name, text)
		}
	}
}

func TestTheLimitOfPixelsIsExact(t *testing.T) {
	scene := phototest.Scene(64, 48)
	data := phototest.JPEG(scene, phototest.EXIF{})
	if _, err := photo.Decode("loaf.jpg", data, photo.Limits{Pixels: 64 * 48}); err != nil {
		t.Errorf("at the limit: %v", err)
	}
	if _, err := photo.Decode("loaf.jpg", data, photo.Limits{Pixels: 64*48 - 1}); !errors.Is(err, photo.ErrTooLarge) {
		t.Errorf("past the limit: %v", err)
	}
	if _, err := photo.Decode("loaf.jpg", data, photo.Limits{Bytes: int64(len(data)) - 1}); !errors.Is(err, photo.ErrTooLarge) {
		t.Errorf("past the limit of bytes: %v", err)
	}
}

// A size that the pixels do not bear out is damage, found at the latest in decoding.
func TestASizeThatThePixelsDoNotBearOutIsRefused(t *testing.T) {
	for name, data := range claiming(t, 70, 50) {
		if name == "huge.heic" {
			continue // its decoder goes by the stream where the two differ
		}
		if _, err := photo.Decode(name, data, photo.Limits{}); err == nil {
			t.Errorf("%s was accepted", name)
		}
	}
}

func TestAPictureCutShortAnywhereIsRefused(t *testing.T) {
	scene := phototest.Scene(160, 120)
	for name, data := range map[string][]byte{
		"loaf.jpg":        phototest.JPEG(scene, phototest.EXIF{Orientation: 6, Taken: "2026:03:14 07:05:00"}),
		"progressive.jpg": phototest.Sample(t, "progressive.jpg"),
		"loaf.png":        phototest.PNG(scene),
		"lossy.webp":      phototest.Sample(t, "lossy.webp"),
		"lossless.webp":   phototest.Sample(t, "lossless.webp"),
		"turned.webp":     phototest.Sample(t, "turned.webp"),
		"upright.heic":    phototest.Sample(t, "upright.heic"),
	} {
		t.Run(name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				n := rapid.IntRange(64, len(data)-1).Draw(t, "length")
				_, err := photo.Decode(name, data[:n], photo.Limits{})
				if !errors.Is(err, photo.ErrCutShort) {
					t.Fatalf("the first %d of %d bytes: %v", n, len(data), err)
				}
				if !strings.Contains(err.Error(), name) {
					t.Fatalf("the sentence is %q", err)
				}
			})
			for n := range 64 {
				if _, err := photo.Decode(name, data[:n], photo.Limits{}); err == nil {
					t.Errorf("the first %d bytes were accepted", n)
				}
			}
		})
	}
}

// What follows a whole picture, such as a film that a phone hides there, is kept
// with it and does no harm.
func TestBytesBehindAWholePictureDoNoHarm(t *testing.T) {
	scene := phototest.Scene(64, 48)
	for name, data := range map[string][]byte{
		"loaf.jpg":  phototest.JPEG(scene, phototest.EXIF{}),
		"loaf.png":  phototest.PNG(scene),
		"loaf.webp": append([]byte(nil), phototest.Sample(t, "lossy.webp")...),
	} {
		if _, err := photo.Decode(name, append(data, "and a film"...), photo.Limits{}); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestWhatIsNoPictureIsRefusedByASentenceThatNamesIt(t *testing.T) {
	rotten := phototest.PNG(phototest.Scene(8, 8))
	rotten[30] ^= 1 // in the checksum of its header
	for _, c := range []struct {
		name, data string
		kind       error
		says       string
	}{
		{"empty.jpg", "", photo.ErrEmpty, `“empty.jpg” is empty`},
		{"notes.jpg", "Fed Harbour at seven.", photo.ErrNotPicture, `“notes.jpg” is not a picture of a kind that can be read (JPEG, PNG, WebP, HEIC)`},
		{"one.png", "\x89", photo.ErrNotPicture, `“one.png” is not a picture of a kind that can be read (JPEG, PNG, WebP, HEIC)`},
		{"dance.png", "GIF89a......", photo.ErrNotPicture, `“dance.png” holds GIF; JPEG, PNG, WebP and HEIC can be read`},
		{"new.heic", "\x00\x00\x00\x1cftypavif\x00\x00\x00\x00avifmif1miaf", photo.ErrNotPicture, `“new.heic” holds AVIF; JPEG, PNG, WebP and HEIC can be read`},
		{"clip.mp4", "\x00\x00\x00\x18ftypisom\x00\x00\x02\x00isommp41", photo.ErrNotPicture, "film"},
		{"sound.webp", "RIFF\x24\x00\x00\x00WAVEfmt ", photo.ErrNotPicture, `“sound.webp” is not`},
		{"start.jpg", "\xff\xd8\xff", photo.ErrCutShort, `“start.jpg” is cut short: its end is missing`},
		{"rot.png", string(rotten), photo.ErrDamaged, `“rot.png” is damaged and cannot be shown`},
	} {
		_, err := photo.Inspect(c.name, strings.NewReader(c.data), photo.Limits{})
		if !errors.Is(err, c.kind) || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

func TestWhatCannotBeOpenedIsRefusedByASentenceThatNamesIt(t *testing.T) {
	dir := t.TempDir()
	files, err := photo.OpenFiles(filepath.Join(dir, "photos"), photo.Options{})
	if err != nil {
		t.Fatal(err)
	}
	folder := filepath.Join(dir, "crumbs")
	if err := os.Mkdir(folder, 0o755); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		path, says string
		kind       error
	}{
		{folder, `“crumbs” is a folder, not a picture`, photo.ErrDirectory},
		{filepath.Join(dir, "gone.jpg"), `“gone.jpg” is not there`, photo.ErrMissing},
		{filepath.Join(dir, "under\x00neath.jpg"), `cannot be read: invalid argument`, photo.ErrUnreadable},
	} {
		_, inspected := photo.InspectFile(c.path, photo.Limits{})
		_, added := files.AddFile(t.Context(), c.path)
		for _, err := range []error{inspected, added} {
			if !errors.Is(err, c.kind) || !strings.Contains(err.Error(), c.says) {
				t.Errorf("%q: %v", c.path, err)
			}
		}
	}
}

// failingReader gives some bytes and then fails, as a card does that is pulled out.
type failingReader struct {
	data []byte
	err  error
}

func (r *failingReader) Read(p []byte) (int, error) {
	if len(r.data) == 0 {
		return 0, r.err
	}
	n := copy(p, r.data)
	r.data = r.data[n:]
	return n, nil
}

func TestAReadThatFailsHalfWayStoresNothing(t *testing.T) {
	files := openFiles(t, photo.Options{})
	data := phototest.JPEG(phototest.Scene(64, 48), phototest.EXIF{})
	pulled := errors.New("the card was pulled out")
	for _, n := range []int{10, len(data) / 2} {
		_, err := files.Add(t.Context(), "loaf.jpg", &failingReader{data[:n], pulled})
		if !errors.Is(err, photo.ErrUnreadable) || !errors.Is(err, pulled) || err.Error() != `“loaf.jpg” cannot be read: the card was pulled out` {
			t.Errorf("after %d bytes: %v", n, err)
		}
	}
	checkStore(t, files)
}

// A HEIC that ends between two of its boxes, before the picture, has lost its end, too.
func TestAHEICWithoutItsPictureIsCutShort(t *testing.T) {
	data := phototest.Sample(t, "upright.heic")
	end := bytes.Index(data, []byte("mdat")) - 4
	if _, err := photo.Decode("loaf.heic", data[:end], photo.Limits{}); !errors.Is(err, photo.ErrCutShort) {
		t.Errorf("the first %d of %d bytes: %v", end, len(data), err)
	}
}
