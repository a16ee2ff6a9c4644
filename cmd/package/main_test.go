package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestWhatIsLaidIsThere(t *testing.T) {
	for to, from := range laid {
		data, err := os.ReadFile(filepath.Join("..", "..", filepath.FromSlash(from)))
		if err != nil || len(data) == 0 {
			t.Errorf("%s is to be laid at %s: %v", from, to, err)
		}
	}
	for _, want := range []string{"Package: twinloaf\n", "Version: 1.2\n", "Architecture: arm64\n", "Depends: libc6"} {
		if !strings.Contains(controlText("1.2", "arm64"), want) {
			t.Errorf("the control file does not say %q", want)
		}
	}
}
