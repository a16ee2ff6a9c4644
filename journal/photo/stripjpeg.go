package photo

import (
	"bufio"
	"bytes"
	"encoding/binary"
	"fmt"
	"io"
)

// The markers of ITU-T T.81, table B.1, that are named here.
const (
	markSOF0, markSOF15 = 0xC0, 0xCF
	markJPG             = 0xC8 // reserved among the frames
	markRST0, markRST7  = 0xD0, 0xD7
	markSOI, markEOI    = 0xD8, 0xD9
	markSOS, markDQT    = 0xDA, 0xDB
	markDNL, markDRI    = 0xDC, 0xDD
	markAPP0, markAPP15 = 0xE0, 0xEF
	markCOM             = 0xFE
)

// stripJPEG copies the first picture of a JPEG, segment by segment.
func stripJPEG(w *bufio.Writer, r *bufio.Reader, exif []byte) error {
	if _, err := io.CopyN(w, r, 2); err != nil { // what begins every JPEG
		return err
	}
	begun := false // what comes first has been written
	mark, err := nextMarker(r)
	for err == nil && mark != markEOI {
		if mark >= markRST0 && mark <= markRST7 { // astray outside of a scan
			mark, err = nextMarker(r)
			continue
		}
		// JFIF wants to be the first segment, and Exif to be before all but that.
		if !begun && mark != markAPP0 {
			begun = true
			if exif != nil {
				writeSegment(w, markAPP0+1, append([]byte("Exif\x00\x00"), exif...))
			}
		}
		if err := stripSegment(w, r, mark); err != nil {
			return err
		}
		if mark == markSOS {
			mark, err = copyScan(w, r)
		} else {
			mark, err = nextMarker(r)
		}
	}
	_, _ = w.Write([]byte{0xFF, markEOI})
	return err
}

// stripSegment reads the segment of a marker and writes what is kept of it.
func stripSegment(w *bufio.Writer, r *bufio.Reader, mark byte) error {
	payload, err := readSegment(r)
	if err != nil {
		return err
	}
	switch {
	case mark == markAPP0 && bytes.HasPrefix(payload, []byte("JFIF\x00")) && len(payload) >= 14:
		payload = payload[:14]
		payload[12], payload[13] = 0, 0 // no thumbnail
	case mark == markAPP0+2 && bytes.HasPrefix(payload, []byte("ICC_PROFILE\x00")):
	case mark == markAPP0+14 && bytes.HasPrefix(payload, []byte("Adobe")) && len(payload) >= 12:
		payload = payload[:12]
	case mark >= markAPP0 && mark <= markAPP15, mark == markCOM:
		return nil
	case mark >= markSOF0 && mark <= markSOF15 && mark != markJPG, // frames, Huffman and arithmetic tables
		mark == markSOS, mark == markDQT, mark == markDNL, mark == markDRI:
	default:
		return fmt.Errorf("unknown marker %#x", mark)
	}
	writeSegment(w, mark, payload)
	return nil
}

// nextMarker finds the next marker, past fill bytes and what does not belong
// between segments.
func nextMarker(r *bufio.Reader) (byte, error) {
	for {
		b, err := r.ReadByte()
		if err != nil {
			return 0, short(err)
		}
		if b != 0xFF {
			continue
		}
		for b == 0xFF {
			if b, err = r.ReadByte(); err != nil {
				return 0, short(err)
			}
		}
		if b != 0 {
			return b, nil
		}
	}
}

func readSegment(r io.Reader) ([]byte, error) {
	var length [2]byte
	if _, err := io.ReadFull(r, length[:]); err != nil {
		return nil, short(err)
	}
	n := binary.BigEndian.Uint16(length[:])
	if n < 2 {
		return nil, fmt.Errorf("a segment of %d bytes", n)
	}
	payload := make([]byte, n-2)
	_, err := io.ReadFull(r, payload)
	return payload, short(err)
}

func writeSegment(w *bufio.Writer, mark byte, payload []byte) {
	_, _ = w.Write(binary.BigEndian.AppendUint16([]byte{0xFF, mark}, uint16(len(payload)+2)))
	_, _ = w.Write(payload)
}

// copyScan copies compressed pixels and gives the marker that ends them.
func copyScan(w *bufio.Writer, r *bufio.Reader) (mark byte, err error) {
	for {
		chunk, err := r.ReadSlice(0xFF)
		found := err == nil
		if err != nil && err != bufio.ErrBufferFull {
			return 0, short(err)
		}
		if found {
			chunk = chunk[:len(chunk)-1]
		}
		if _, err := w.Write(chunk); err != nil {
			return 0, err // no more of the pixels need be read
		}
		if !found {
			continue
		}
		next, err := r.ReadByte()
		for err == nil && next == 0xFF { // fill bytes
			next, err = r.ReadByte()
		}
		switch {
		case err != nil:
			return 0, short(err)
		case next != 0 && (next < markRST0 || next > markRST7):
			return next, nil
		}
		_, _ = w.Write([]byte{0xFF, next})
	}
}

// short makes an end that came too soon of any end.
func short(err error) error {
	if err == io.EOF {
		return io.ErrUnexpectedEOF
	}
	return err
}
