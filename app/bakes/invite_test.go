package bakes

import (
	"runtime"
	"strings"
	"testing"

	"twinloaf/app/clipboard"
)

// Pasting pictures is promised where the clipboard can be read, and nowhere else.
func TestPastingIsPromisedWhereItWorks(t *testing.T) {
	for paste, promised := range map[bool]bool{true: true, false: false} {
		if words := inviteWords(paste); strings.Contains(words, "paste") != promised || !strings.Contains(words, "Drop") {
			t.Errorf("where it works, %v: %q", paste, words)
		}
	}
	works := map[string]bool{"linux": true, "freebsd": true, "openbsd": true, "netbsd": true}
	if clipboard.Pictures() != works[runtime.GOOS] {
		t.Errorf("on %s pasting is promised: %v", runtime.GOOS, clipboard.Pictures())
	}
}
