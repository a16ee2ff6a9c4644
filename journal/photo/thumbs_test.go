package photo_test

import (
	"bytes"
	"context"
	"errors"
	"image"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"twinloaf/journal/faultdisk"
	"twinloaf/journal/photo"
	"twinloaf/journal/photo/phototest"
)

// shelf is a store with its thumbnails, each over a file layer of its own.
type shelf struct {
	files  *photo.Files
	thumbs *photo.Thumbs
	cache  string
	faults *faultdisk.Disk // of the cache
}

func newShelf(t *testing.T) shelf {
	t.Helper()
	s := shelf{files: openFiles(t, photo.Options{}), cache: filepath.Join(t.TempDir(), "cache"), faults: new(faultdisk.Disk)}
	s.thumbs = photo.NewThumbs(s.files, s.cache, s.faults.Photos())
	return s
}

// add adds a photo of 900 x 600 as a phone held upright stores it.
func (s shelf) add(t *testing.T) photo.Hash {
	t.Helper()
	data := phototest.JPEG(storedAs(phototest.Scene(900, 600), "right", "top"), phototest.EXIF{Orientation: 6})
	added, err := s.thumbs.Add(t.Context(), "loaf.jpg", bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return added.Hash
}

func (s shelf) get(t *testing.T, h photo.Hash, size photo.Size) *image.RGBA {
	t.Helper()
	img, err := s.thumbs.Get(t.Context(), h, size)
	if err != nil {
		t.Fatal(err)
	}
	return img
}

func TestThumbnailsAreUprightAndOfTheirSize(t *testing.T) {
	s := newShelf(t)
	h := s.add(t)
	for size, want := range map[photo.Size]image.Point{
		photo.Small:  {320, 213},
		photo.Medium: {640, 427},
		photo.Large:  {900, 600}, // never enlarged
		100:          {100, 67},
	} {
		for _, from := range []string{"made", "kept"} {
			img := s.get(t, h, size)
			if d := img.Rect.Max.Sub(want); d.X < -1 || d.X > 1 || d.Y < -1 || d.Y > 1 {
				t.Errorf("%d, %s: %v, want %v", size, from, img.Rect.Max, want)
			}
			checkScene(t, img)
		}
	}
	if _, err := s.thumbs.Get(t.Context(), h, 0); err == nil {
		t.Error("a thumbnail of no pixels was made")
	}
}

func TestAnAdditionMakesTheThumbnailsOfListsAtOnce(t *testing.T) {
	s := newShelf(t)
	h := s.add(t)
	made := s.faults.Count(faultdisk.Create)
	s.get(t, h, photo.Small)
	s.get(t, h, photo.Medium)
	if n := s.faults.Count(faultdisk.Create); n != made || made != 2 {
		t.Errorf("%d thumbnails at the addition, %d after looking at them, want 2 and 2", made, n)
	}
}

func TestTheCacheMayBeDeletedAtAnyTime(t *testing.T) {
	s := newShelf(t)
	h := s.add(t)
	for range 2 {
		if err := os.RemoveAll(s.cache); err != nil {
			t.Fatal(err)
		}
		checkScene(t, s.get(t, h, photo.Small))
	}
	if len(allFiles(t, s.cache)) != 1 {
		t.Errorf("the cache holds %v", allFiles(t, s.cache))
	}
}

func TestADamagedThumbnailIsMadeAgain(t *testing.T) {
	s := newShelf(t)
	h := s.add(t)
	want := s.get(t, h, photo.Medium)
	for _, path := range allFiles(t, s.cache) {
		whole, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		flipped := bytes.Clone(whole)
		flipped[len(flipped)/2] ^= 4
		for name, bad := range map[string][]byte{
			"empty": {}, "cut": whole[:len(whole)/2], "one bit": flipped, "zeros": make([]byte, len(whole)),
			"another picture": loaf(0),
		} {
			if err := os.WriteFile(path, bad, 0o644); err != nil {
				t.Fatal(err)
			}
			if img := s.get(t, h, photo.Medium); img.Rect != want.Rect {
				t.Errorf("%s: %v, want %v", name, img.Rect, want.Rect)
			}
			s.get(t, h, photo.Small)
			again, err := os.ReadFile(path)
			if err != nil || bytes.Equal(again, bad) {
				t.Errorf("%s: the bad file stayed, %v", name, err)
			}
		}
	}
}

func TestThoseWhoAskForTheSameThumbnailShareTheWork(t *testing.T) {
	s := newShelf(t)
	h := s.add(t)
	before := s.faults.Count(faultdisk.Create)
	var wg sync.WaitGroup
	for range 16 {
		wg.Go(func() {
			if _, err := s.thumbs.Get(context.Background(), h, photo.Large); err != nil {
				t.Error(err)
			}
		})
	}
	wg.Wait()
	if n := s.faults.Count(faultdisk.Create) - before; n != 1 {
		t.Errorf("made %d times for 16 who asked", n)
	}
}

func TestOneWhoGivesUpDoesNotTakeTheThumbnailFromTheOthers(t *testing.T) {
	s := newShelf(t)
	h := s.add(t)
	for range 20 {
		if err := os.RemoveAll(s.cache); err != nil {
			t.Fatal(err)
		}
		ctx, cancel := context.WithCancel(t.Context())
		var wg sync.WaitGroup
		wg.Go(func() {
			if _, err := s.thumbs.Get(ctx, h, photo.Small); err != nil && !errors.Is(err, context.Canceled) {
				t.Error(err)
			}
		})
		wg.Go(func() {
			if _, err := s.thumbs.Get(context.Background(), h, photo.Small); err != nil {
				t.Errorf("one who stayed: %v", err)
			}
		})
		cancel()
		wg.Wait()
	}
}

func TestACacheThatCannotBeWrittenToCostsOnlyTime(t *testing.T) {
	for _, step := range []faultdisk.Op{faultdisk.Mkdir, faultdisk.Create, faultdisk.Write, faultdisk.Close, faultdisk.Rename} {
		s := newShelf(t)
		s.faults.Fail(step, 1, -1, errors.New("broken"))
		checkScene(t, s.get(t, s.add(t), photo.Small))
		if left := allFiles(t, s.cache); len(left) != 0 {
			t.Errorf("%s: left %v", step, left)
		}
	}
}

func TestWhatACrashLeftInTheCacheIsDeleted(t *testing.T) {
	s := newShelf(t)
	s.faults.Fail(faultdisk.Rename, 1, -1, errors.New("killed"))
	s.faults.Fail(faultdisk.Remove, 1, -1, errors.New("killed"))
	s.add(t)
	if len(allFiles(t, s.cache)) == 0 {
		t.Fatal("the crash left nothing to clear up")
	}
	photo.NewThumbs(s.files, s.cache, nil)
	if left := allFiles(t, s.cache); len(left) != 0 {
		t.Errorf("left %v", left)
	}
}

func TestAThumbnailWithoutAnOriginalIsToldAsMissing(t *testing.T) {
	s := newShelf(t)
	if _, err := s.thumbs.Get(t.Context(), photo.Hash{9}, photo.Small); !errors.Is(err, photo.ErrMissing) {
		t.Errorf("told %v", err)
	}
}

func TestAddFileMakesThumbnailsToo(t *testing.T) {
	s := newShelf(t)
	added, err := s.thumbs.AddFile(t.Context(), phototest.SamplePath(t, "upright.heic"))
	if err != nil {
		t.Fatal(err)
	}
	if added.Meta.Format != photo.HEIC || s.faults.Count(faultdisk.Create) != 2 {
		t.Errorf("added %+v and %d thumbnails", added, s.faults.Count(faultdisk.Create))
	}
	checkScene(t, s.get(t, added.Hash, photo.Small))
}
