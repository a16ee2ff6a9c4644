package journal

import (
	"bytes"
	"context"
	"errors"
	"image"
	"image/color"
	"image/jpeg"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"twinloaf/journal/photo"
)

func jpegBytes(t testing.TB, w, h int, c color.Color) []byte {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			img.Set(x, y, c)
		}
	}
	var buf bytes.Buffer
	if err := jpeg.Encode(&buf, img, nil); err != nil {
		t.Fatal(err)
	}
	return buf.Bytes()
}

func picture(name string, b []byte) Picture {
	return Picture{Name: name, Open: func() (io.ReadCloser, error) { return io.NopCloser(bytes.NewReader(b)), nil }}
}

func TestPicturesGoInAndBadOnesAreNamed(t *testing.T) {
	dir := t.TempDir()
	j := openTest(t, dir, newClock())
	bake := newBake(t, j, "Ferry loaf")
	good := jpegBytes(t, 40, 30, color.RGBA{200, 150, 90, 255})
	pictures := []Picture{
		picture("crumb.jpg", good),
		picture("notes.txt", []byte("not a picture")),
		picture("short.jpg", good[:len(good)/2]),
		picture("again.jpg", good),
	}
	added, refused, err := j.AddPictures(context.Background(), "photos", Ref{Kind: KindBake, ID: bake}, RoleCrumb, pictures, nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(added) != 2 || len(refused) != 2 {
		t.Fatalf("added %v, refused %v", added, refused)
	}
	for i, name := range []string{"notes.txt", "short.jpg"} {
		if !strings.Contains(refused[i].Error(), name) {
			t.Errorf("%q does not name %s", refused[i], name)
		}
	}
	files, _ := filepath.Glob(filepath.Join(dir, "photos", "*", "*"))
	if len(files) != 1 {
		t.Fatalf("one content, kept as %v", files)
	}
	if kept, _ := os.ReadFile(files[0]); !bytes.Equal(kept, good) {
		t.Error("the original was altered")
	}
	summaries, err := j.BakeSummaries()
	if err != nil || summaries[0].Photos != 2 || summaries[0].Cover == "" {
		t.Errorf("the summary says %+v, %v", summaries[0], err)
	}
	if img, err := j.Thumb(context.Background(), summaries[0].Cover, photo.Small); err != nil || img.Bounds().Dx() != 40 {
		t.Errorf("thumbnail %v", err)
	}
	if _, err := j.Undo(); err != nil {
		t.Fatal(err)
	}
	if photos, _ := Photos(j, bake); len(photos) != 0 {
		t.Errorf("one undo left %d photos", len(photos))
	}
	mustBeSound(t, j)
}

func TestCancelledAddingKeepsWhatWasIn(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	bake := newBake(t, j, "")
	ctx, cancel := context.WithCancel(context.Background())
	var pictures []Picture
	for i := range 20 {
		pictures = append(pictures, picture("p.jpg", jpegBytes(t, 20+i, 20, color.White)))
	}
	added, _, err := j.AddPictures(ctx, "photos", Ref{Kind: KindBake, ID: bake}, RoleOther, pictures, func(done int) {
		if done == 3 {
			cancel()
		}
	})
	if !errors.Is(err, context.Canceled) {
		t.Fatalf("got %v", err)
	}
	photos, _ := Photos(j, bake)
	if len(photos) != len(added) || len(added) < 2 || len(added) == 20 {
		t.Errorf("added %d, kept %d", len(added), len(photos))
	}
}
