package photo

import (
	"bufio"
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"
	"io"
)

// keptChunks are the chunks of a PNG (ISO/IEC 15948 section 11, and APNG's, and the
// colours of its third edition) that make its pixels and their colours, with the
// longest that each may be; 0 is any length.
var keptChunks = map[string]uint32{
	"IHDR": 13, "PLTE": 768, "IDAT": 0, "IEND": 0, "tRNS": 256,
	"gAMA": 4, "cHRM": 32, "sRGB": 1, "sBIT": 4, "bKGD": 6, "pHYs": 9, "cICP": 4, "mDCV": 24, "cLLI": 8,
	"acTL": 8, "fcTL": 26, "fdAT": 0,
}

// longestProfile is the longest colour profile that is taken along; cameras' and
// screens' have some kilobytes.
const longestProfile = 16 << 20

// stripPNG copies the chunks that are kept, up to IEND.
func stripPNG(w *bufio.Writer, r *bufio.Reader, exif []byte) error {
	if _, err := io.CopyN(w, r, 8); err != nil { // what begins every PNG
		return err
	}
	for first := true; ; first = false {
		var head [8]byte
		if _, err := io.ReadFull(r, head[:]); err != nil {
			return short(err)
		}
		length, kind := be32(head[:]), string(head[4:])
		if length > 1<<31-1 || first != (kind == "IHDR") {
			return fmt.Errorf("a chunk %q of %d bytes", kind, length)
		}
		most, keep := keptChunks[kind]
		var err error
		switch {
		case kind == "iCCP":
			err = copyProfile(w, r, length)
		case keep && most != 0 && length > most:
			return fmt.Errorf("a chunk %q of %d bytes", kind, length)
		case keep:
			err = copyChunk(w, r, head, length)
		default:
			err = skip(r, int64(length)+4)
		}
		if err != nil {
			return err
		}
		if first && exif != nil {
			writeChunk(w, "eXIf", exif)
		}
		if kind == "IEND" {
			return nil
		}
	}
}

// copyChunk copies a chunk and compares its check sum.
func copyChunk(w *bufio.Writer, r *bufio.Reader, head [8]byte, length uint32) error {
	_, _ = w.Write(head[:])
	sum := crc32.NewIEEE()
	_, _ = sum.Write(head[4:]) // a hash never fails
	if _, err := io.CopyN(io.MultiWriter(w, sum), r, int64(length)); err != nil {
		return short(err)
	}
	var crc [4]byte
	if _, err := io.ReadFull(r, crc[:]); err != nil {
		return short(err)
	}
	if be32(crc[:]) != sum.Sum32() {
		return fmt.Errorf("the check sum of the chunk %q differs", head[4:])
	}
	_, _ = w.Write(crc[:])
	return nil
}

// copyProfile copies a colour profile under a name that tells nothing.
func copyProfile(w *bufio.Writer, r *bufio.Reader, length uint32) error {
	if length > longestProfile {
		return fmt.Errorf("a colour profile of %d bytes", length)
	}
	data := make([]byte, length)
	if _, err := io.ReadFull(r, data); err != nil {
		return short(err)
	}
	if err := skip(r, 4); err != nil {
		return err
	}
	end := bytes.IndexByte(data, 0)
	if end < 0 || end > 79 {
		return errors.New("a colour profile without a name")
	}
	writeChunk(w, "iCCP", append([]byte("ICC profile"), data[end:]...))
	return nil
}

func writeChunk(w *bufio.Writer, kind string, data []byte) {
	chunk := binary.BigEndian.AppendUint32(nil, uint32(len(data)))
	chunk = append(chunk, kind...)
	chunk = append(chunk, data...)
	chunk = binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(chunk[4:]))
	_, _ = w.Write(chunk)
}

// skip reads past so many bytes, which must be there.
func skip(r io.Reader, n int64) error {
	_, err := io.CopyN(io.Discard, r, n)
	return short(err)
}
