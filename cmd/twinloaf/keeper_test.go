package main

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"twinloaf/journal"
)

// What was typed and cannot be saved is in the file that is named; where nothing was typed
// there is none, and none is named.
func TestWhatWasTypedIsWhereItIsSaidToBe(t *testing.T) {
	home := t.TempDir()
	t.Setenv("HOME", home)
	why := errors.New("the journal is still being read")
	if err := withRescue(why, nil, time.Now()); err != why {
		t.Errorf("with nothing typed it says %q", err)
	}
	if left, err := os.ReadDir(home); err != nil || len(left) > 0 {
		t.Errorf("with nothing typed it leaves %v, %v", left, err)
	}
	err := withRescue(why, []journal.Unsaved{{Name: "Ferry loaf", Values: []journal.Value{{Member: "notes", Text: "windy"}}}}, time.Now())
	left, failed := os.ReadDir(home)
	if failed != nil || len(left) != 1 || !errors.Is(err, why) || !strings.HasSuffix(err.Error(), left[0].Name()) {
		t.Fatalf("it says %q and leaves %v, %v", err, left, failed)
	}
	if text, err := os.ReadFile(filepath.Join(home, left[0].Name())); err != nil || !strings.Contains(string(text), "windy") {
		t.Errorf("the file holds %q, %v", text, err)
	}
}
