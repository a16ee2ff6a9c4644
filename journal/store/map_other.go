//go:build !unix

package store

import (
	"io"
	"os"
)

// mapFile gives the content of a file.
func mapFile(f *os.File) (data []byte, done func(), err error) {
	data, err = io.ReadAll(f)
	return data, func() {}, err
}
