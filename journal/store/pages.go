package store

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"hash/fnv"
	"os"
)

// The pages of a bbolt file, read without trusting a byte of them: whatever is in
// the file, reading it ends, and neither faults nor panics. The layout is that of
// bbolt's file format, version 2 (its internal/common: page.go, meta.go, inode.go):
//
//	page      id 8, flags 2, count 2, overflow 4; then its elements
//	meta      magic 4, version 4, page size 4, flags 4, root 8, sequence 8,
//	          freelist 8, pages 8, transaction 8, FNV-1a of these 8
//	branch    position 4, key size 4, page 8
//	leaf      flags 4, position 4, key size 4, value size 4
//	bucket    root 8, sequence 8; with root 0, a page of its own behind them
//
// in the byte order of the machine. A position counts from its own element. bbolt
// writes the keys and values of a page one after another straight behind its
// elements, which shows a count or a size that is not what was written.
const (
	pageHeader  = 16
	elementSize = 16
	bucketSize  = 16
	metaSize    = 64

	flagBranch   = 0x01
	flagLeaf     = 0x02
	flagMeta     = 0x04
	flagFreelist = 0x10

	magicNumber = 0xED0CDAED
)

var order = binary.NativeEndian

// meta is what a sound meta page says.
type meta struct {
	root, freelist, pages, tx uint64
}

// image is a file of records in memory.
type image struct {
	data []byte
	size int // of a page
}

func (m image) page(id uint64) []byte {
	if id > uint64(len(m.data)/m.size) {
		return nil
	}
	at := int(id) * m.size
	if at+pageHeader > len(m.data) {
		return nil
	}
	return m.data[at:]
}

// kind is what a page says that it is: a branch, a leaf or a list of free pages; 0 for
// one that is none of them or says that it is another page.
func (m image) kind(id uint64) uint16 {
	p := m.page(id)
	if len(p) < pageHeader || order.Uint64(p) != id {
		return 0
	}
	switch flags := order.Uint16(p[8:]); flags {
	case flagBranch, flagLeaf, flagFreelist:
		return flags
	}
	return 0
}

// meta reads one of the two meta pages.
func (m image) meta(id uint64) (meta, bool) {
	p := m.page(id)
	if len(p) < pageHeader+metaSize || order.Uint64(p) != id || order.Uint16(p[8:]) != flagMeta {
		return meta{}, false
	}
	b := p[pageHeader:]
	h := fnv.New64a()
	_, _ = h.Write(b[:56])
	if order.Uint32(b) != magicNumber || order.Uint32(b[4:]) != 2 || int(order.Uint32(b[8:])) != m.size || h.Sum64() != order.Uint64(b[56:]) {
		return meta{}, false
	}
	return meta{root: order.Uint64(b[16:]), freelist: order.Uint64(b[32:]), pages: order.Uint64(b[40:]), tx: order.Uint64(b[48:])}, true
}

// pageSizeOf finds the size of the pages, which a sound meta page tells.
func pageSizeOf(data []byte) int {
	sizes := []int{os.Getpagesize()}
	for s := 1024; s <= 1<<16; s *= 2 {
		sizes = append(sizes, s)
	}
	for _, size := range sizes {
		for id := range uint64(2) {
			if _, ok := (image{data, size}).meta(id); ok {
				return size
			}
		}
	}
	return os.Getpagesize()
}

// element is a key with its value or, on a branch, the page below it.
type element struct {
	key, value []byte
	child      uint64
	bucket     bool
}

// sizes tell, of one element, where its data lie from it on, and how long they are.
func sizes(e []byte, leaf bool) (position, key, value int) {
	if leaf {
		return int(order.Uint32(e[4:])), int(order.Uint32(e[8:])), int(order.Uint32(e[12:]))
	}
	return int(order.Uint32(e)), int(order.Uint32(e[4:])), 0
}

// elements reads a leaf or branch page, which may be longer than one page. What
// cannot be read of it is left out, and sound is false. room is how many bytes the
// header says that there are.
func elements(p []byte, leaf bool, room int) (out []element, end int, sound bool) {
	count := int(order.Uint16(p[10:]))
	sound = true
	// The first position tells how many elements there are, as the count does.
	if len(p) >= pageHeader+elementSize {
		if first, _, _ := sizes(p[pageHeader:], leaf); first%elementSize == 0 && first/elementSize != count && first > 0 && first < 1<<20 && (count == 0 || !straight(p, leaf, count)) {
			if straight(p, leaf, first/elementSize) {
				count, sound = first/elementSize, false
			}
		}
	}
	next := pageHeader + count*elementSize
	out = make([]element, 0, count) // 65535 at most
	for i := range count {
		at := pageHeader + i*elementSize
		if at+elementSize > len(p) {
			return out, next, false
		}
		var e element
		if leaf {
			flags := order.Uint32(p[at:])
			e.bucket = flags == 1
			sound = sound && flags <= 1
		} else {
			e.child = order.Uint64(p[at+8:])
		}
		from, keySize, valueSize := sizes(p[at:], leaf)
		from += at
		if from != next {
			sound = false
		}
		if from < pageHeader || keySize < 0 || valueSize < 0 || from > len(p) || keySize > len(p)-from || valueSize > len(p)-from-keySize || keySize == 0 && leaf {
			sound = false
			continue
		}
		e.key, e.value = p[from:from+keySize], p[from+keySize:from+keySize+valueSize]
		if n := len(out); n > 0 && bytes.Compare(out[n-1].key, e.key) >= 0 {
			sound = false
		}
		out = append(out, e)
		next = from + keySize + valueSize
	}
	return out, next, sound && next <= room
}

// straight reports whether a page with so many elements has its data one after
// another, as bbolt writes them.
func straight(p []byte, leaf bool, count int) bool {
	next := pageHeader + count*elementSize
	for i := range count {
		at := pageHeader + i*elementSize
		if at+elementSize > len(p) {
			return false
		}
		pos, keySize, valueSize := sizes(p[at:], leaf)
		if at+pos != next {
			return false
		}
		next += keySize + valueSize
		if next > len(p) {
			return false
		}
	}
	return true
}

// freelist reads the list of pages that hold nothing now.
func (m image) freelist(now meta) (map[uint64]bool, error) {
	if now.freelist == ^uint64(0) {
		return nil, fmt.Errorf("the list of free pages is not kept")
	}
	p := m.page(now.freelist)
	if p == nil || order.Uint64(p) != now.freelist || order.Uint16(p[8:]) != flagFreelist {
		return nil, fmt.Errorf("the list of free pages is gone")
	}
	count, at := uint64(order.Uint16(p[10:])), pageHeader
	if count == 0xFFFF {
		if len(p) < pageHeader+8 {
			return nil, fmt.Errorf("the list of free pages is cut short")
		}
		count, at = order.Uint64(p[at:]), at+8
	}
	room := (uint64(order.Uint32(p[12:])) + 1) * uint64(m.size)
	if count > uint64(len(p)-at)/8 || uint64(at)+8*count > room {
		return nil, fmt.Errorf("the list of free pages is too long")
	}
	out := make(map[uint64]bool, count)
	last := uint64(1)
	for i := range count {
		id := order.Uint64(p[at+int(i)*8:])
		if id <= last || id >= now.pages {
			return nil, fmt.Errorf("the list of free pages is not in order")
		}
		out[id], last = true, id
	}
	return out, nil
}
