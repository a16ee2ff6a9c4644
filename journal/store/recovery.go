package store

import (
	"bytes"
	"context"
	"encoding/binary"
	"slices"

	"github.com/go-json-experiment/json"
)

// recovery works out what a damaged file held.
type recovery struct {
	ctx    context.Context
	s      *survey
	layout Layout
	about  about
	// sound is what goes into the new file: envelopes by bucket and key.
	sound map[string]map[string][]byte
	found []Found
	// damaged are the envelopes that stay unreadable, by bucket and key.
	damaged map[string]map[string][]byte
	// gaps are where the keys of those may lie.
	gaps  map[string][]span
	steps map[uint64]*Entry
}

func newRecovery(ctx context.Context, s *survey, l Layout, a about) *recovery {
	r := &recovery{ctx: ctx, s: s, layout: l, about: a,
		sound: map[string]map[string][]byte{}, damaged: map[string]map[string][]byte{}, gaps: map[string][]span{}, steps: map[uint64]*Entry{}}
	for _, name := range l.enveloped() {
		if _, index := l.Indexes[name]; !index {
			r.sound[name], r.damaged[name] = map[string][]byte{}, map[string][]byte{}
		}
	}
	return r
}

func (r *recovery) run() Mended {
	for name := range r.sound {
		for i, p := range r.s.pairs[name] {
			if r.take(name, p) {
				continue
			}
			// Its key may be damaged, too: the true one lies between its neighbours'.
			var gap span
			if i > 0 {
				gap.from = r.s.pairs[name][i-1].key
			}
			if i+1 < len(r.s.pairs[name]) {
				gap.to = r.s.pairs[name][i+1].key
			}
			r.gaps[name] = append(r.gaps[name], gap)
		}
	}
	indexes := r.readIndexes()
	// What hung from a page that is gone is as good as what the tree still has,
	// as long as the list of free pages can be relied on.
	if r.s.freeSound {
		r.fill(r.s.orphans(r.s.free, false), nil)
	}
	r.readHistory()
	r.findMissing(indexes)
	steps := r.renumber()
	m := Mended{Steps: steps, Found: r.found, Indexes: indexes, LastChange: r.s.noMeta}
	for name := range r.sound {
		if r.isLost(name, nil) {
			m.Gone = append(m.Gone, name)
		}
	}
	slices.Sort(m.Gone)
	slices.SortFunc(m.Found, func(a, b Found) int { return bytes.Compare([]byte(a.Bucket+a.Key), []byte(b.Bucket+b.Key)) })
	return m
}

// take puts one value of the tree where it belongs, if it can be read.
func (r *recovery) take(name string, p pair) bool {
	key := string(p.key)
	if !flipped(name, p) {
		if _, err := Unwrap(name, key, p.value); err == nil || r.sound[name][key] == nil {
			r.sound[name][key] = p.value
		}
		return true
	}
	if fixed := setRight(name, key, p.value); fixed != nil {
		r.sound[name][key] = fixed
		r.found = append(r.found, Found{Bucket: name, Key: key, State: Whole, Body: fixed[envelopeSize:]})
		return true
	}
	// The value may be whole and its key the damaged one.
	if own := keyOf(name, p); own != "" {
		r.sound[name][own] = p.value
		r.found = append(r.found, Found{Bucket: name, Key: own, State: Whole, Body: p.value[envelopeSize:]})
		return true
	}
	r.damaged[name][key] = p.value
	return false
}

// longestKey is longer than any key that we write: a longer one is damage, and not of
// one bit.
const longestKey = 256

// keyOf finds the key that a value was written under, which is a bit away from that
// which it has.
func keyOf(name string, p pair) string {
	if len(p.key) > longestKey {
		return ""
	}
	for i := range p.key {
		for b := range 8 {
			key := bytes.Clone(p.key)
			key[i] ^= 1 << b
			if _, err := Unwrap(name, string(key), p.value); err == nil {
				return string(key)
			}
		}
	}
	return ""
}

// isLost reports whether a key of a bucket may be missing since a page is; with nil,
// whether any may be.
func (r *recovery) isLost(name string, key []byte) bool {
	if len(r.s.lost[inRoot]) > 0 {
		if _, there := r.s.pairs[name]; !there {
			return true
		}
	}
	holds := func(s span) bool { return key == nil || s.holds(key) }
	return slices.ContainsFunc(r.s.lost[name], holds) || key != nil && slices.ContainsFunc(r.gaps[name], holds)
}

