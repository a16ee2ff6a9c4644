package main

import (
	"os"
	"path/filepath"
	"testing"
)

// The folder of a demonstration whose program was killed goes at the next start; that of
// one that runs stays, and so does everything that only looks like one.
func TestLeftDemosAreSwept(t *testing.T) {
	temp, other := t.TempDir(), t.TempDir()
	running, held, err := makeDemoFolder(temp)
	if err != nil {
		t.Fatal(err)
	}
	defer held.Close()
	killed, ended, err := makeDemoFolder(temp)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(killed, "journal.db"), []byte("bread"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := ended.Close(); err != nil { // as the system does it for a process that is killed
		t.Fatal(err)
	}
	theirs := filepath.Join(temp, demoPrefix+"of-another")
	if err := os.Mkdir(theirs, 0o700); err != nil {
		t.Fatal(err)
	}
	link := filepath.Join(temp, demoPrefix+"link")
	if err := os.WriteFile(filepath.Join(other, inUse), nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(other, link); err != nil {
		t.Fatal(err)
	}
	sweepDemos(temp)
	for path, stays := range map[string]bool{running: true, killed: false, theirs: true, link: true, filepath.Join(other, inUse): true} {
		if _, err := os.Lstat(path); (err == nil) != stays {
			t.Errorf("%s: it stays %v, want %v", filepath.Base(path), err == nil, stays)
		}
	}
}
