package templog

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"

	"twinloaf/journal/say"
)

// ErrNotText tells that the bytes are no text, whatever the file is called.
var ErrNotText = say.NewError("this is not a text file")

// decode turns the bytes of a file into text, by its byte order mark or, without
// one, by what it looks like as a whole. others are the lines of a file in UTF-8, from
// 1, that are not: they are read as Windows-1252.
func decode(data []byte) (text, encoding string, others []int, err error) {
	switch {
	case bytes.HasPrefix(data, []byte("\xef\xbb\xbf")):
		data, encoding = data[3:], "UTF-8 with a mark"
	case bytes.HasPrefix(data, []byte("\xff\xfe")):
		return wide(data, unicode.LittleEndian, "UTF-16, little end first")
	case bytes.HasPrefix(data, []byte("\xfe\xff")):
		return wide(data, unicode.BigEndian, "UTF-16, big end first")
	case zeros(data, 1) > 0.4 && zeros(data, 0) < 0.1:
		return wide(data, unicode.LittleEndian, "UTF-16 without a mark")
	case zeros(data, 0) > 0.4 && zeros(data, 1) < 0.1:
		return wide(data, unicode.BigEndian, "UTF-16 without a mark")
	default:
		encoding = "UTF-8"
	}
	if bytes.IndexByte(data, 0) >= 0 {
		return "", "", nil, ErrNotText
	}
	if utf8.Valid(data) {
		return string(data), encoding, nil, nil
	}
	if text, lines := mixed(data); len(lines) > 0 {
		return text, encoding, lines, nil
	}
	plain, err := charmap.Windows1252.NewDecoder().Bytes(data)
	if err != nil {
		return "", "", nil, fmt.Errorf("reading the file as Windows-1252: %w", err)
	}
	return string(plain), "Windows-1252", nil, nil
}

// mixed reads a file of which most lines with letters beyond ASCII are UTF-8 and others
// are not, and gives the numbers of those; none when the file is not like that.
func mixed(data []byte) (text string, others []int) {
	var out strings.Builder
	wide := 0
	walk := lines{text: string(data)}
	for from := 0; ; from = walk.at {
		line, ok := walk.next()
		if !ok {
			break
		}
		ending := walk.text[from+len(line) : walk.at]
		switch {
		case !utf8.ValidString(line):
			others = append(others, walk.n)
			for i := range len(line) {
				out.WriteRune(charmap.Windows1252.DecodeByte(line[i]))
			}
		default:
			if len(line) != utf8.RuneCountInString(line) {
				wide++
			}
			out.WriteString(line)
		}
		out.WriteString(ending)
	}
	if len(others) > wide {
		return "", nil
	}
	return out.String(), others
}

func wide(data []byte, end unicode.Endianness, name string) (text, encoding string, others []int, err error) {
	plain, err := unicode.UTF16(end, unicode.UseBOM).NewDecoder().Bytes(data)
	if errors.Is(err, unicode.ErrMissingBOM) {
		plain, err = unicode.UTF16(end, unicode.IgnoreBOM).NewDecoder().Bytes(data)
	}
	if err != nil {
		return "", "", nil, fmt.Errorf("reading the file as %s: %w", name, err)
	}
	if bytes.IndexByte(plain, 0) >= 0 {
		return "", "", nil, ErrNotText
	}
	return string(plain), name, nil, nil
}

// zeros is the share of zero bytes at even (0) or odd (1) places at the beginning.
func zeros(data []byte, odd int) float64 {
	data = data[:min(len(data), 4096)]
	n, zero := 0, 0
	for i := odd; i < len(data); i += 2 {
		n++
		if data[i] == 0 {
			zero++
		}
	}
	if n < 4 {
		return 0
	}
	return float64(zero) / float64(n)
}

// lines walks the lines of a text, whatever ends them.
type lines struct {
	text string
	at   int // bytes done
	n    int // number of the line last returned, from 1
}

func (l *lines) next() (string, bool) {
	if l.at >= len(l.text) {
		return "", false
	}
	rest := l.text[l.at:]
	end := strings.IndexAny(rest[:min(len(rest), 256)], "\r\n")
	if end < 0 {
		end = strings.IndexAny(rest, "\r\n")
	}
	l.n++
	if end < 0 {
		l.at = len(l.text)
		return rest, true
	}
	l.at += end + 1
	if rest[end] == '\r' && end+1 < len(rest) && rest[end+1] == '\n' {
		l.at++
	}
	return rest[:end], true
}

// split parts a line into fields, into dst. encoding/csv is not used, for
// a quote that was never closed would make it swallow the rest of the file, and
// loggers do not break a line inside a field.
func split(line string, sep rune, dst []string) []string {
	dst = dst[:0]
	width := utf8.RuneLen(sep)
	if width < 0 {
		return append(dst, strings.TrimSpace(line))
	}
	for {
		if sep == ' ' {
			line = strings.TrimLeft(line, " ")
			if line == "" && len(dst) > 0 {
				return dst
			}
		}
		field, rest, quoted := unquote(line, sep)
		if !quoted {
			i := strings.IndexRune(line, sep)
			if i < 0 {
				return append(dst, strings.TrimSpace(line))
			}
			field, rest = strings.TrimSpace(line[:i]), line[i:]
		}
		dst = append(dst, field)
		if rest == "" {
			return dst
		}
		line = rest[width:]
	}
}

// unquote reads a field in quotes; rest begins with the separator or is empty.
func unquote(line string, sep rune) (field, rest string, ok bool) {
	body := strings.TrimLeft(line, " ")
	if len(body) == 0 || body[0] != '"' {
		return "", "", false
	}
	for i := 1; i < len(body); i++ {
		if body[i] != '"' {
			continue
		}
		if i+1 < len(body) && body[i+1] == '"' {
			i++
			continue
		}
		rest = strings.TrimLeft(body[i+1:], " ")
		if sep == ' ' {
			rest = body[i+1:]
		}
		if rest != "" && !strings.HasPrefix(rest, string(sep)) {
			return "", "", false // a stray quote, part of the text
		}
		return strings.TrimSpace(strings.ReplaceAll(body[1:i], `""`, `"`)), rest, true
	}
	return "", "", false
}
