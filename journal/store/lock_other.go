//go:build !unix

package store

import "os"

// lockFile is left to bbolt, which opens the file next.
func lockFile(*os.File, bool) error { return nil }

// unlockFile cannot be done here: the file is free again when the program ends.
func unlockFile(*os.File) {}
