package archive

import (
	"errors"

	"twinloaf/journal/say"
)

// The kinds of refusal, for errors.Is. Each error's sentence goes on to say what
// was found.
var (
	ErrNotArchive = say.NewError("this file is not a journal archive, or its list of contents is damaged")
	ErrNewer      = say.NewError("a newer version of Twinloaf wrote this archive; please use the newer version")
	// ErrDishonest: the archive is put together in a way that none written by
	// this program is.
	ErrDishonest = say.NewError("this archive is not put together as one should be")
	// ErrAltered: the content of a member is not what the manifest says.
	ErrAltered = say.NewError("this archive was altered or damaged on its way")
	// ErrTooLarge: a hard limit.
	ErrTooLarge = say.NewError("this archive claims to hold more than can be brought in")
)

// refuse makes an error of a kind, with what was found and its cause.
func refuse(kind, cause error, found ...say.Line) error {
	line, _ := say.OfError(kind)
	for _, f := range found {
		line = say.Of("{{.What}}: {{.Found}}", say.With{"What": line, "Found": f})
	}
	return &say.Error{Said: line, Err: errors.Join(kind, cause)}
}

// named fills in the name of a member, without what no line of text can show, and
// no longer than a line.
func named(path string) say.With {
	name := []rune(say.Printable(path))
	if len(name) > 80 {
		name = append(name[:79], '…')
	}
	return say.With{"Member": string(name)}
}

func odd(path string) error {
	return refuse(ErrDishonest, nil, say.Of("“{{.Member}}” does not belong in it", named(path)))
}

func large(path string) error {
	return refuse(ErrTooLarge, nil, say.Of("“{{.Member}}” is too large", named(path)))
}

func altered(path string, cause error) error {
	return refuse(ErrAltered, cause, say.Of("“{{.Member}}” is not what it was", named(path)))
}

func missing(path string) error {
	return refuse(ErrAltered, nil, say.Of("“{{.Member}}” is missing", named(path)))
}
