package photo

import (
	"errors"
	"io/fs"

	"twinloaf/journal/say"
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
	ErrOtherSize  = errors.New("is of another shape than the first of its row")
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

// Error is the sentence in English.
func (e *Error) Error() string { return e.Line().String() }

// Line is the sentence.
func (e *Error) Line() say.Line {
	with := say.With{"Name": say.Printable(e.Name), "Found": e.Found, "Width": e.Width, "Height": e.Height, "MB": e.Bytes / 1e6}
	if e.Err != nil {
		with["Why"] = plain(e.Err)
		if t := say.TroubleOf(e.Err); t != say.NoTrouble {
			with["Why"] = t.Line()
		}
	}
	switch {
	case e.Kind == ErrNotPicture && e.Found != "":
		return say.Of("“{{.Name}}” holds {{.Found}}; JPEG, PNG, WebP and HEIC can be read", with)
	case e.Kind == ErrNotPicture:
		return say.Of("“{{.Name}}” is not a picture of a kind that can be read (JPEG, PNG, WebP, HEIC)", with)
	case e.Kind == ErrTooLarge && e.Width > 0:
		return say.Of("“{{.Name}}” claims {{.Width}} x {{.Height}} pixels, more than can be opened", with)
	case e.Kind == ErrTooLarge:
		return say.Of("“{{.Name}}” is longer than {{.MB}} MB, more than can be opened", with)
	case e.Kind == ErrNoSpace:
		return say.Of("there is no room left on the disk to keep “{{.Name}}”; nothing was changed", with)
	case e.Kind == ErrUnreadable && e.Err != nil:
		return say.Of("“{{.Name}}” cannot be read: {{.Why}}", with)
	case e.Kind == ErrNotStored && e.Err != nil:
		return say.Of("“{{.Name}}” could not be stored: {{.Why}}", with)
	}
	switch e.Kind {
	case ErrEmpty:
		return say.Of("“{{.Name}}” is empty", with)
	case ErrCutShort:
		return say.Of("“{{.Name}}” is cut short: its end is missing", with)
	case ErrDamaged:
		return say.Of("“{{.Name}}” is damaged and cannot be shown", with)
	case ErrDirectory:
		return say.Of("“{{.Name}}” is a folder, not a picture", with)
	case ErrMissing:
		return say.Of("“{{.Name}}” is not there", with)
	case ErrNotStored:
		return say.Of("“{{.Name}}” could not be stored", with)
	case ErrOtherSize:
		return say.Of("“{{.Name}}” is of another shape than the first picture of its row", with)
	case ErrAltered:
		return say.Of("“{{.Name}}” no longer matches the fingerprint it was stored under", with)
	}
	return say.Of("“{{.Name}}” cannot be read", with)
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
	if say.TroubleOf(cause) == say.DiskFull {
		return refuse(name, ErrNoSpace, cause)
	}
	return refuse(name, ErrNotStored, cause)
}

// plain drops the path that the system puts before a cause: the sentence has
// named the file already.
func plain(err error) error {
	if p, ok := errors.AsType[*fs.PathError](err); ok {
		return p.Err
	}
	return err
}
