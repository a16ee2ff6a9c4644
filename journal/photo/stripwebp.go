package photo

import (
	"bufio"
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
)

// The bits of a VP8X chunk (RFC 9649 section 2.7.1) that are named here.
const (
	vp8xEXIF, vp8xXMP = 0x08, 0x04
)

// riffChunk is a chunk of a RIFF file: where its data lies.
type riffChunk struct {
	kind string
	at   int64
	size uint32
}

// stripWebP writes the chunks of one still picture anew.
func stripWebP(w *bufio.Writer, r io.ReadSeeker, m Meta, exif []byte) error {
	chunks, err := stillChunks(r)
	if err != nil {
		return err
	}
	var extended []byte // the payload of VP8X
	if chunks[0].kind == "VP8X" {
		extended = make([]byte, 10)
		if err := readAt(r, chunks[0].at, extended); err != nil {
			return err
		}
		chunks = chunks[1:]
	} else if exif != nil {
		extended = newVP8X(m)
	}
	if extended != nil {
		extended[0] &^= vp8xEXIF | vp8xXMP
		if exif != nil {
			extended[0] |= vp8xEXIF
		}
	}

	total := uint64(4)
	for _, c := range chunks {
		total += 8 + uint64(c.size) + uint64(c.size%2)
	}
	if extended != nil {
		total += 8 + 10
	}
	if exif != nil {
		total += 8 + uint64(len(exif)) + uint64(len(exif)%2)
	}
	head := append(binary.LittleEndian.AppendUint32([]byte("RIFF"), uint32(total)), "WEBP"...)
	if extended != nil {
		head = appendRIFF(head, "VP8X", extended)
	}
	_, _ = w.Write(head)
	for _, c := range chunks {
		if err := copyRIFF(w, r, c); err != nil {
			return err
		}
	}
	if exif != nil {
		_, _ = w.Write(appendRIFF(nil, "EXIF", exif))
	}
	return nil
}

// stillChunks lists the chunks that are kept, each kind once and the pixels last.
func stillChunks(r io.ReadSeeker) ([]riffChunk, error) {
	var kept []riffChunk
	err := walkRIFF(r, func(c riffChunk) (done bool, err error) {
		switch c.kind {
		case "ANIM", "ANMF":
			return false, errors.New("moving pictures")
		case "VP8X":
			if len(kept) > 0 || c.size != 10 {
				return false, fmt.Errorf("a chunk %q of %d bytes", c.kind, c.size)
			}
			kept = append(kept, c)
		case "ICCP", "ALPH":
			if !slices.ContainsFunc(kept, func(k riffChunk) bool { return k.kind == c.kind }) {
				kept = append(kept, c)
			}
		case "VP8 ", "VP8L":
			kept = append(kept, c)
			return true, nil
		}
		return false, nil
	})
	if err == nil && (len(kept) == 0 || !strings.HasPrefix(kept[len(kept)-1].kind, "VP8") || kept[len(kept)-1].kind == "VP8X") {
		err = errors.New("no picture within")
	}
	return kept, err
}

// walkRIFF shows each chunk to do, within the length that the file claims, until it
// is done.
func walkRIFF(r io.ReadSeeker, do func(riffChunk) (done bool, err error)) error {
	var head [12]byte
	if err := readAt(r, 0, head[:]); err != nil {
		return err
	}
	const most = 4096 // far more than any picture has
	at, end := int64(12), riffLength(head[:])
	for range most {
		if end-at < 8 {
			return nil
		}
		if err := readAt(r, at, head[:8]); err != nil {
			return err
		}
		c := riffChunk{kind: string(head[:4]), at: at + 8, size: le32(head[4:])}
		if int64(c.size) > end-c.at {
			return io.ErrUnexpectedEOF
		}
		if done, err := do(c); done || err != nil {
			return err
		}
		at = c.at + int64(c.size) + int64(c.size%2)
	}
	return errors.New("too many chunks")
}

// longestEXIF is the longest block of EXIF that is read.
const longestEXIF = 4 << 20

// webpEXIF reads the TIFF block of the first EXIF chunk.
func webpEXIF(r io.ReadSeeker) (block []byte, err error) {
	err = walkRIFF(r, func(c riffChunk) (done bool, err error) {
		if c.kind != "EXIF" || c.size > longestEXIF {
			return false, nil
		}
		block = make([]byte, c.size)
		return true, readAt(r, c.at, block)
	})
	// Some writers put JPEG's introduction before it.
	return bytes.TrimPrefix(block, []byte("Exif\x00\x00")), err
}

// newVP8X makes the payload of the chunk that a picture without it needs before it
// may carry EXIF. What is transparent is told by the pixels' own header.
func newVP8X(m Meta) []byte {
	width, height := m.Width, m.Height
	if m.Orientation.SwapsSides() {
		width, height = height, width
	}
	v := make([]byte, 10)
	put := func(at, n int) { v[at], v[at+1], v[at+2] = byte(n), byte(n>>8), byte(n>>16) }
	put(4, width-1)
	put(7, height-1)
	return v
}

func appendRIFF(out []byte, kind string, data []byte) []byte {
	out = append(out, kind...)
	out = binary.LittleEndian.AppendUint32(out, uint32(len(data)))
	out = append(out, data...)
	if len(data)%2 == 1 {
		out = append(out, 0)
	}
	return out
}

func copyRIFF(w *bufio.Writer, r io.ReadSeeker, c riffChunk) error {
	_, _ = w.Write(binary.LittleEndian.AppendUint32([]byte(c.kind), c.size))
	if err := copyAt(w, r, c.at, int64(c.size)); err != nil {
		return err
	}
	if c.size%2 == 1 {
		_ = w.WriteByte(0)
	}
	return nil
}

// copyAt copies so many bytes of a file from a place in it.
func copyAt(w *bufio.Writer, r io.ReadSeeker, at, size int64) error {
	if _, err := r.Seek(at, io.SeekStart); err != nil {
		return err
	}
	_, err := io.CopyN(w, r, size)
	return short(err)
}

func readAt(r io.ReadSeeker, at int64, p []byte) error {
	if _, err := r.Seek(at, io.SeekStart); err != nil {
		return err
	}
	_, err := io.ReadFull(r, p)
	return short(err)
}
