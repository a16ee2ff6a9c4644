package photo

import (
	"errors"
	"fmt"
	"io/fs"
)

// The kinds of refusal, to tell with errors.Is.
var (
	ErrEmpty      = errors.New("is empty")
	ErrNotPicture = errors.New("is not a picture of a kind that can be read")
	ErrTooLarge   = errors.New("is larger than can be opened")
	ErrCutShort   = errors.New("is cut short: its end is missing")
	ErrDamaged    = errors.New("is damaged and cannot be shown")
	ErrDirectory  = errors.New("is a folder, not a picture")
	ErrMissing    = errors.New("is not there")
	ErrUnreadable = errors.New("cannot be read")
	ErrNoSpace    = errors.New("found no room left on the disk")
	ErrNotStored  = errors.New("could not be stored")
	ErrAltered    = errors.New("no longer matches the fingerprint it was stored under")
)

// Error says which picture was refused and why. Its text is one sentence without
// a full stop; the fields let a window say the same in another language.
type Error struct {
	Name string // the file's name as it was given, or a stored photo's hash
	Kind error  // one of the Err values of this package

	Found         string // ErrNotPicture: what the file seems to be, such as "GIF"; may be empty
	Width, Height int    // ErrTooLarge by pixels: what the picture claims
	Bytes         int64  // ErrTooLarge by length: the file's length, as far as it is known

	Err error // what the system or a decoder said; may be nil
}

// Error is the sentence.
func (e *Error) Error() string {
	switch {
	case e.Kind == ErrNotPicture && e.Found != "":
		return fmt.Sprintf("%q holds %s; JPEG, PNG, WebP and HEIC can be read", e.Name, e.Found)
	case e.Kind == ErrNotPicture:
		return fmt.Sprintf("%q is not a picture that can be read: JPEG, PNG, WebP and HEIC can", e.Name)
	case e.Kind == ErrTooLarge && e.Width > 0:
		return fmt.Sprintf("%q claims %d x %d pixels, more than can be opened", e.Name, e.Width, e.Height)
	case e.Kind == ErrTooLarge:
		return fmt.Sprintf("%q is longer than %d MB, more than can be opened", e.Name, e.Bytes/1e6)
	case e.Kind == ErrNoSpace:
		return fmt.Sprintf("there is no room left on the disk to keep %q; nothing was changed", e.Name)
	case e.Err != nil && (e.Kind == ErrUnreadable || e.Kind == ErrNotStored):
		return fmt.Sprintf("%q %v: %v", e.Name, e.Kind, plain(e.Err))
	}
	return fmt.Sprintf("%q %v", e.Name, e.Kind)
}

// Unwrap gives the kind and the cause.
func (e *Error) Unwrap() []error {
	if e.Err == nil {
		return []error{e.Kind}
	}
	return []error{e.Kind, e.Err}
}

// refuse makes an Error of a kind about a name.
func refuse(name string, kind, cause error) *Error {
	return &Error{Name: name, Kind: kind, Err: cause}
}

// refuseRead makes the Error for a failed opening or reading.
func refuseRead(name string, cause error) *Error {
	if errors.Is(cause, fs.ErrNotExist) {
		return refuse(name, ErrMissing, cause)
	}
	return refuse(name, ErrUnreadable, cause)
}

// refuseWrite makes the Error for a failed step of storing.
func refuseWrite(name string, cause error) *Error {
	if isNoSpace(cause) {
		return refuse(name, ErrNoSpace, cause)
	}
	return refuse(name, ErrNotStored, cause)
}

// plain drops the path that the system puts before a cause: the sentence has
// named the file already.
func plain(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}
