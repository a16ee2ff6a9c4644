//go:build !windows

package say

import (
	"errors"
	"fmt"
	"os"
	"syscall"
	"testing"
)

// The errors are named in POSIX.1-2017, System Interfaces, 2.3 Error Numbers.
func TestTroublesAreToldInPlainWords(t *testing.T) {
	for _, tt := range []struct {
		err  error
		want string
	}{
		{nil, ""},
		{errors.New("odd"), ""},
		{&os.PathError{Op: "write", Path: "/j/journal.db", Err: syscall.ENOSPC}, "the disk is full"},
		{fmt.Errorf("file sync error: %s", syscall.ENOSPC), "the disk is full"}, // only the words were kept
		{syscall.EDQUOT, "the disk is full"},
		{&os.PathError{Op: "open", Path: "x", Err: syscall.EROFS}, "the disk can be read, but nothing can be written to it"},
		{fmt.Errorf("adding: %w", syscall.EIO), "the disk reported a fault"},
		{syscall.EACCES, "there is no permission to read or write that"},
		{syscall.EPERM, "there is no permission to read or write that"},
		{syscall.ENOENT, "that file or folder is not there"},
		{syscall.ESTALE, "the disk is no longer connected"},
		{syscall.EFBIG, "the file may not grow any longer on this disk"},
	} {
		if got := TroubleOf(tt.err).Line().String(); got != tt.want {
			t.Errorf("%v is told as %q, want %q", tt.err, got, tt.want)
		}
	}
}
