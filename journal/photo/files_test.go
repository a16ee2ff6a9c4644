package photo_test

import (
	"bytes"
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"image"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"syscall"
	"testing"

	"twinloaf/journal/faultdisk"
	"twinloaf/journal/photo"
	"twinloaf/journal/photo/phototest"
)

func openFiles(t *testing.T, opt photo.Options) *photo.Files {
	t.Helper()
	files, err := photo.OpenFiles(filepath.Join(t.TempDir(), "photos"), opt)
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// checkStore checks that the store names these photos and no others, that each
// is whole, and that nothing else lies about.
func checkStore(t *testing.T, files *photo.Files, want ...photo.Hash) {
	t.Helper()
	stored, err := files.List(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	var got []photo.Hash
	for _, s := range stored {
		got = append(got, s.Hash)
		if err := files.Verify(context.Background(), s.Hash); err != nil {
			t.Errorf("a stored photo is not whole: %v", err)
		}
	}
	slices.SortFunc(want, func(a, b photo.Hash) int { return bytes.Compare(a[:], b[:]) })
	if !slices.Equal(got, want) {
		t.Errorf("the store names %v, want %v", got, want)
	}
	if n := len(allFiles(t, files.Dir())); n != len(want) {
		t.Errorf("%d files lie in the store, want %d: %v", n, len(want), allFiles(t, files.Dir()))
	}
}

func allFiles(t *testing.T, dir string) []string {
	t.Helper()
	var all []string
	err := filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			all = append(all, path)
		}
		return err
	})
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		t.Fatal(err)
	}
	return all
}

func loaf(n int) []byte {
	return phototest.JPEG(phototest.Scene(64, 40+n), phototest.EXIF{Orientation: 1 + n%8})
}

