package say

import "errors"

// An Error is a refusal that a baker may read: Said tells it in a sentence, and
// Err, if any, is its kind or cause for errors.Is and errors.As.
type Error struct {
	Said Line
	Err  error
}

// Error is the sentence in English.
func (e *Error) Error() string { return e.Said.String() }

// Unwrap gives the kind or cause.
func (e *Error) Unwrap() error { return e.Err }

// Line is what the window shows.
func (e *Error) Line() Line { return e.Said }

// NewError makes an Error without a cause of its own.
func NewError(text string, with ...With) error { return &Error{Said: Of(text, with...)} }

// Caused is an error of a kind that has something to say, with what caused it.
func Caused(kind, cause error) error {
	said, _ := OfError(kind)
	return &Error{Said: said, Err: errors.Join(kind, cause)}
}

// OfError finds what an error has to say to a baker: that of the outermost
// error in its chain that has a Line. It reports whether there is one.
func OfError(err error) (Line, bool) {
	var s interface {
		error
		Line() Line
	}
	if errors.As(err, &s) {
		return s.Line(), true
	}
	return Line{}, false
}
