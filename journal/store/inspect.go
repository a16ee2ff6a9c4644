package store

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math/bits"
	"os"
	"runtime/debug"
	"slices"

	bolt "go.etcd.io/bbolt"
	berrors "go.etcd.io/bbolt/errors"
)

// Inspect looks at a file of records without altering it, and tells why it
// should not be opened: it is no journal, is in use, is newer, or is damaged.
// A damaged file can end the process that looks at it; see [InspectIn].
func Inspect(ctx context.Context, path string, layout Layout) (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = damaged(path, fmt.Sprint(p))
		}
	}()
	defer debug.SetPanicOnFault(debug.SetPanicOnFault(true))
	if err := looksLikeStore(path); err != nil {
		return err
	}
	f, err := os.Open(path)
	if err != nil {
		return fmt.Errorf("opening the journal: %w", err)
	}
	defer f.Close()
	if err := lockFile(f, false); err != nil {
		return fmt.Errorf("opening the journal %s: %w", path, err)
	}
	data, done, err := mapFile(f)
	if err != nil {
		return fmt.Errorf("opening the journal %s: %w", path, err)
	}
	defer done()
	s, err := layout.survey(ctx, data)
	if err != nil {
		return fmt.Errorf("looking at the journal %s: %w", path, err)
	}
	if err := layout.examine(s); err != nil {
		return fmt.Errorf("opening the journal %s: %w", path, err)
	}
	if len(s.faults) > 0 {
		return damaged(path, s.faults[0])
	}
	return secondLook(path)
}

// survey reads the whole of a file of records.
func (l Layout) survey(ctx context.Context, data []byte) (*survey, error) {
	m := image{data: data, size: pageSizeOf(data)}
	now, ok := m.meta(0)
	other, okToo := m.meta(1)
	if okToo && (!ok || other.tx > now.tx) {
		now = other
	}
	if !ok && !okToo {
		return l.surveyWithoutMeta(ctx, m)
	}
	free, freeErr := m.freelist(now)
	s, err := surveyTree(ctx, m, now, free)
	if err != nil {
		return nil, err
	}
	if s.freeSound = freeErr == nil; freeErr != nil {
		s.fault("%v", freeErr)
	}
	if !ok || !okToo {
		s.noMeta = true
		s.fault("one of the two pages that the file begins with is damaged")
	}
	if now.pages > uint64(len(data)/m.size) {
		s.fault("the file is cut short")
	} else if s.freeSound {
		s.accountForPages()
	}
	return s, nil
}

// examine reads every value of a survey and notes what is wrong with it as a fault.
// It fails when the file is no store of this layout, or is of a newer program.
func (l Layout) examine(s *survey) error {
	about, err := l.about(s)
	if err != nil {
		return err
	}
	if !about.sound {
		s.fault("what the file says of itself is damaged")
	}
	for _, name := range l.buckets() {
		if _, there := s.pairs[string(name)]; !there && slices.ContainsFunc(l.Kinds, func(k Spec) bool { return string(k.Kind) == string(name) }) {
			s.fault("the bucket %q is gone", name)
		}
	}
	for _, p := range s.pairs[BucketLinks] {
		// The first programs kept links without a checksum.
		if len(p.value) > 0 && !bytes.Equal(p.value, linkSum(p.key)) {
			s.fault("a link is damaged")
		}
	}
	for _, name := range l.enveloped() {
		for _, p := range s.pairs[name] {
			if flipped(name, p) {
				s.fault("a value of %q is damaged", name)
			}
		}
	}
	return nil
}

// flipped reports whether an envelope is not as it was written.
func flipped(bucket string, p pair) bool {
	_, err := Unwrap(bucket, string(p.key), p.value)
	if errors.Is(err, ErrNewer) {
		// The version is outside the checksum; one that is a bit away from ours
		// was flipped.
		return bits.OnesCount8(p.value[0]^envelopeVersion) == 1
	}
	return err != nil
}

// enveloped names the buckets whose values are envelopes.
func (l Layout) enveloped() []string {
	names := append([]string{string(bucketHistory)}, l.Sides...)
	for _, k := range l.Kinds {
		names = append(names, string(k.Kind))
	}
	return names
}

// about is what a file says of itself, set right where it is damaged.
type about struct {
	schema uint64
	cursor uint64
	sound  bool
}

