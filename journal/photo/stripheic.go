package photo

import (
	"bufio"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"slices"
)

// longestMeta is the longest list of items that is read; phones write some
// kilobytes.
const longestMeta = 8 << 20

// stripHEIC writes the file at its own length and layout, so that every place in it
// stays true: the data of image items as it stands, the EXIF item's anew, and zeros
// for the rest.
func stripHEIC(w *bufio.Writer, r io.ReadSeeker, size int64, exif []byte) error {
	boxes, err := outerBoxes(r, size)
	if err != nil {
		return err
	}
	out := layout{}
	var items heicItems
	met := false
	for _, b := range boxes {
		switch {
		case b.kind == "ftyp":
			out.keep(b.at, b.at+b.size)
		case b.kind == "mdat":
			out.keep(b.at, b.at+b.head)
		case b.kind == "meta" && !met:
			met = true
			if b.size > longestMeta {
				return fmt.Errorf("a list of items of %d bytes", b.size)
			}
			data := make([]byte, b.size)
			if err := readAt(r, b.at, data); err != nil {
				return err
			}
			if items, err = stripMeta(data, int(b.head), exif); err != nil {
				return err
			}
			out.put(b.at, data)
		default: // films, and whatever else lies beside the picture
			head := make([]byte, b.head)
			if err := readAt(r, b.at, head); err != nil {
				return err
			}
			copy(head[4:], "free")
			out.put(b.at, head)
		}
	}
	if !met {
		return errors.New("no list of items")
	}
	for _, e := range items.kept {
		if !withinMdat(boxes, e) {
			return fmt.Errorf("an item outside of the data, at %d", e.at)
		}
		out.keep(e.at, e.at+e.size)
	}
	text := items.exifData
	for _, e := range items.exif {
		if !withinMdat(boxes, e) {
			return fmt.Errorf("an item outside of the data, at %d", e.at)
		}
		n := min(int64(len(text)), e.size)
		out.put(e.at, text[:n])
		text = text[n:]
	}
	return out.write(w, r, lastNeeded(boxes))
}

// lastNeeded is where the file may end: behind the last box that holds something.
func lastNeeded(boxes []fileBox) int64 {
	for _, b := range slices.Backward(boxes) {
		switch b.kind {
		case "ftyp", "mdat", "meta":
			return b.at + b.size
		}
	}
	return 0
}

func withinMdat(boxes []fileBox, e extent) bool {
	return slices.ContainsFunc(boxes, func(b fileBox) bool {
		return b.kind == "mdat" && e.at >= b.at+b.head && e.size <= b.at+b.size-e.at
	})
}

// fileBox is a box of ISO/IEC 14496-12: where it begins, how long it is with its head.
type fileBox struct {
	kind           string
	at, head, size int64
}

// outerBoxes lists the outermost boxes (section 4.2) to the end of the file and refuses
// when one is longer than what is left.
func outerBoxes(r io.ReadSeeker, size int64) ([]fileBox, error) {
	const most = 4096 // far more than any phone writes
	var all []fileBox
	at := int64(0)
	for range most {
		if at == size {
			return all, nil
		}
		var head [16]byte
		if err := readAt(r, at, head[:8]); err != nil {
			return nil, err
		}
		b := fileBox{kind: string(head[4:8]), at: at, head: 8}
		length := uint64(be32(head[:]))
		switch length {
		case 0:
			length = uint64(size - at)
		case 1:
			if err := readAt(r, at+8, head[8:]); err != nil {
				return nil, err
			}
			b.head, length = 16, binary.BigEndian.Uint64(head[8:])
		}
		if length < uint64(b.head) {
			return nil, fmt.Errorf("a box of %d bytes", length)
		}
		if length > uint64(size-at) {
			return nil, io.ErrUnexpectedEOF
		}
		b.size = int64(length)
		all = append(all, b)
		at += b.size
	}
	return nil, errors.New("too many boxes")
}

// extent is a stretch of a file.
type extent struct{ at, size int64 }

// layout is a file in the making: stretches of the old one and new bytes, in any
// order; between them lie zeros. Make the zero value.
type layout struct{ parts []part }

type part struct {
	at, end int64
	data    []byte // nil: as in the old file
}

func (l *layout) keep(at, end int64) {
	if end > at {
		l.parts = append(l.parts, part{at: at, end: end})
	}
}

func (l *layout) put(at int64, data []byte) {
	if len(data) > 0 {
		l.parts = append(l.parts, part{at, at + int64(len(data)), data})
	}
}

// write writes the file to its end. Items may share their bytes, but nothing is both
// kept and written anew.
func (l *layout) write(w *bufio.Writer, r io.ReadSeeker, end int64) error {
	slices.SortStableFunc(l.parts, func(a, b part) int { return int(min(1, max(-1, a.at-b.at))) })
	pos, fresh := int64(0), false
	for _, p := range l.parts {
		if p.at >= end {
			break // the head of a box that is left out
		}
		if p.at < pos {
			if fresh || p.data != nil {
				return errors.New("two items in one place")
			}
			if p.end <= pos {
				continue
			}
			p.at = pos
		}
		writeZeros(w, p.at-pos)
		if p.data != nil {
			_, _ = w.Write(p.data)
		} else if err := copyAt(w, r, p.at, p.end-p.at); err != nil {
			return err
		}
		pos, fresh = p.end, p.data != nil
	}
	writeZeros(w, end-pos)
	return nil
}

func writeZeros(w *bufio.Writer, n int64) {
	var zeros [4096]byte
	for ; n > 0; n -= int64(len(zeros)) {
		_, _ = w.Write(zeros[:min(n, int64(len(zeros)))])
	}
}
