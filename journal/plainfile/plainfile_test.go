//go:build unix

package plainfile_test

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"twinloaf/journal/plainfile"
)

// A pipe that nobody writes to, a device behind a link and a folder are refused at once,
// each in a sentence that names it.
func TestOnlyPlainFilesAreOpened(t *testing.T) {
	dir := t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	if err := syscall.Mkfifo(at("pipe.csv"), 0o600); err != nil {
		t.Fatal(err)
	}
	for link, to := range map[string]string{"zero.csv": "/dev/zero", "to-pipe.csv": at("pipe.csv"), "to-folder.csv": dir} {
		if err := os.Symlink(to, at(link)); err != nil {
			t.Fatal(err)
		}
	}
	for name, want := range map[string]error{
		"pipe.csv": plainfile.ErrNotPlain, "zero.csv": plainfile.ErrNotPlain, "to-pipe.csv": plainfile.ErrNotPlain,
		"to-folder.csv": plainfile.ErrFolder, "": plainfile.ErrFolder, "absent.csv": os.ErrNotExist,
	} {
		done := make(chan error, 1)
		go func() {
			_, err := plainfile.Read(at(name), 100)
			done <- err
		}()
		select {
		case err := <-done:
			if !errors.Is(err, want) || name != "" && !strings.Contains(err.Error(), name) {
				t.Errorf("%s: %v, want %v", name, err, want)
			}
		case <-time.After(20 * time.Second):
			t.Fatalf("%s: reading it does not end", name)
		}
	}
}

func TestReadIsBounded(t *testing.T) {
	path := filepath.Join(t.TempDir(), "log.csv")
	if err := os.WriteFile(path, []byte("0123456789"), 0o600); err != nil {
		t.Fatal(err)
	}
	if data, err := plainfile.Read(path, 10); err != nil || string(data) != "0123456789" {
		t.Errorf("%q, %v", data, err)
	}
	if _, err := plainfile.Read(path, 9); !errors.Is(err, plainfile.ErrTooLarge) {
		t.Errorf("a byte too much: %v", err)
	}
	if _, err := plainfile.Read("/proc/self/maps", 10); err != nil && !errors.Is(err, plainfile.ErrTooLarge) {
		t.Errorf("a file longer than it says: %v", err)
	}
}
