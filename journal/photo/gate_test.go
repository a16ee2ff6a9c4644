package photo_test

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"testing"

	"twinloaf/journal/photo"
	"twinloaf/journal/photo/phototest"
)

func TestNothingIsWrittenThroughAClosedGate(t *testing.T) {
	root := t.TempDir()
	gate := photo.NewGate(nil)
	dir := filepath.Join(root, "photos")
	files, err := photo.OpenFiles(dir, photo.Options{FS: gate})
	if err != nil {
		t.Fatal(err)
	}
	data := phototest.JPEG(phototest.Scene(40, 30), phototest.EXIF{})
	added, err := files.Add(t.Context(), "before.jpg", bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	gate.Close()
	gate.Close()
	other := phototest.JPEG(phototest.Scene(50, 30), phototest.EXIF{})
	if _, err := files.Add(t.Context(), "after.jpg", bytes.NewReader(other)); !errors.Is(err, os.ErrClosed) {
		t.Errorf("adding gives %v", err)
	}
	steps := map[string]error{
		"make a folder": gate.MkdirAll(filepath.Join(root, "new")),
		"rename":        gate.Rename(dir, filepath.Join(root, "renamed")),
		"remove":        gate.Remove(dir),
	}
	for what, err := range steps {
		if !errors.Is(err, os.ErrClosed) {
			t.Errorf("%s: %v", what, err)
		}
	}
	if left, err := os.ReadDir(root); err != nil || len(left) != 1 || left[0].Name() != "photos" {
		t.Errorf("there is %v, %v", left, err)
	}
	if err := files.Verify(t.Context(), added.Hash); err != nil {
		t.Errorf("reading what was there: %v", err)
	}
}
