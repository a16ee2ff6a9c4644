package photo_test

import (
	"bytes"
	"errors"
	"testing"

	"twinloaf/journal/photo"
	"twinloaf/journal/photo/phototest"
)

// small keeps a fuzzed picture from costing more than a moment.
var small = photo.Limits{Pixels: 320 * 240, Bytes: 1 << 20}

// seeds are one picture of each kind, small enough to be changed byte by byte.
func seeds(f *testing.F) {
	f.Helper()
	scene := phototest.Scene(24, 16)
	f.Add(phototest.JPEG(scene, phototest.EXIF{Orientation: 6, Taken: "2026:03:14 07:05:00", Offset: "+02:00"}))
	f.Add(phototest.PNG(scene))
	for _, name := range []string{"lossy.webp", "lossless.webp", "turned.webp", "upright.heic", "progressive.jpg"} {
		data := phototest.Sample(f, name)
		f.Add(data)
		f.Add(data[:len(data)/2])
	}
	f.Add(phototest.TurnedHEIC(phototest.Sample(f, "upright.heic"), 3))
	// A box whose length, read as signed, points backwards.
	f.Add([]byte("\x00\x00\x00\x14ftypheic\x00\x00\x00\x00heic\x00\x00\x00\x01meta\xff\xff\xff\xff\xff\xff\xff\xf0"))
}

// checkRefusal checks that an error is one of ours, with a sentence.
func checkRefusal(t *testing.T, err error) {
	t.Helper()
	var refusal *photo.Error
	if !errors.As(err, &refusal) || refusal.Kind == nil || err.Error() == "" {
		t.Fatalf("refused by %#v", err)
	}
}

func FuzzInspect(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, data []byte) {
		m, err := photo.Inspect("fuzzed", bytes.NewReader(data), photo.Limits{})
		if err != nil {
			checkRefusal(t, err)
			return
		}
		if m.Width <= 0 || m.Height <= 0 || int64(m.Width)*int64(m.Height) > 200_000_000 {
			t.Fatalf("accepted %d x %d", m.Width, m.Height)
		}
		if !m.Orientation.Valid() || m.Format == photo.Unknown {
			t.Fatalf("accepted %+v", m)
		}
		if m.TakenZoneKnown && m.Taken.IsZero() {
			t.Fatal("the zone of no time is known")
		}
	})
}

func FuzzEXIF(f *testing.F) {
	for _, x := range []phototest.EXIF{
		{}, {Orientation: 3}, {Taken: "2026:03:14 07:05:00", Offset: "-11:00"},
		{Orientation: 8, Modified: "2026:05:01 12:00:00", Taken: "2026:03:14 07:05:00"},
	} {
		f.Add(x.Block())
	}
	f.Add([]byte("II*\x00\x08\x00\x00\x00\x01\x00\x12\x01\x03\x00\x01\x00\x00\x00\x06\x00\x00\x00\x00\x00\x00\x00"))
	plain := phototest.JPEG(phototest.Scene(12, 8), phototest.EXIF{})
	f.Fuzz(func(t *testing.T, tiff []byte) {
		if len(tiff) > 60_000 {
			return // longer than a JPEG's segment
		}
		m, err := photo.Inspect("fuzzed.jpg", bytes.NewReader(phototest.WithEXIF(plain, tiff)), photo.Limits{})
		if err != nil {
			t.Fatalf("broken EXIF refused the picture: %v", err)
		}
		if m.Width*m.Height != 12*8 || !m.Orientation.Valid() {
			t.Fatalf("told %+v", m)
		}
	})
}

// FuzzDecode is best run with -fuzzminimizetime=2s: the HEIC seeds are long.
func FuzzDecode(f *testing.F) {
	seeds(f)
	// The first HEIC compiles its decoder, which under a fuzzer's instruments may
	// take longer than the ten seconds that one input gets.
	if _, err := photo.Decode("upright.heic", phototest.Sample(f, "upright.heic"), small); err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		p, err := photo.Decode("fuzzed", data, small)
		if err != nil {
			checkRefusal(t, err)
			return
		}
		img := p.Fit(0)
		if img.Rect.Dx() != p.Width || img.Rect.Dy() != p.Height || len(img.Pix) != 4*p.Width*p.Height {
			t.Fatalf("%d x %d came out as %v", p.Width, p.Height, img.Rect)
		}
		if thumb := p.Fit(10); thumb.Rect.Dx() > 10 || thumb.Rect.Dy() > 10 {
			t.Fatalf("fitted to %v", thumb.Rect)
		}
	})
}
