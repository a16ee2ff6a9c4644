package store

import (
	"bytes"
	"context"
	"fmt"
)

// span is a run of keys, from from up to and without to; nil is without end.
type span struct{ from, to []byte }

func (s span) holds(key []byte) bool {
	return bytes.Compare(key, s.from) >= 0 && (s.to == nil || bytes.Compare(key, s.to) < 0)
}

// pair is a key and its value as they lie in a bucket.
type pair struct{ key, value []byte }

// survey is what there is to be read in a file of records.
type survey struct {
	image
	now     meta
	pairs   map[string][]pair // by bucket, as the tree has them
	lost    map[string][]span // of each bucket, the keys whose page cannot be read
	reached map[uint64]bool
	spare   map[uint64]bool // room that belongs to a page and holds nothing
	// free are the pages that hold nothing now; freeSound says that the list of
	// them can be relied on.
	free      map[uint64]bool
	freeSound bool
	noMeta    bool     // of the two meta pages one is damaged, or both
	faults    []string // what is wrong with the file, for whoever looks into it
	wrong     int      // how many faults there are; only the first are in words
}

// inRoot stands, in survey.lost, for the list of the buckets itself.
const inRoot = ""

func (s *survey) fault(format string, args ...any) {
	s.wrong++
	if len(s.faults) < 50 {
		s.faults = append(s.faults, fmt.Sprintf(format, args...))
	}
}

// lose notes a fault by which keys of a bucket may be missing.
func (s *survey) lose(bucket string, within span, format string, args ...any) {
	s.fault(format, args...)
	s.lost[bucket] = append(s.lost[bucket], within)
}

// surveyTree reads everything that is reached from a meta page, but for pages that are
// known to be free.
func surveyTree(ctx context.Context, m image, now meta, free map[uint64]bool) (*survey, error) {
	s := &survey{image: m, now: now, free: free, pairs: map[string][]pair{}, lost: map[string][]span{}, reached: map[uint64]bool{}, spare: map[uint64]bool{}}
	err := s.walk(ctx, now.root, inRoot, span{}, 0)
	return s, err
}

// walk reads the page id and all below it, whose keys are within the span.
func (s *survey) walk(ctx context.Context, id uint64, bucket string, within span, depth int) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	p := s.page(id)
	if id < 2 || id >= s.now.pages || p == nil || depth > 64 {
		s.lose(bucket, within, "page %d of %q is outside the file", id, bucket)
		return nil
	}
	if s.free[id] {
		s.lose(bucket, within, "page %d of %q is free", id, bucket) // it may hold an earlier state
		return nil
	}
	if s.reached[id] {
		s.lose(bucket, within, "page %d is used twice, in %q, too", id, bucket)
		return nil
	}
	flags, overflow := order.Uint16(p[8:]), uint64(order.Uint32(p[12:]))
	if order.Uint64(p) != id {
		s.fault("page %d of %q says that it is another", id, bucket)
	}
	if flags != flagBranch && flags != flagLeaf {
		s.fault("page %d of %q is of no kind", id, bucket)
		if !straight(p, true, int(order.Uint16(p[10:]))) || order.Uint16(p[10:]) == 0 {
			s.lost[bucket] = append(s.lost[bucket], within)
			return nil
		}
		flags = flagLeaf
	}
	els, end, sound := elements(p, flags == flagLeaf, int(min(overflow+1, 1<<32))*s.size)
	if !sound || id+overflow >= s.now.pages {
		s.lose(bucket, within, "page %d of %q has elements that do not fit", id, bucket)
	}
	if len(els) == 0 && !(flags == flagLeaf && depth == 0 && sound) {
		s.lose(bucket, within, "page %d of %q is empty", id, bucket)
	}
	used := uint64((end + s.size - 1) / s.size)
	for i := range max(used, 1) {
		s.reached[id+i] = true
	}
	// A page may be given more room than its data take.
	if sound && id+overflow < s.now.pages {
		for i := max(used, 1); i <= overflow; i++ {
			if s.spare[id+i] {
				s.fault("page %d of %q is given to two", id+i, bucket)
			}
			s.spare[id+i] = true
		}
	}
	if flags == flagLeaf {
		return s.leaf(ctx, els, bucket, within)
	}
	for i, e := range els {
		// bbolt finds a page's place in the page above by its first key, the first page's too.
		if !within.holds(e.key) {
			s.fault("a page of %q is named where it does not belong", bucket)
		}
		below := span{e.key, within.to}
		if i == 0 && bytes.Compare(e.key, within.from) < 0 {
			below.from = within.from
		}
		if i+1 < len(els) {
			below.to = els[i+1].key
		}
		if err := s.walk(ctx, e.child, bucket, below, depth+1); err != nil {
			return err
		}
	}
	return nil
}

