package photo

import (
	"bytes"
	"encoding/binary"
	"time"
)

// keptEXIF is the TIFF block (CIPA DC-008-2019 section 4.5) of what a stripped
// picture still says: how it lies, when it was taken, and which colours its numbers
// mean where no profile says so. It is nil when there is nothing to say. Every value
// was understood and is written anew, so no other text comes along.
func keptEXIF(m Meta, x exif) []byte {
	var main, sub, inter []tiffField
	if x.orientation > Upright {
		main = append(main, tiffShort(0x0112, uint16(x.orientation)))
	}
	if !m.Taken.IsZero() {
		sub = append(sub, tiffText(0x9003, m.Taken.Format("2006:01:02 15:04:05")))
		if m.TakenZoneKnown {
			sub = append(sub, tiffText(0x9011, m.Taken.Format("-07:00")))
		}
	}
	if x.colorSpace != 0 {
		sub = append(sub, tiffShort(0xA001, x.colorSpace))
	}
	if x.colorRules != "" {
		inter = append(inter, tiffText(0x0001, x.colorRules))
	}
	if main == nil && sub == nil && inter == nil {
		return nil
	}

	const header = 8
	subAt, interAt := 0, 0
	if inter != nil {
		sub = append(sub, tiffLong(0xA005, 0))
	}
	if sub != nil {
		main = append(main, tiffLong(0x8769, 0))
		subAt = header + tiffSize(main)
		binary.BigEndian.PutUint32(main[len(main)-1].value, uint32(subAt))
	}
	if inter != nil {
		interAt = subAt + tiffSize(sub)
		binary.BigEndian.PutUint32(sub[len(sub)-1].value, uint32(interAt))
	}
	out := []byte("MM\x00*\x00\x00\x00\x08")
	out = appendTIFF(out, main)
	if sub != nil {
		out = appendTIFF(out, sub)
	}
	if inter != nil {
		out = appendTIFF(out, inter)
	}
	return out
}

// Dated gives a JPEG that has no EXIF the time at which it was taken, with its zone.
func Dated(jpg []byte, taken time.Time) []byte {
	block := append([]byte("Exif\x00\x00"), keptEXIF(Meta{Taken: taken, TakenZoneKnown: true}, exif{})...)
	var out bytes.Buffer
	out.Write([]byte{0xFF, markSOI, 0xFF, markAPP0 + 1})
	out.Write(binary.BigEndian.AppendUint16(nil, uint16(len(block)+2)))
	out.Write(block)
	out.Write(bytes.TrimPrefix(jpg, []byte{0xFF, markSOI}))
	return out.Bytes()
}

// tiffField is one entry of a TIFF directory.
type tiffField struct {
	tag, kind uint16
	count     uint32
	value     []byte
}

func tiffText(tag uint16, s string) tiffField {
	return tiffField{tag, 2, uint32(len(s) + 1), append([]byte(s), 0)}
}

func tiffShort(tag, v uint16) tiffField {
	return tiffField{tag, 3, 1, binary.BigEndian.AppendUint16(nil, v)}
}

func tiffLong(tag uint16, v uint32) tiffField {
	return tiffField{tag, 4, 1, binary.BigEndian.AppendUint32(nil, v)}
}

// tiffSize is how long a directory is with the values that lie behind it, when
// another directory follows.
func tiffSize(fields []tiffField) int {
	n := 2 + 12*len(fields) + 4
	for _, f := range fields {
		if len(f.value) > 4 {
			n += len(f.value) + len(f.value)%2
		}
	}
	return n
}

// appendTIFF lays a directory out behind what there is, at an even place.
func appendTIFF(out []byte, fields []tiffField) []byte {
	out = append(out, make([]byte, len(out)%2)...)
	behind := len(out) + 2 + 12*len(fields) + 4
	out = binary.BigEndian.AppendUint16(out, uint16(len(fields)))
	var long []byte
	for _, f := range fields {
		out = binary.BigEndian.AppendUint16(out, f.tag)
		out = binary.BigEndian.AppendUint16(out, f.kind)
		out = binary.BigEndian.AppendUint32(out, f.count)
		if len(f.value) <= 4 {
			out = append(out, append(f.value, 0, 0, 0, 0)[:4]...)
			continue
		}
		long = append(long, make([]byte, len(long)%2)...)
		out = binary.BigEndian.AppendUint32(out, uint32(behind+len(long)))
		long = append(long, f.value...)
	}
	out = append(out, 0, 0, 0, 0) // no further directory, and so no thumbnail
	return append(out, long...)
}
