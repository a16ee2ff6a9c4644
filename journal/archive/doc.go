// Package archive writes and reads the file in which a journal, or a part of
// it, is taken from one computer to another: a ZIP with the records as JSON
// lines, the photos, a manifest with the SHA-256 of everything, and a
// description of all that for whoever writes another reader ([Format]).
//
// It knows the file and nothing of what the records mean: a record is a kind,
// an ID and a JSON object. It opens no file and keeps nothing; it writes to an
// [io.Writer] and reads from an [io.ReaderAt].
//
// An archive comes from anywhere, so nothing in it is believed: see [Open].
package archive

import _ "embed"

// Format describes the file, in Markdown. Every archive carries it as README.md.
//
//go:embed FORMAT.md
var Format string
