package store

import (
	"errors"
	"os"
	"path/filepath"
	"testing"
)

// After reading has failed the file is opened anew, but never another one that has taken
// its place meanwhile: nobody has looked at that.
func TestAFileThatTookThePlaceIsNotOpened(t *testing.T) {
	dir := t.TempDir()
	path, aside := filepath.Join(dir, "records.db"), filepath.Join(dir, "aside.db")
	layout := Layout{Is: "records", Schema: 1, Kinds: []Spec{{Kind: "bake"}}}
	if err := Create(path, layout); err != nil {
		t.Fatal(err)
	}
	s, err := Open(path, layout, Options{})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = s.Close() })
	if err := errors.Join(os.Rename(path, aside), Create(path, layout)); err != nil {
		t.Fatal(err)
	}
	s.sick.Store(true)
	was := s.now.Load()
	for range 2 {
		if err := s.MakeSure(); !errors.Is(err, ErrReplaced) || s.now.Load() != was {
			t.Errorf("it gives %v, opened anew %v", err, s.now.Load() != was)
		}
	}
	if err := os.Rename(aside, path); err != nil {
		t.Fatal(err)
	}
	if err := s.MakeSure(); err != nil || s.Stale() || s.now.Load() == was {
		t.Errorf("back in its place: %v, stale %v, opened anew %v", err, s.Stale(), s.now.Load() != was)
	}
	if err := s.View(func(*Tx) error { return nil }); err != nil {
		t.Errorf("reading: %v", err)
	}
}