// fill puts elements of pages that the tree does not reach where they belong: those
// whose key is missing there. An element tells by its checksum to which bucket it
// belongs. note, which may be nil, is told of each.
func (r *recovery) fill(els []element, note func(name, key string, body []byte)) {
	for _, e := range els {
		for name := range r.sound {
			key := string(e.key)
			if note != nil && name == string(bucketHistory) {
				continue // an earlier state of a step would not fit those after it
			}
			if r.sound[name][key] != nil || r.damaged[name][key] == nil && !r.isLost(name, e.key) {
				continue
			}
			body, err := Unwrap(name, key, e.value)
			if err != nil {
				continue
			}
			r.sound[name][key] = e.value
			if note != nil {
				note(name, key, body)
			}
		}
	}
}

// readHistory decodes the steps that are there.
func (r *recovery) readHistory() {
	for key, v := range r.sound[string(bucketHistory)] {
		body, err := Unwrap(string(bucketHistory), key, v)
		if err != nil || len(key) != 8 {
			continue
		}
		e := new(Entry)
		if json.Unmarshal(body, e) == nil {
			r.steps[binary.BigEndian.Uint64([]byte(key))] = e
		}
	}
}

// lastKnown gives every record as the last step that touched it left it; nil for one
// that was taken away.
func (r *recovery) lastKnown() map[Ref][]byte {
	numbers := make([]uint64, 0, len(r.steps))
	for n := range r.steps {
		if n <= r.about.cursor {
			numbers = append(numbers, n)
		}
	}
	slices.Sort(numbers)
	out := map[Ref][]byte{}
	for _, n := range numbers {
		for _, e := range r.steps[n].Edits {
			out[e.Ref] = e.After
		}
	}
	return out
}

// readIndexes gives what can be read of the indexes.
func (r *recovery) readIndexes() map[string]map[string][]byte {
	out := map[string]map[string][]byte{}
	for name := range r.layout.Indexes {
		out[name] = map[string][]byte{}
		take := func(key, value []byte) {
			body, err := Unwrap(name, string(key), value)
			if err != nil {
				if fixed := setRight(name, string(key), value); fixed != nil {
					body, err = fixed[envelopeSize:], nil
				}
			}
			if err == nil {
				out[name][string(key)] = body
			}
		}
		if r.isLost(name, nil) {
			for _, stale := range []bool{true, false} {
				for _, e := range r.s.orphans(r.s.free, stale) {
					take(e.key, e.value)
				}
			}
		}
		for _, p := range r.s.pairs[name] {
			take(p.key, p.value)
		}
	}
	return out
}

// named lists the records that the indexes and the history know of, each with one
// of its owners, where an index tells.
func (r *recovery) named(indexes map[string]map[string][]byte, known map[Ref][]byte) map[Ref]ID {
	out := map[Ref]ID{}
	for name, kind := range r.layout.Indexes {
		for key := range indexes[name] {
			out[Ref{kind, ID(key)}] = ""
		}
	}
	link := func(key []byte) {
		ref, owner, ok := linkOf(key)
		if _, is := r.layout.spec(ref.Kind); ok && is {
			out[ref] = owner
		}
	}
	for _, p := range r.s.pairs[string(bucketLinks)] {
		link(p.key)
	}
	if r.isLost(string(bucketLinks), nil) {
		for _, stale := range []bool{true, false} {
			for _, e := range r.s.orphans(r.s.free, stale) {
				if bytes.Equal(e.value, linkSum(e.key)) {
					link(e.key)
				}
			}
		}
	}
	for ref, after := range known {
		if len(after) > 0 {
			if _, told := out[ref]; !told {
				out[ref] = ""
			}
		} else {
			delete(out, ref)
		}
	}
	return out
}

