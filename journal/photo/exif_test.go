package photo_test

import (
	"bytes"
	"testing"
	"time"

	"pgregory.net/rapid"

	"twinloaf/journal/photo"
	"twinloaf/journal/photo/phototest"
)

func TestTheTimeTakenIsReadWithItsZone(t *testing.T) {
	const taken = "2026:03:14 07:05:00"
	for _, c := range []struct {
		name  string
		x     phototest.EXIF
		want  string // RFC 3339; empty for none
		known bool
	}{
		{"with an offset", phototest.EXIF{Taken: taken, Offset: "+02:00"}, "2026-03-14T07:05:00+02:00", true},
		{"west of Greenwich", phototest.EXIF{Taken: taken, Offset: "-03:30"}, "2026-03-14T07:05:00-03:30", true},
		{"at Greenwich", phototest.EXIF{Taken: taken, Offset: "+00:00"}, "2026-03-14T07:05:00Z", true},
		{"without an offset", phototest.EXIF{Taken: taken}, "2026-03-14T07:05:00Z", false},
		{"with a blank offset", phototest.EXIF{Taken: taken, Offset: "   :  "}, "2026-03-14T07:05:00Z", false},
		{"before the file was changed", phototest.EXIF{Taken: taken, Modified: "2026:05:01 12:00:00"}, "2026-03-14T07:05:00Z", false},
		{"when only the change is told", phototest.EXIF{Modified: "2026:05:01 12:00:00"}, "2026-05-01T12:00:00Z", false},
		{"zeros", phototest.EXIF{Taken: "0000:00:00 00:00:00"}, "", false},
		{"blanks", phototest.EXIF{Taken: "    :  :     :  :  "}, "", false},
		{"no such day", phototest.EXIF{Taken: "2026:02:30 07:05:00"}, "", false},
		{"nothing", phototest.EXIF{Orientation: 1}, "", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			data := phototest.JPEG(phototest.Scene(16, 16), c.x)
			m, err := photo.Inspect("loaf.jpg", bytes.NewReader(data), photo.Limits{})
			if err != nil {
				t.Fatal(err)
			}
			got := ""
			if !m.Taken.IsZero() {
				got = m.Taken.Format(time.RFC3339)
			}
			if got != c.want || m.TakenZoneKnown != c.known {
				t.Errorf("taken %q, zone known %v; want %q, %v", got, m.TakenZoneKnown, c.want, c.known)
			}
		})
	}
}

func TestTheTimeIsReadFromEachFormatThatHasOne(t *testing.T) {
	for _, name := range []string{"upright.heic", "phone.heic", "turned.webp", "progressive.jpg"} {
		m, err := photo.InspectFile(phototest.SamplePath(t, name), photo.Limits{})
		if err != nil {
			t.Fatal(err)
		}
		if got := m.Taken.Format(time.RFC3339); got != "2026-03-14T07:05:00+02:00" || !m.TakenZoneKnown {
			t.Errorf("%s: taken %s, zone known %v", name, got, m.TakenZoneKnown)
		}
	}
}

func TestAWallClockIsReadInTheZoneItIsGiven(t *testing.T) {
	islands := time.FixedZone("islands", 3*3600)
	wall := photo.Meta{Taken: time.Date(2026, 3, 14, 7, 5, 0, 0, time.UTC)}
	if got := wall.TakenIn(islands).Format(time.RFC3339); got != "2026-03-14T07:05:00+03:00" {
		t.Errorf("a wall clock without a zone gives %s", got)
	}
	known := photo.Meta{Taken: time.Date(2026, 3, 14, 7, 5, 0, 0, time.FixedZone("", 3600)), TakenZoneKnown: true}
	if got := known.TakenIn(islands); !got.Equal(known.Taken) {
		t.Errorf("a known zone was moved to %v", got)
	}
	if got := (photo.Meta{}).TakenIn(islands); !got.IsZero() {
		t.Errorf("no time became %v", got)
	}
}

func TestBrokenEXIFNeverRefusesAPicture(t *testing.T) {
	plain := phototest.JPEG(phototest.Scene(32, 24), phototest.EXIF{})
	plain = append([]byte{0xff, 0xd8}, plain[bytes.Index(plain, []byte{0xff, 0xdb}):]...)
	block := phototest.EXIF{Orientation: 6, Taken: "2026:03:14 07:05:00", Offset: "+02:00"}.Block()
	rapid.Check(t, func(t *rapid.T) {
		tiff := append([]byte(nil), block...)
		for range rapid.IntRange(1, 8).Draw(t, "changes") {
			tiff[rapid.IntRange(0, len(tiff)-1).Draw(t, "at")] = rapid.Byte().Draw(t, "byte")
		}
		tiff = tiff[:rapid.IntRange(0, len(tiff)).Draw(t, "length")]
		p, err := photo.Decode("loaf.jpg", phototest.WithEXIF(plain, tiff), photo.Limits{})
		if err != nil {
			t.Fatal(err)
		}
		want := [2]int{32, 24}
		if p.Orientation.SwapsSides() {
			want = [2]int{24, 32}
		}
		if got := [2]int{p.Width, p.Height}; got != want {
			t.Fatalf("told %v, want %v", got, want)
		}
	})
}

func TestAnOrientationOutsideTheEightIsUpright(t *testing.T) {
	for _, n := range []int{0, 9, 200} {
		data := phototest.JPEG(phototest.Scene(32, 24), phototest.EXIF{Orientation: n, Modified: "x"})
		m, err := photo.Inspect("loaf.jpg", bytes.NewReader(data), photo.Limits{})
		if err != nil || m.Orientation != photo.Upright || m.Width != 32 {
			t.Errorf("orientation %d: %+v, %v", n, m, err)
		}
	}
}
