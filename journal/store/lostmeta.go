package store

import (
	"bytes"
	"cmp"
	"context"
	"encoding/binary"
	"slices"
)

// mostRoots is how many of the pages that may be the root are looked into whole. Each
// commit leaves one behind, until its page is used again.
const mostRoots = 8

// surveyWithoutMeta reads a file of which both meta pages are lost: they tell where the
// tree begins and where the list of free pages lies. A tree and a list belong together
// when they share out all pages between them; of several such pairs, and where there is
// none, the tree with the longest history and the fewest faults is taken. The last
// change may be missing from it.
func (l Layout) surveyWithoutMeta(ctx context.Context, m image) (*survey, error) {
	pages := uint64(len(m.data) / m.size)
	var lists []uint64
	for id := uint64(2); id < pages; id++ {
		if m.kind(id) == flagFreelist {
			lists = append(lists, id)
		}
	}
	var best *survey
	for _, root := range l.roots(m, pages) {
		for _, list := range append(lists, ^uint64(0)) {
			s, err := l.surveyFrom(ctx, m, meta{root: root, freelist: list, pages: pages})
			if err != nil {
				return nil, err
			}
			if best == nil || s.wrong < best.wrong {
				best = s
			}
		}
	}
	if best == nil { // what can be read hangs loose
		best = &survey{image: m, now: meta{freelist: ^uint64(0), pages: pages}, pairs: map[string][]pair{}}
		best.lost = map[string][]span{inRoot: {span{}}}
	}
	best.noMeta = true
	best.fault("both pages that the file begins with are damaged")
	return best, nil
}

// surveyFrom reads a tree beside a list of free pages, which may not be its own.
func (l Layout) surveyFrom(ctx context.Context, m image, now meta) (*survey, error) {
	free, freeErr := m.freelist(now)
	s, err := surveyTree(ctx, m, now, free)
	if err != nil {
		return nil, err
	}
	last := uint64(1)
	for _, used := range []map[uint64]bool{s.reached, s.spare} {
		for id := range used {
			last = max(last, id)
		}
	}
	if s.freeSound = freeErr == nil; s.freeSound {
		for id := range free {
			last = max(last, id)
		}
		s.now.pages = max(last, now.freelist+uint64(order.Uint32(m.page(now.freelist)[12:]))) + 1
		s.accountForPages()
	} else {
		s.fault("%v", freeErr)
	}
	if err := l.examine(s); err != nil {
		s.fault("%v", err)
	}
	return s, nil
}

// roots lists pages that may be the list of the buckets, the one with the longest
// history first.
func (l Layout) roots(m image, pages uint64) []uint64 {
	type root struct {
		id, cursor uint64
	}
	var found []root
	for id := uint64(2); id < pages; id++ {
		if meta := m.metaBucket(id); meta != nil {
			found = append(found, root{id, m.cursorIn(meta)})
		}
	}
	slices.SortStableFunc(found, func(a, b root) int { return cmp.Compare(b.cursor, a.cursor) })
	var out []uint64
	for _, r := range found[:min(len(found), mostRoots)] {
		out = append(out, r.id)
	}
	return out
}

// metaBucket finds the bucket on what a file says of itself on the leaf page id, or on a
// leaf straight below the branch page id.
func (m image) metaBucket(id uint64) []byte {
	switch m.kind(id) {
	case flagLeaf:
		els, _, _ := elements(m.page(id), true, m.size)
		for _, e := range els {
			if e.bucket && bytes.Equal(e.key, bucketMeta) && len(e.value) >= bucketSize {
				return e.value
			}
		}
	case flagBranch:
		els, _, _ := elements(m.page(id), false, m.size)
		for _, e := range els {
			if e.child != id && m.kind(e.child) == flagLeaf {
				if meta := m.metaBucket(e.child); meta != nil {
					return meta
				}
			}
		}
	}
	return nil
}

// cursorIn reads from a bucket which step of the history was the last.
func (m image) cursorIn(bucket []byte) uint64 {
	p := bucket[bucketSize:]
	if at := order.Uint64(bucket); at != 0 {
		p = m.page(at)
	}
	if len(p) < pageHeader {
		return 0
	}
	els, _, _ := elements(p, true, len(p))
	for _, e := range els {
		if bytes.Equal(e.key, keyCursor) && len(e.value) == 8 {
			return binary.BigEndian.Uint64(e.value)
		}
	}
	return 0
}
