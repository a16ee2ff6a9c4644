//go:build unix

package main

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"golang.org/x/sys/unix"

	"twinloaf/journal"
)

// A journal.db that is no file is told as what it is; nobody waits for a pipe's other end.
func TestCheckOfWhatIsNoFile(t *testing.T) {
	cases := []struct {
		name string
		put  func(path string) error
		want string
	}{
		{"a pipe", func(path string) error { return unix.Mkfifo(path, 0o600) }, "not a Twinloaf journal"},
		{"a folder", func(path string) error { return os.Mkdir(path, 0o700) }, "not a Twinloaf journal"},
		{"a link to nothing", func(path string) error { return os.Symlink("nowhere", path) }, "is a link to a file that is not there"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			dir := t.TempDir()
			if err := c.put(filepath.Join(dir, journal.FileName)); err != nil {
				t.Fatal(err)
			}
			var said strings.Builder
			if err := checkHere(t.Context(), dir, journal.Options{}, &said, &progressLine{}); !errors.Is(err, errFound) || !strings.Contains(said.String(), c.want) {
				t.Errorf("said %q, %v", said.String(), err)
			}
		})
	}
}
