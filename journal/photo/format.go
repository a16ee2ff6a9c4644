package photo

import (
	"bytes"
	"cmp"
)

// Format is the kind of a picture, told by its first bytes and never by the
// ending of its name.
type Format uint8

// The formats that can be read. The zero Format is unknown.
const (
	Unknown Format = iota
	JPEG
	PNG
	WebP
	HEIC
)

// formats lists what can be read, in the order in which a store looks for a
// photo's ending: the commonest first.
var formats = [...]Format{JPEG, HEIC, PNG, WebP}

// written is each format's usual name, and the ending of its files.
var written = map[Format]struct{ name, ext string }{
	JPEG: {"JPEG", ".jpg"}, PNG: {"PNG", ".png"}, WebP: {"WebP", ".webp"}, HEIC: {"HEIC", ".heic"},
}

// String is the format's usual name, such as "JPEG".
func (f Format) String() string { return cmp.Or(written[f].name, "unknown") }

// Ext is the ending that a stored original of this format gets, such as ".jpg".
func (f Format) Ext() string { return written[f].ext }

// FormatOf gives the format whose Ext is ext, or whose String is.
func FormatOf(ext string) (Format, bool) {
	for _, f := range formats {
		if f.Ext() == ext || f.String() == ext {
			return f, true
		}
	}
	return Unknown, false
}

// sniffLen is how many bytes tell one format from another: enough for the brands
// that a HEIC names at its start.
const sniffLen = 64

// sniff tells the format from a picture's first bytes. When it is none of ours,
// other names what it seems to be, or is empty.
func sniff(head []byte) (f Format, other string) {
	switch {
	case bytes.HasPrefix(head, []byte("\xff\xd8\xff")):
		return JPEG, ""
	case bytes.HasPrefix(head, []byte("\x89PNG\r\n\x1a\n")):
		return PNG, ""
	case len(head) >= 12 && string(head[:4]) == "RIFF" && string(head[8:12]) == "WEBP":
		return WebP, ""
	case len(head) >= 12 && string(head[4:8]) == "ftyp":
		return sniffBrands(head)
	}
	for _, k := range [...]struct{ magic, name string }{
		{"GIF8", "GIF"},
		{"BM", "BMP"},
		{"II*\x00", "TIFF or camera raw"},
		{"MM\x00*", "TIFF or camera raw"},
		{"%PDF", "PDF"},
	} {
		if bytes.HasPrefix(head, []byte(k.magic)) {
			return Unknown, k.name
		}
	}
	return Unknown, ""
}

// sniffBrands tells a HEIC from its relatives (AVIF, MP4, QuickTime) by the
// brands of ISO/IEC 14496-12 section 4.3. A HEIC may name only the general brand
// mif1 first and heic among the compatible ones.
func sniffBrands(head []byte) (Format, string) {
	end := min(int(be32(head)), len(head))
	other := "film or another file of that family"
	for i := 8; i+4 <= end; i += 4 {
		if i == 12 {
			continue // the minor version, not a brand
		}
		switch string(head[i : i+4]) {
		case "heic", "heix", "heim", "heis":
			return HEIC, ""
		case "avif", "avis":
			other = "AVIF"
		}
	}
	return Unknown, other
}
