package store

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"time"

	"github.com/go-json-experiment/json"

	"twinloaf/journal/say"
)

// HistoryKept is how many changes can be taken back.
const HistoryKept = 500

// together is how long after the first of a run of typed edits to one field
// another still counts as the same step of the history.
const together = 5 * time.Second

// An Entry is one step of the history: the envelopes of every record that a
// change touched, before and after.
type Entry struct {
	Label string    `json:"label"`
	At    time.Time `json:"at"`
	Typed bool      `json:"typed,omitzero"`
	// Passed marks a step that was not taken back because it no longer can be.
	Passed bool   `json:"passed,omitzero"`
	Edits  []Edit `json:"edits"`
}

// The history is a run of entries by sequence number; the cursor, in the meta
// bucket, is the number of the last one that is done. Those behind it have
// been undone and can be redone, until another change cuts them off.
var keyCursor = []byte("cursor")

// Cursor is the number of the last step that is done, 0 for none.
func (t *Tx) Cursor() uint64 {
	if v := t.tx.Bucket(bucketMeta).Get(keyCursor); len(v) == 8 {
		return binary.BigEndian.Uint64(v)
	}
	return 0
}

func (t *Tx) setCursor(n uint64) error {
	meta := t.tx.Bucket(bucketMeta)
	if err := meta.Put(keyCursor, seqKey(n)); err != nil {
		return err
	}
	return sumMeta(meta)
}

func seqKey(n uint64) []byte { return binary.BigEndian.AppendUint64(nil, n) }

func (t *Tx) entry(n uint64) (*Entry, error) {
	v := t.tx.Bucket(bucketHistory).Get(seqKey(n))
	if v == nil {
		return nil, nil
	}
	body, err := Unwrap(string(bucketHistory), string(seqKey(n)), v)
	if err != nil {
		return nil, fmt.Errorf("reading step %d of the history: %w", n, err)
	}
	e := new(Entry)
	if err := json.Unmarshal(body, e); err != nil {
		return nil, fmt.Errorf("reading step %d of the history: %w", n, err)
	}
	return e, nil
}

func (t *Tx) writeEntry(n uint64, e *Entry) error {
	body, err := json.Marshal(e)
	if err != nil {
		return fmt.Errorf("writing step %d of the history: %w", n, err)
	}
	return t.tx.Bucket(bucketHistory).Put(seqKey(n), Wrap(string(bucketHistory), string(seqKey(n)), body))
}

// Remember adds an entry behind the cursor, and forgets what was undone and
// what is too old. A typed edit joins the step before it when that is the same
// field's, so that undo takes back words rather than letters.
func (t *Tx) Remember(e Entry) error {
	h := t.tx.Bucket(bucketHistory)
	cur := t.Cursor()
	if k, _ := h.Cursor().Seek(seqKey(cur + 1)); k != nil {
		var gone [][]byte
		for c := h.Cursor(); k != nil; k, _ = c.Next() {
			if gone == nil {
				k, _ = c.Seek(seqKey(cur + 1))
			}
			gone = append(gone, bytes.Clone(k))
		}
		for _, k := range gone {
			if err := h.Delete(k); err != nil {
				return err
			}
		}
	} else if e.Typed {
		last, err := t.entry(cur)
		if err == nil && last != nil && last.joins(&e) {
			last.Edits[0].After = e.Edits[0].After
			return t.writeEntry(cur, last)
		}
	}
	cur++
	if err := t.writeEntry(cur, &e); err != nil {
		return err
	}
	if cur > HistoryKept {
		if err := h.Delete(seqKey(cur - HistoryKept)); err != nil {
			return err
		}
	}
	return t.setCursor(cur)
}

// joins reports whether a typed edit belongs to the same step as e.
func (e *Entry) joins(next *Entry) bool {
	return e.Typed && len(e.Edits) == 1 && len(next.Edits) == 1 &&
		e.Label == next.Label && e.Edits[0].Ref == next.Edits[0].Ref &&
		bytes.Equal(e.Edits[0].After, next.Edits[0].Before) &&
		next.At.Sub(e.At) < together && !next.At.Before(e.At)
}