// leaf takes what is on a leaf page: pairs of a bucket, or the list of the buckets.
func (s *survey) leaf(ctx context.Context, els []element, bucket string, within span) error {
	pairs := s.pairs[bucket]
	for _, e := range els {
		if !within.holds(e.key) {
			s.lose(bucket, within, "a key of %q lies where it does not belong", bucket)
		}
		switch {
		case bucket != inRoot:
			if e.bucket {
				s.fault("%q holds a bucket", bucket)
			}
			pairs = append(pairs, pair{e.key, e.value})
		case !e.bucket || len(e.value) < bucketSize || len(e.key) == 0:
			s.lose(inRoot, span{}, "the list of buckets holds something else")
		default:
			if err := s.bucket(ctx, string(e.key), e.value); err != nil {
				return err
			}
		}
	}
	if bucket != inRoot {
		s.pairs[bucket] = pairs
	}
	return nil
}

// bucket reads a bucket of the list, which is a page number or, when it is small,
// a page by itself.
func (s *survey) bucket(ctx context.Context, name string, value []byte) error {
	if _, twice := s.pairs[name]; twice {
		s.fault("the bucket %q is there twice", name)
	}
	s.pairs[name] = s.pairs[name][:len(s.pairs[name]):len(s.pairs[name])]
	if root := order.Uint64(value); root != 0 {
		return s.walk(ctx, root, name, span{}, 0)
	}
	inline := value[bucketSize:]
	if len(inline) < pageHeader || order.Uint16(inline[8:]) != flagLeaf || order.Uint64(inline) != 0 {
		s.lose(name, span{}, "the bucket %q cannot be read", name)
		if len(inline) < pageHeader {
			return nil
		}
	}
	els, _, sound := elements(inline, true, len(inline))
	if !sound {
		s.lose(name, span{}, "the bucket %q has elements that do not fit", name)
	}
	return s.leaf(ctx, els, name, span{})
}

// accountForPages wants every page to be in the tree or free: one that is neither hung
// from something that is gone.
func (s *survey) accountForPages() {
	first, last := s.now.freelist, s.now.freelist+uint64(order.Uint32(s.page(s.now.freelist)[12:]))
	for id := uint64(2); id < s.now.pages; id++ {
		list := id >= first && id <= last
		switch {
		case list && (s.reached[id] || s.free[id] || s.spare[id]):
			s.fault("page %d of the list of free pages is used twice", id)
		case s.spare[id] && (s.reached[id] || s.free[id]):
			s.fault("page %d is given to one that does not need it", id)
		case !list && !s.reached[id] && !s.free[id] && !s.spare[id]:
			s.fault("page %d hangs loose", id)
		}
	}
}

// orphans gives the leaf elements of pages that neither the tree nor the list of
// free pages knows: what hung from a page that is gone. With stale, it gives those of
// the free pages, which hold what was there before.
func (s *survey) orphans(free map[uint64]bool, stale bool) (out []element) {
	last := uint64(len(s.data) / s.size)
	for id := uint64(2); id < last; id++ {
		if s.reached[id] || free[id] != stale || id == s.now.freelist {
			continue
		}
		p := s.page(id)
		if p == nil || order.Uint16(p[8:]) != flagLeaf || order.Uint64(p) != id {
			continue
		}
		els, _, _ := elements(p, true, len(p))
		for _, e := range els {
			out = append(out, e)
			// Small buckets lie whole on the page that lists the buckets.
			if e.bucket && len(e.value) > bucketSize+pageHeader && order.Uint64(e.value) == 0 {
				small, _, _ := elements(e.value[bucketSize:], true, len(e.value))
				out = append(out, small...)
			}
		}
	}
	return out
}
