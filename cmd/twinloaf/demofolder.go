package main

import (
	"fmt"
	"os"
	"path/filepath"
)

// demoPrefix is how the names of the demonstration's folders begin, in the folder for
// temporary files.
const demoPrefix = "twinloaf-demo-"

// inUse is the file in such a folder that the program holds while it lives, however it
// ends.
const inUse = ".in-use"

// makeDemoFolder makes a folder that is this program's as long as held is open.
func makeDemoFolder(temp string) (dir string, held *os.File, err error) {
	dir, err = os.MkdirTemp(temp, demoPrefix)
	if err == nil {
		held, err = hold(filepath.Join(dir, inUse), os.O_CREATE)
	}
	if err != nil {
		return "", nil, fmt.Errorf("making a folder for the demo: %w", err)
	}
	return dir, held, nil
}

// sweepDemos takes away the folders of demonstrations whose program has ended without
// doing so itself: it was killed, or the power failed. One that is held stays, and so
// does whatever is not surely ours. What cannot be taken away is left to the next time.
func sweepDemos(temp string) {
	entries, _ := filepath.Glob(filepath.Join(temp, demoPrefix+"*"))
	for _, dir := range entries {
		if info, err := os.Lstat(dir); err != nil || !info.IsDir() {
			continue
		}
		if f, err := hold(filepath.Join(dir, inUse), 0); err == nil {
			_ = os.RemoveAll(dir)
			_ = f.Close()
		}
	}
}