// Errors of undo and redo.
var (
	ErrNothingToUndo = say.NewError("there is nothing to undo")
	ErrNothingToRedo = say.NewError("nothing to redo")
	// ErrMovedOn is wrapped by [Skipped].
	ErrMovedOn = say.NewError("that can no longer be undone: the record has moved on since, and nothing was changed")
)

// A Skipped names the steps that a walk went past because they cannot be taken back,
// or made again: a record of each has changed since in a way that is not undone, such
// as a score handed in. Nothing was changed; the next walk goes on behind them.
type Skipped struct{ Labels []string }

// Error is the sentence in English.
func (s *Skipped) Error() string { return s.Line().String() }

// Line is the sentence.
func (s *Skipped) Line() say.Line {
	var quoted []say.Line
	for _, l := range s.Labels {
		quoted = append(quoted, say.Of("“{{.Label}}”", say.With{"Label": l}))
	}
	if len(quoted) > namedSkipped {
		more := len(quoted) - namedSkipped
		quoted = append(quoted[:namedSkipped], say.N("one more", "{{.N}} more", more))
	}
	return say.N(
		"{{.What}} can no longer be undone, because more was recorded on it since; nothing was changed. Press again for what came before",
		"{{.What}} can no longer be undone, because more was recorded on them since; nothing was changed. Press again for what came before",
		len(s.Labels), say.With{"What": say.And(quoted...)})
}

// Is has a skipped step be an [ErrMovedOn].
func (s *Skipped) Is(target error) bool { return target == ErrMovedOn }

// namedSkipped is how many skipped steps are named one by one.
const namedSkipped = 3

// Walk takes one step back or forward along the history, and tells what it was
// called. Going back, it steps past changes that cannot be taken back, all that
// follow each other at once, and gives their labels instead; going forward, it
// steps over those again without a word. The way is kept by the transaction even
// where no record was changed.
func (t *Tx) Walk(back bool) (label string, skipped []string, err error) {
	for {
		cur := t.Cursor()
		n, none := cur, ErrNothingToUndo
		if !back {
			n, none = cur+1, ErrNothingToRedo
		}
		e, err := t.entry(n)
		if err != nil {
			return "", nil, err
		}
		switch {
		case e == nil && len(skipped) > 0:
			return "", skipped, nil
		case e == nil:
			return "", nil, none
		case !back && e.Passed:
			e.Passed = false
			if err := errors.Join(t.writeEntry(n, e), t.setCursor(n)); err != nil {
				return "", nil, err
			}
			continue
		case t.fits(e, back) && len(skipped) > 0:
			return "", skipped, nil
		case t.fits(e, back):
			return e.Label, nil, t.apply(e, n, back)
		case !back:
			return "", []string{e.Label}, nil
		}
		e.Passed = true
		if err := errors.Join(t.writeEntry(n, e), t.setCursor(n-1)); err != nil {
			return "", nil, err
		}
		skipped = append(skipped, e.Label)
	}
}

// fits tells whether every record of a step is as the step left it, or, going
// forward, as the step found it.
func (t *Tx) fits(e *Entry, back bool) bool {
	for _, ed := range e.Edits {
		from := ed.Before
		if back {
			from = ed.After
		}
		if !bytes.Equal(t.Get(ed.Ref), from) {
			return false
		}
	}
	return true
}

// apply takes a step that fits.
func (t *Tx) apply(e *Entry, n uint64, back bool) error {
	for _, ed := range e.Edits {
		to := ed.After
		if back {
			to = ed.Before
		}
		if len(to) == 0 {
			to = nil
		}
		if err := t.Set(ed.Ref, to); err != nil {
			return err
		}
	}
	if back {
		n--
	}
	return t.setCursor(n)
}

// Steps tells what [Tx.Walk] would take back or make again; an empty label means
// that there is nothing.
func (t *Tx) Steps() (undo, redo string) {
	cur := t.Cursor()
	if e, err := t.entry(cur); err == nil && e != nil {
		undo = e.Label
	}
	for n := cur + 1; ; n++ {
		e, err := t.entry(n)
		if err != nil || e == nil {
			break
		}
		if !e.Passed {
			redo = e.Label
			break
		}
	}
	return undo, redo
}