func TestAnOriginalIsKeptByteForByteUnderItsHash(t *testing.T) {
	files := openFiles(t, photo.Options{})
	var want []photo.Hash
	for name, data := range map[string][]byte{
		"a.jpg": loaf(0), "b.png": phototest.PNG(phototest.Scene(20, 20)),
		"c.webp": phototest.Sample(t, "lossy.webp"), "d.heic": phototest.Sample(t, "upright.heic"),
		"wrong ending.png": loaf(1),
	} {
		added, err := files.Add(t.Context(), name, bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		if added.Hash != sha256.Sum256(data) || added.Size != int64(len(data)) || added.Existed {
			t.Errorf("%s: added %+v", name, added)
		}
		r, format, err := files.Open(added.Hash)
		if err != nil {
			t.Fatal(err)
		}
		back, err := io.ReadAll(r)
		if err := errors.Join(err, r.Close()); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(back, data) || format != added.Meta.Format {
			t.Errorf("%s: came back as %d bytes of %v", name, len(back), format)
		}
		hex := added.Hash.String()
		if _, err := os.Stat(filepath.Join(files.Dir(), hex[:2], hex+format.Ext())); err != nil {
			t.Error(err)
		}
		want = append(want, added.Hash)
	}
	checkStore(t, files, want...)
}

func TestTheSamePictureIsStoredOnce(t *testing.T) {
	faults := new(faultdisk.Disk)
	files := openFiles(t, photo.Options{FS: faults.Photos()})
	first, err := files.Add(t.Context(), "loaf.jpg", bytes.NewReader(loaf(0)))
	if err != nil {
		t.Fatal(err)
	}
	again, err := files.Add(t.Context(), "copy of loaf.jpg", bytes.NewReader(loaf(0)))
	if err != nil {
		t.Fatal(err)
	}
	if again.Hash != first.Hash || first.Existed || !again.Existed || again.Meta != first.Meta {
		t.Errorf("first %+v, then %+v", first, again)
	}
	if n := faults.Count(faultdisk.Create); n != 1 {
		t.Errorf("%d files were written for one content", n)
	}
	checkStore(t, files, first.Hash)
}

func TestManyAddAtOnceAndEachContentIsStoredOnce(t *testing.T) {
	files := openFiles(t, photo.Options{})
	const contents, each = 4, 6
	var wg sync.WaitGroup
	var mu sync.Mutex
	fresh := make(map[photo.Hash]int)
	for i := range contents * each {
		data := loaf(i % contents)
		wg.Go(func() {
			added, err := files.Add(context.Background(), fmt.Sprintf("loaf %d.jpg", i), bytes.NewReader(data))
			if err != nil {
				t.Error(err)
			}
			mu.Lock()
			defer mu.Unlock()
			fresh[added.Hash] += 0
			if !added.Existed {
				fresh[added.Hash]++
			}
		})
	}
	wg.Wait()
	var want []photo.Hash
	for h, n := range fresh {
		want = append(want, h)
		if n != 1 {
			t.Errorf("%v was new %d times", h, n)
		}
	}
	checkStore(t, files, want...)
}

func TestAPhotoIsSyncedBeforeItIsNamedAndItsFolderBeforeItIsTold(t *testing.T) {
	faults := new(faultdisk.Disk)
	files := openFiles(t, photo.Options{FS: faults.Photos()})
	opened := len(faults.Order())
	if _, err := files.Add(t.Context(), "loaf.jpg", bytes.NewReader(loaf(0))); err != nil {
		t.Fatal(err)
	}
	want := []faultdisk.Op{
		faultdisk.Create, faultdisk.Write, faultdisk.Sync, faultdisk.Close,
		faultdisk.Mkdir, faultdisk.Rename, faultdisk.SyncDir, faultdisk.SyncDir,
	}
	if got := faults.Order()[opened:]; !slices.Equal(got, want) {
		t.Errorf("steps %v, want %v", got, want)
	}
}

func TestNoStepThatFailsLeavesAHalfWrittenPhoto(t *testing.T) {
	broken := errors.New("broken")
	for _, step := range []faultdisk.Op{
		faultdisk.Create, faultdisk.Write, faultdisk.Sync, faultdisk.Close,
		faultdisk.Mkdir, faultdisk.Rename, faultdisk.SyncDir,
	} {
		t.Run(string(step), func(t *testing.T) {
			faults := new(faultdisk.Disk)
			files := openFiles(t, photo.Options{FS: faults.Photos()})
			before, err := files.Add(t.Context(), "before.jpg", bytes.NewReader(loaf(0)))
			if err != nil {
				t.Fatal(err)
			}
			faults.Fail(step, 1, -1, broken)
			_, err = files.Add(t.Context(), "loaf.jpg", bytes.NewReader(loaf(1)))
			if !errors.Is(err, photo.ErrNotStored) || !errors.Is(err, broken) {
				t.Fatalf("told %v", err)
			}
			if want := `“loaf.jpg” could not be stored: broken`; err.Error() != want {
				t.Errorf("the sentence is %q, want %q", err, want)
			}
			left := []photo.Hash{before.Hash}
			if step == faultdisk.SyncDir { // named, whole, and in no record
				left = append(left, sha256.Sum256(loaf(1)))
			}
			checkStore(t, files, left...)

			faults.Heal()
			again, err := files.Add(t.Context(), "loaf.jpg", bytes.NewReader(loaf(1)))
			if err != nil {
				t.Fatalf("after the fault was gone: %v", err)
			}
			checkStore(t, files, before.Hash, again.Hash)
		})
	}
}

func TestAFullDiskIsToldAsOne(t *testing.T) {
	for _, step := range []faultdisk.Op{faultdisk.Create, faultdisk.Write, faultdisk.Sync, faultdisk.Mkdir} {
		faults := new(faultdisk.Disk)
		files := openFiles(t, photo.Options{FS: faults.Photos()})
		faults.Fail(step, 1, -1, &os.PathError{Op: "write", Path: "/somewhere", Err: syscall.ENOSPC})
		_, err := files.Add(t.Context(), "loaf.jpg", bytes.NewReader(loaf(0)))
		want := `there is no room left on the disk to keep “loaf.jpg”; nothing was changed`
		if !errors.Is(err, photo.ErrNoSpace) || err.Error() != want {
			t.Errorf("%s: %v", step, err)
		}
		checkStore(t, files)
	}
}

func TestWhatACrashLeftIsDeletedAtTheNextOpening(t *testing.T) {
	faults := new(faultdisk.Disk)
	files := openFiles(t, photo.Options{FS: faults.Photos()})
	kept, err := files.Add(t.Context(), "kept.jpg", bytes.NewReader(loaf(0)))
	if err != nil {
		t.Fatal(err)
	}
	// A crash is a step that fails with nobody left to clear up.
	faults.Fail(faultdisk.Rename, 1, -1, errors.New("killed"))
	faults.Fail(faultdisk.Remove, 1, -1, errors.New("killed"))
	if _, err := files.Add(t.Context(), "lost.jpg", bytes.NewReader(loaf(1))); err == nil {
		t.Fatal("the crash was not noticed")
	}
	if n := len(allFiles(t, files.Dir())); n != 2 {
		t.Fatalf("%d files after the crash, want the photo and the unfinished one", n)
	}
	if _, err := photo.OpenFiles(files.Dir(), photo.Options{FS: faults.Photos()}); err == nil {
		t.Error("an opening that could not clear up told nothing")
	}
	reopened, err := photo.OpenFiles(files.Dir(), photo.Options{})
	if err != nil {
		t.Fatal(err)
	}
	checkStore(t, reopened, kept.Hash)
}

func TestAStoreInAFolderThatCannotBeMadeIsToldAtOnce(t *testing.T) {
	for _, step := range []faultdisk.Op{faultdisk.Mkdir, faultdisk.SyncDir} {
		faults := new(faultdisk.Disk)
		faults.Fail(step, 1, -1, errors.New("broken"))
		if _, err := photo.OpenFiles(filepath.Join(t.TempDir(), "photos"), photo.Options{FS: faults.Photos()}); err == nil {
			t.Errorf("%s failed and opening did not", step)
		}
	}
}

func TestAnAlteredOriginalIsNoticedAndHealedByAddingItAgain(t *testing.T) {
	files := openFiles(t, photo.Options{})
	added, err := files.Add(t.Context(), "loaf.jpg", bytes.NewReader(loaf(0)))
	if err != nil {
		t.Fatal(err)
	}
	path := allFiles(t, files.Dir())[0]
	bad := loaf(0)
	bad[len(bad)/2] ^= 1
	if err := os.WriteFile(path, bad, 0o644); err != nil {
		t.Fatal(err)
	}
	if err := files.Verify(t.Context(), added.Hash); !errors.Is(err, photo.ErrAltered) || !strings.Contains(err.Error(), added.Hash.String()) {
		t.Errorf("verifying: %v", err)
	}
	if _, err := files.DecodeUpright(t.Context(), added.Hash, 0); !errors.Is(err, photo.ErrAltered) {
		t.Errorf("decoding: %v", err)
	}
	again, err := files.Add(t.Context(), "loaf.jpg", bytes.NewReader(loaf(0)))
	if err != nil || again.Existed {
		t.Errorf("adding again: %+v, %v", again, err)
	}
	checkStore(t, files, added.Hash)
}

func TestAPhotoThatIsNotThereIsTold(t *testing.T) {
	files := openFiles(t, photo.Options{})
	h := photo.Hash{1, 2, 3}
	_, _, opened := files.Open(h)
	_, decoded := files.DecodeUpright(t.Context(), h, 100)
	for _, err := range []error{opened, decoded, files.Verify(t.Context(), h)} {
		if !errors.Is(err, photo.ErrMissing) || !errors.Is(err, os.ErrNotExist) {
			t.Errorf("told %v", err)
		}
	}
}

func TestDecodeUprightTurnsAndFits(t *testing.T) {
	files := openFiles(t, photo.Options{})
	data := phototest.JPEG(storedAs(phototest.Scene(300, 200), "right", "top"), phototest.EXIF{Orientation: 6})
	added, err := files.Add(t.Context(), "loaf.jpg", bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	for maxSide, want := range map[int]image.Point{0: {300, 200}, 150: {150, 100}, 900: {300, 200}} {
		img, err := files.DecodeUpright(t.Context(), added.Hash, maxSide)
		if err != nil {
			t.Fatal(err)
		}
		if img.Rect.Max != want {
			t.Errorf("at most %d: %v, want %v", maxSide, img.Rect.Max, want)
		}
		checkScene(t, img)
	}
}

func TestListPassesOverWhatTheStoreDidNotName(t *testing.T) {
	files := openFiles(t, photo.Options{})
	added, err := files.Add(t.Context(), "loaf.jpg", bytes.NewReader(loaf(0)))
	if err != nil {
		t.Fatal(err)
	}
	hex := added.Hash.String()
	shard := filepath.Join(files.Dir(), hex[:2])
	for _, name := range []string{"notes.txt", "Thumbs.db", hex + ".gif", strings.ToUpper(hex) + ".jpg", strings.Repeat("0", 64) + ".jpg"} {
		if err := os.WriteFile(filepath.Join(shard, name), []byte("x"), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	list, err := files.List(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	stored, err := os.Stat(filepath.Join(shard, hex+".jpg"))
	if err != nil {
		t.Fatal(err)
	}
	want := []photo.Stored{{Hash: added.Hash, Format: photo.JPEG, Size: added.Size, Modified: stored.ModTime()}}
	if !slices.Equal(list, want) {
		t.Errorf("listed %v, want %v", list, want)
	}
}

func TestACancelledAdditionStoresNothing(t *testing.T) {
	files := openFiles(t, photo.Options{})
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := files.Add(ctx, "loaf.jpg", bytes.NewReader(loaf(0))); !errors.Is(err, context.Canceled) {
		t.Errorf("told %v", err)
	}
	half, stop := context.WithCancel(t.Context())
	_, err := files.Add(half, "loaf.jpg", io.MultiReader(bytes.NewReader(loaf(0)), readerFunc(func([]byte) (int, error) {
		stop()
		return 0, io.EOF
	})))
	if !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled at the last byte: %v", err)
	}
	checkStore(t, files)
}

type readerFunc func([]byte) (int, error)

func (f readerFunc) Read(p []byte) (int, error) { return f(p) }

func TestAHashReadsBackFromItsText(t *testing.T) {
	h := photo.Hash(sha256.Sum256([]byte("abc")))
	// FIPS 180-4's example, as published by NIST for the message "abc".
	const text = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
	if h.String() != text {
		t.Errorf("SHA-256 of abc is %s", h)
	}
	if back, err := photo.ParseHash(text); err != nil || back != h {
		t.Errorf("read back %v, %v", back, err)
	}
	for _, bad := range []string{"", text[1:], text + "0", "x" + text[1:]} {
		if _, err := photo.ParseHash(bad); err == nil {
			t.Errorf("%q was read as a fingerprint", bad)
		}
	}
}
