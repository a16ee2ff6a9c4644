// Package papertest reads pages back in tests.
package papertest

import (
	"bytes"
	"compress/zlib"
	"io"
	"regexp"
	"strings"
	"unicode/utf16"
)

// shows finds the strings that are shown: "BT 48 769 Td (...) Tj ET".
var shows = regexp.MustCompile(`(?s)Td \(((?:\\.|[^\\)])*)\) ?Tj`)

// Text is what a PDF of package paper says, a line for each piece of text as it was
// set. It reads the content streams, which hold the letters as UTF-16 (PDF 32000-1,
// sections 7.3.4.2 and 9.4.3); fonts and pictures have none.
func Text(pdf []byte) string {
	var out strings.Builder
	for {
		_, after, ok := bytes.Cut(pdf, []byte("stream\n"))
		if !ok {
			return out.String()
		}
		stream, rest, _ := bytes.Cut(after, []byte("\nendstream"))
		pdf = rest
		z, err := zlib.NewReader(bytes.NewReader(stream))
		if err != nil {
			continue
		}
		content, err := io.ReadAll(z)
		if err != nil || !bytes.Contains(content, []byte("BT ")) {
			continue
		}
		for _, shown := range shows.FindAllSubmatch(content, -1) {
			out.WriteString(letters(shown[1]) + "\n")
		}
	}
}

// letters takes the escapes out of a string and reads its UTF-16.
func letters(s []byte) string {
	var raw []byte
	for i := 0; i < len(s); i++ {
		if s[i] == '\\' && i+1 < len(s) {
			i++
			switch s[i] {
			case 'r':
				raw = append(raw, '\r')
				continue
			case 'n':
				raw = append(raw, '\n')
				continue
			}
		}
		raw = append(raw, s[i])
	}
	units := make([]uint16, len(raw)/2)
	for i := range units {
		units[i] = uint16(raw[2*i])<<8 | uint16(raw[2*i+1])
	}
	return string(utf16.Decode(units))
}
