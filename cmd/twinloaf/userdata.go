package main

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
)

// userData is the folder in which this system keeps what belongs to a person:
// on Linux as the XDG Base Directory specification has it.
func userData() (string, error) {
	if runtime.GOOS == "windows" || runtime.GOOS == "darwin" {
		dir, err := os.UserConfigDir()
		if err != nil {
			return "", fmt.Errorf("finding where to keep the journal: %w", err)
		}
		return filepath.Join(dir, "Twinloaf"), nil
	}
	home, err := os.UserHomeDir()
	if err != nil {
		return "", fmt.Errorf("finding where to keep the journal: %w", err)
	}
	return filepath.Join(home, ".local", "share", "twinloaf"), nil
}
