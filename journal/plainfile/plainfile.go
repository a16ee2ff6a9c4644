// Package plainfile opens files that come from outside: only plain ones. A folder, a
// pipe that nobody writes to, or a link to a device would keep the program waiting, or
// never end.
package plainfile

import (
	"io"
	"os"
	"path/filepath"
	"syscall"

	"twinloaf/journal/say"
)

// The kinds of refusal, to tell with errors.Is. Each is a [say.Error], a sentence.
var (
	ErrFolder   = say.NewError("it is a folder, not a file")
	ErrNotPlain = say.NewError("it is not a plain file: a device or a pipe has no end")
	ErrTooLarge = say.NewError("it is larger than can be read")
)

// Open opens the plain file at path for reading. It never waits for the other end of a
// pipe.
func Open(path string) (*os.File, error) {
	f, err := os.OpenFile(path, os.O_RDONLY|syscall.O_NONBLOCK, 0)
	if err != nil {
		return nil, Refuse(path, err)
	}
	if err := plain(f); err != nil {
		f.Close()
		return nil, err
	}
	return f, nil
}

// plain looks at what was opened, which nothing can take the place of.
func plain(f *os.File) error {
	info, err := f.Stat()
	switch {
	case err != nil:
		return Refuse(f.Name(), err)
	case info.IsDir():
		return Refuse(f.Name(), ErrFolder)
	case !info.Mode().IsRegular():
		return Refuse(f.Name(), ErrNotPlain)
	}
	return nil
}

// Refuse says of a file by its name why it cannot be read; the error wraps why.
func Refuse(path string, why error) error {
	line, ok := say.OfError(why)
	switch trouble := say.TroubleOf(why); {
	case !ok && trouble != say.NoTrouble:
		line = trouble.Line()
	case !ok:
		line = say.Of("{{.Only}}", say.With{"Only": why})
	}
	return &say.Error{Said: say.Of("“{{.Name}}” cannot be read: {{.Why}}",
		say.With{"Name": say.Printable(filepath.Base(path)), "Why": line}), Err: why}
}

// Read reads the whole of a plain file that is no longer than most bytes, however long
// it says that it is.
func Read(path string, most int64) ([]byte, error) {
	f, err := Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	if info, err := f.Stat(); err == nil && info.Size() > most {
		return nil, tooLarge(path, info.Size(), most)
	}
	data, err := io.ReadAll(io.LimitReader(f, most+1))
	if err != nil {
		return nil, Refuse(path, err)
	}
	if int64(len(data)) > most {
		return nil, tooLarge(path, int64(len(data)), most)
	}
	return data, nil
}

func tooLarge(path string, size, most int64) error {
	return &say.Error{Said: say.Of("“{{.Name}}” has {{.MB}} MB, and {{.Most}} MB are the most that can be read at a time; cut it into shorter files",
		say.With{"Name": say.Printable(filepath.Base(path)), "MB": size >> 20, "Most": most >> 20}), Err: ErrTooLarge}
}