// findMissing looks for what is missing or damaged in the places where earlier states
// of it may be: the tree of the commit before, the history, the pages that hold
// nothing now. What is in none of them is lost.
func (r *recovery) findMissing(indexes map[string]map[string][]byte) {
	earlier := func(name, key string, body []byte) {
		r.found = append(r.found, Found{Bucket: name, Key: key, State: Earlier, Body: body})
	}
	known := r.lastKnown()
	removed := func(name, key string) bool {
		after, ok := known[Ref{Kind(name), ID(key)}]
		return ok && len(after) == 0
	}
	fill := func(els []element) {
		r.fill(slices.DeleteFunc(els, func(e element) bool {
			return slices.ContainsFunc(r.layout.Kinds, func(k Spec) bool { return removed(string(k.Kind), string(e.key)) })
		}), earlier)
	}
	if r.anyMissing() {
		if before, ok := r.s.before(r.ctx); ok {
			var els []element
			for _, pairs := range before.pairs {
				for _, p := range pairs {
					els = append(els, element{key: p.key, value: p.value})
				}
			}
			fill(els)
		}
		var els []element
		for ref, after := range known {
			if len(after) > 0 {
				els = append(els, element{key: []byte(ref.ID), value: after})
			}
		}
		r.fill(els, earlier)
		if !r.s.freeSound {
			fill(r.s.orphans(r.s.free, false))
		}
		fill(r.s.orphans(r.s.free, true))
	}
	for ref, owner := range r.named(indexes, known) {
		name, key := string(ref.Kind), string(ref.ID)
		if _, kind := r.layout.spec(ref.Kind); !kind || r.sound[name][key] != nil || r.damaged[name][key] != nil || !r.isLost(name, []byte(key)) {
			continue
		}
		r.found = append(r.found, Found{Bucket: name, Key: key, State: Lost, Owner: owner})
	}
	for name, values := range r.damaged {
		if name == string(bucketHistory) {
			continue // which is counted
		}
		for key, v := range values {
			if r.sound[name][key] == nil {
				r.found = append(r.found, Found{Bucket: name, Key: key, State: Lost, Body: v[min(envelopeSize, len(v)):]})
			}
		}
	}
}

// empty reports whether there were records and none was found.
func (r *recovery) empty() bool {
	lost := false
	for _, k := range r.layout.Kinds {
		if len(r.sound[string(k.Kind)]) > 0 {
			return false
		}
		lost = lost || len(r.damaged[string(k.Kind)]) > 0 || r.isLost(string(k.Kind), nil)
	}
	return lost
}

func (r *recovery) anyMissing() bool {
	for name := range r.sound {
		if len(r.damaged[name]) > 0 || r.isLost(name, nil) {
			return true
		}
	}
	return false
}

// renumber closes the gaps that damaged steps leave in the history, which is a run
// without any. Steps that were taken back and lie behind a gap are left out.
// lost counts the steps that are missing.
func (r *recovery) renumber() (lost int) {
	var numbers []uint64
	for n := range r.steps {
		numbers = append(numbers, n)
	}
	slices.Sort(numbers)
	history, cursor := map[string][]byte{}, uint64(0)
	for _, n := range numbers {
		if n > r.about.cursor && n != r.about.cursor+uint64(len(history))-cursor+1 {
			break
		}
		body, err := Unwrap(string(bucketHistory), string(seqKey(n)), r.sound[string(bucketHistory)][string(seqKey(n))])
		if err != nil {
			continue
		}
		key := string(seqKey(uint64(len(history)) + 1))
		history[key] = Wrap(string(bucketHistory), key, body)
		if n <= r.about.cursor {
			cursor++
		}
	}
	lost = max(int(min(r.about.cursor, HistoryKept))-int(cursor), 0)
	behind := seqKey(r.about.cursor + 1)
	if uint64(len(history)) == cursor && (r.isLost(string(bucketHistory), behind) || r.damaged[string(bucketHistory)][string(behind)] != nil) {
		lost++ // one that was taken back may have been there
	}
	r.sound[string(bucketHistory)], r.about.cursor = history, cursor
	return lost
}

// before reads the file as the commit before the last one left it, from the other
// meta page.
func (s *survey) before(ctx context.Context) (*survey, bool) {
	for id := range uint64(2) {
		if m, ok := s.meta(id); ok && m.tx != s.now.tx {
			out, err := surveyTree(ctx, s.image, m, nil)
			return out, err == nil
		}
	}
	return nil, false
}
