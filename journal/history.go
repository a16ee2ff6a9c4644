package journal

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"time"

	"github.com/go-json-experiment/json"
	bolt "go.etcd.io/bbolt"

	"twinloaf/journal/say"
)

// historyKept is how many changes can be undone.
const historyKept = 500

// together is how long after the first of a run of typed edits to one field
// another still counts as the same step of the history.
const together = 5 * time.Second

// An entry is one step of the history: the envelopes of every record that a
// change touched, before and after.
type entry struct {
	Label string       `json:"label"`
	At    time.Time    `json:"at"`
	Typed bool         `json:"typed,omitzero"`
	Edits []recordEdit `json:"edits"`
}

type recordEdit struct {
	Ref    Ref    `json:"ref"`
	Before []byte `json:"before,omitempty"`
	After  []byte `json:"after,omitempty"`
}

// The history is a run of entries by sequence number; the cursor, in the meta
// bucket, is the number of the last one that is done. Those behind it have
// been undone and can be redone, until another change cuts them off.
var keyCursor = []byte("cursor")

func cursorOf(tx *bolt.Tx) uint64 {
	if v := tx.Bucket(bucketMeta).Get(keyCursor); len(v) == 8 {
		return binary.BigEndian.Uint64(v)
	}
	return 0
}

func setCursor(tx *bolt.Tx, n uint64) error {
	return tx.Bucket(bucketMeta).Put(keyCursor, seqKey(n))
}

func seqKey(n uint64) []byte { return binary.BigEndian.AppendUint64(nil, n) }

func readEntry(tx *bolt.Tx, n uint64) (*entry, error) {
	v := tx.Bucket(bucketHistory).Get(seqKey(n))
	if v == nil {
		return nil, nil
	}
	body, err := unwrap(string(bucketHistory), string(seqKey(n)), v)
	if err != nil {
		return nil, fmt.Errorf("reading step %d of the history: %w", n, err)
	}
	e := new(entry)
	if err := json.Unmarshal(body, e); err != nil {
		return nil, fmt.Errorf("reading step %d of the history: %w", n, err)
	}
	return e, nil
}

func writeEntry(tx *bolt.Tx, n uint64, e *entry) error {
	body, err := json.Marshal(e)
	if err != nil {
		return fmt.Errorf("writing step %d of the history: %w", n, err)
	}
	return tx.Bucket(bucketHistory).Put(seqKey(n), wrap(string(bucketHistory), string(seqKey(n)), body))
}

// remember adds an entry behind the cursor, and forgets what was undone and
// what is too old. A typed edit joins the step before it when that is the same
// field's, so that undo takes back words rather than letters.
func remember(tx *bolt.Tx, e entry) error {
	h := tx.Bucket(bucketHistory)
	cur := cursorOf(tx)
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
		last, err := readEntry(tx, cur)
		if err == nil && last != nil && last.joins(&e) {
			last.Edits[0].After = e.Edits[0].After
			return writeEntry(tx, cur, last)
		}
	}
	cur++
	if err := writeEntry(tx, cur, &e); err != nil {
		return err
	}
	if cur > historyKept {
		if err := h.Delete(seqKey(cur - historyKept)); err != nil {
			return err
		}
	}
	return setCursor(tx, cur)
}

// joins reports whether a typed edit belongs to the same step as e.
func (e *entry) joins(next *entry) bool {
	return e.Typed && len(e.Edits) == 1 && len(next.Edits) == 1 &&
		e.Label == next.Label && e.Edits[0].Ref == next.Edits[0].Ref &&
		bytes.Equal(e.Edits[0].After, next.Edits[0].Before) &&
		next.At.Sub(e.At) < together && !next.At.Before(e.At)
}

// Errors of undo and redo.
var (
	ErrNothingToUndo = say.Wrong("there is nothing to undo")
	ErrNothingToRedo = say.Wrong("nothing to redo")
	// ErrMovedOn means that a record has changed since in a way that is not
	// undone, such as a score handed in.
	ErrMovedOn = say.Wrong("that can no longer be undone: the record has moved on since, and nothing was changed")
)

// Undo takes back the last change and tells what it was called.
func (j *Journal) Undo() (label string, err error) { return j.step(true) }

// Redo makes the change again that was undone last.
func (j *Journal) Redo() (label string, err error) { return j.step(false) }

func (j *Journal) step(back bool) (label string, err error) {
	refs, err := j.writing(func(t *Tx) (err error) {
		label, err = walk(t, back)
		return err
	})
	if len(refs) > 0 {
		j.tell(Changed{Label: label, Refs: refs})
	}
	return label, err
}

// walk takes one step along the history.
func walk(t *Tx, back bool) (label string, err error) {
	cur := cursorOf(t.tx)
	n, none := cur, ErrNothingToUndo
	if !back {
		n, none = cur+1, ErrNothingToRedo
	}
	e, err := readEntry(t.tx, n)
	if err != nil {
		return "", err
	}
	if e == nil {
		return "", none
	}
	for _, ed := range e.Edits {
		from, to := ed.Before, ed.After
		if back {
			from, to = to, from
		}
		now, _ := t.value(ed.Ref)
		if !bytes.Equal(now, from) {
			return e.Label, fmt.Errorf("%s: %w", e.Label, ErrMovedOn)
		}
		if len(to) == 0 {
			to = nil
		}
		if err := t.set(ed.Ref, to); err != nil {
			return e.Label, err
		}
	}
	if back {
		n--
	}
	return e.Label, setCursor(t.tx, n)
}

// Steps tells what undo and redo would take back or make again; an empty
// label means that there is nothing.
func (j *Journal) Steps() (undo, redo string) {
	j.mu.Lock()
	if n := len(j.queue); n > 0 {
		undo = j.queue[n-1].label
	}
	j.mu.Unlock()
	typed := undo != ""
	_ = j.db.View(func(tx *bolt.Tx) error {
		cur := cursorOf(tx)
		if e, err := readEntry(tx, cur); undo == "" && err == nil && e != nil {
			undo = e.Label
		}
		if e, err := readEntry(tx, cur+1); !typed && err == nil && e != nil {
			redo = e.Label
		}
		return nil
	})
	return undo, redo
}
