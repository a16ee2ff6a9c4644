package main

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"twinloaf/journal"
)

// checkedJournal makes a journal of one bake with a photo and gives its folder.
func checkedJournal(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	j, err := journal.Open(t.Context(), dir, journal.Options{})
	if err != nil {
		t.Fatal(err)
	}
	b := &journal.Bake{Name: "Ferry loaf", At: time.Date(2026, 3, 4, 8, 54, 0, 0, time.UTC)}
	if err := j.Do("new bake", func(tx *journal.Tx) error { return journal.Put(tx, b) }); err != nil {
		t.Fatal(err)
	}
	if _, refused, err := j.AddPictures(t.Context(), "photo", journal.RefOf(b), journal.RoleCrumb,
		[]journal.Picture{{Name: "crumb.jpg", Path: "../../testdata/photo/progressive.jpg"}}, nil); err != nil || len(refused) > 0 {
		t.Fatal(refused, err)
	}
	if err := j.Close(); err != nil {
		t.Fatal(err)
	}
	return dir
}

func TestCheckSaysWhatIsWrongByName(t *testing.T) {
	cases := []struct {
		name   string
		damage func(t *testing.T, dir string)
		want   string // among what is said
		wrong  bool
	}{
		{"nothing", func(*testing.T, string) {}, "everything is as it should be", false},
		{"an original is gone", func(t *testing.T, dir string) {
			if err := os.RemoveAll(filepath.Join(dir, "photos")); err != nil {
				t.Fatal(err)
			}
		}, "One photo of Ferry loaf, 4 March 2026 (“crumb.jpg”): the original picture is missing.", true},
		{"a letter in the bake", func(t *testing.T, dir string) {
			path := filepath.Join(dir, journal.FileName)
			file, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			file = bytes.ReplaceAll(file, []byte(`"name":"Ferry loaf"`), []byte(`"name":"Ferry lo!!"`))
			if err := os.WriteFile(path, file, 0o600); err != nil {
				t.Fatal(err)
			}
		}, "Bake Ferry lo", true},
		{"no journal", func(t *testing.T, dir string) {
			if err := os.WriteFile(filepath.Join(dir, journal.FileName), []byte("Dear diary"), 0o600); err != nil {
				t.Fatal(err)
			}
		}, "not a Twinloaf journal", true},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			dir := checkedJournal(t)
			c.damage(t, dir)
			var said strings.Builder
			err := checkHere(context.Background(), dir, journal.Options{}, &said, &progressLine{})
			if errors.Is(err, errFound) != c.wrong || err != nil && !c.wrong {
				t.Errorf("gave %v", err)
			}
			if !strings.Contains(said.String(), c.want) {
				t.Errorf("said %q", said.String())
			}
		})
	}
}

func TestCheckMakesNothing(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "mistyped")
	if err := check(t.Context(), options{dir: dir}); err == nil || !strings.Contains(err.Error(), "there is no journal in") {
		t.Errorf("gave %v", err)
	}
	if _, err := os.Stat(dir); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("it made the folder: %v", err)
	}
}