// about reads what a file says of itself. It fails when that is not a store of this
// layout, or one of a newer program.
func (l Layout) about(s *survey) (about, error) {
	said := map[string][]byte{}
	for _, p := range s.pairs[string(bucketMeta)] {
		said[string(p.key)] = p.value
	}
	is, schema, cursor, sum := said[string(keyIs)], said[string(keySchema)], said[string(keyCursor)], said[string(keySum)]
	ours := binary.BigEndian.AppendUint64(nil, l.Schema)
	a := about{schema: l.Schema, cursor: s.lastStep()}
	if len(cursor) == 8 {
		a.cursor = binary.BigEndian.Uint64(cursor)
	} else if len(s.lost[string(bucketMeta)]) == 0 && cursor == nil {
		a.cursor = 0
	}
	whole := sum == nil || bytes.Equal(sum, metaSum(is, schema, cursor))
	switch {
	case string(is) == l.Is && len(schema) == 8 && whole:
		a.schema, a.sound = binary.BigEndian.Uint64(schema), true
	case sum != nil && bytes.Equal(sum, metaSum([]byte(l.Is), ours, cursor)):
		// It is as we would have written it, but for a letter.
	case string(is) == l.Is && bytes.Equal(schema, ours):
		a.cursor = s.lastStep() // then the cursor or the sum is what was damaged
	case string(is) == l.Is && len(schema) == 8:
		a.schema, a.sound = binary.BigEndian.Uint64(schema), true
	case is == nil && len(s.lost) > 0 && l.recognized(s):
		a.cursor = s.lastStep()
	case is == nil && len(s.lost) > 0:
		return a, ErrDamaged
	default:
		return a, ErrNotJournal
	}
	if a.schema > l.Schema {
		return a, ErrNewer
	}
	return a, nil
}

// lastStep is the number of the last step in the history.
func (s *survey) lastStep() (last uint64) {
	for _, p := range s.pairs[string(bucketHistory)] {
		if _, err := Unwrap(string(bucketHistory), string(p.key), p.value); err == nil && len(p.key) == 8 {
			last = max(last, binary.BigEndian.Uint64(p.key))
		}
	}
	return last
}

// recognized reports whether there is a record of the layout in the file.
func (l Layout) recognized(s *survey) bool {
	for _, k := range l.Kinds {
		for _, p := range s.pairs[string(k.Kind)] {
			if _, err := Unwrap(string(k.Kind), string(p.key), p.value); err == nil {
				return true
			}
		}
		for _, stale := range []bool{false, true} {
			for _, e := range s.orphans(s.free, stale) {
				if _, err := Unwrap(string(k.Kind), string(e.key), e.value); err == nil {
					return true
				}
			}
		}
	}
	return false
}

// secondLook has bbolt itself open the file, which ends the process if what it reads
// then leads it astray. Its own check of the tree would find nothing that the survey
// does not.
func secondLook(path string) error {
	db, err := bolt.Open(path, 0o644, &bolt.Options{ReadOnly: true, Timeout: lockTimeout, PreLoadFreelist: true})
	if err != nil {
		return openError(path, err)
	}
	return db.Close()
}

// looksLikeStore turns away, by its first bytes and size alone, what bbolt
// would make a new store of or trip over.
func looksLikeStore(path string) error {
	info, err := os.Stat(path) // opening a pipe would wait for its other end
	if err != nil {
		return fmt.Errorf("opening the journal: %w", err)
	}
	if !info.Mode().IsRegular() {
		return fmt.Errorf("opening the journal %s: it is no file: %w", path, ErrNotJournal)
	}
	f, err := os.Open(path)
	if err != nil {
		return fmt.Errorf("opening the journal: %w", err)
	}
	defer f.Close()
	if info.Size() == 0 {
		return damaged(path, "the file is empty")
	}
	// Both meta pages carry bbolt's magic number, 0xED0CDAED, behind a page
	// header of 16 bytes, in the byte order of the machine.
	head := make([]byte, 16*os.Getpagesize())
	n, err := io.ReadFull(f, head)
	if head = head[:n]; n < 20 {
		return fmt.Errorf("opening the journal %s: %w", path, ErrNotJournal)
	}
	magic := []byte{0xED, 0xDA, 0x0C, 0xED}
	if bytes.Equal(head[16:20], magic) || bytes.Equal(head[16:20], []byte{0xED, 0x0C, 0xDA, 0xED}) {
		return nil
	}
	// The first page may be the one that was lost, or both.
	second := os.Getpagesize() + 16
	if err != nil && !errors.Is(err, io.ErrUnexpectedEOF) || len(head) >= second+4 && bytes.Equal(head[second:second+4], magic) || hasPages(head) {
		return nil // which is looked into
	}
	return fmt.Errorf("opening the journal %s: %w", path, ErrNotJournal)
}

// hasPages reports whether behind the first two pages there is one that bbolt wrote.
func hasPages(head []byte) bool {
	m := image{head, os.Getpagesize()}
	for id := uint64(2); int(id+1)*m.size <= len(head); id++ {
		if m.kind(id) != 0 {
			return true
		}
	}
	return false
}

func damaged(path, why string) error {
	return fmt.Errorf("opening the journal %s: %s: %w", path, why, ErrDamaged)
}

// openError words an error of bbolt's for the baker.
func openError(path string, err error) error {
	switch {
	case errors.Is(err, berrors.ErrTimeout):
		return fmt.Errorf("opening the journal %s: %w", path, ErrInUse)
	case errors.Is(err, berrors.ErrInvalid), errors.Is(err, berrors.ErrChecksum), errors.Is(err, berrors.ErrVersionMismatch):
		return damaged(path, err.Error())
	}
	return fmt.Errorf("opening the journal %s: %w", path, err)
}
