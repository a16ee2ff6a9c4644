package journal

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"github.com/go-json-experiment/json"

	"twinloaf/journal/say"
	"twinloaf/journal/store"
)

// How long it is until what could not be written is tried again: at first, and at
// most, each wait twice the one before.
const (
	tryFirst = 500 * time.Millisecond
	tryLast  = 8 * time.Second
)

// tryAgain notes that what was typed could not be written and has it tried again.
// The caller holds mu.
func (j *Journal) tryAgain(err error) {
	j.trouble = err
	j.wait = min(max(2*j.wait, tryFirst), tryLast)
	j.flushIn(j.wait)
}

// recovered notes that everything is on the disk, and gives what to tell if something
// was not. The caller holds mu.
func (j *Journal) recovered() []Changed {
	if j.trouble == nil {
		return nil
	}
	j.trouble, j.wait = nil, 0
	return []Changed{{Saved: true}}
}

// A stuckError is an edit that cannot be made on its record any more.
type stuckError struct {
	edit *gathered
	err  error
}

func (e *stuckError) Error() string { return e.err.Error() }
func (e *stuckError) Unwrap() error { return e.err }

// An unsavedError says why what was typed is not on the disk yet.
type unsavedError struct{ err error }

func (e *unsavedError) Error() string { return "writing what was typed: " + e.err.Error() }
func (e *unsavedError) Unwrap() error { return e.err }

// Line says what is safe, and what happens next.
func (e *unsavedError) Line() say.Line {
	if errors.Is(e.err, store.ErrUnsure) {
		said, _ := say.OfError(store.ErrUnsure)
		return said
	}
	why := store.Why(e.err)
	if say.TroubleOf(e.err) == say.DiskFull {
		return say.Of("{{.Why}}. What you typed is kept in memory, and saved as soon as there is room", say.With{"Why": why})
	}
	return say.Of("{{.Why}}. What you typed is kept in memory, and saved as soon as that is possible", say.With{"Why": why})
}

// Trouble is why what was typed is not on the disk: nil when it is, or will be
// within a second.
func (j *Journal) Trouble() error {
	j.mu.Lock()
	defer j.mu.Unlock()
	if j.trouble == nil {
		return nil
	}
	return &unsavedError{j.trouble}
}

// An Unsaved is what was typed into one record and is not on the disk.
type Unsaved struct {
	Ref  Ref
	Name string    // of the record, as it reads now; may be empty
	At   time.Time // the record's day; zero if it has none
	// Labels name the changes to the baker.
	Labels []string
	// Values are the members of the record that differ from the disk's, in the order
	// of their names, as they read now.
	Values []Value
}

// A Value is one member of a record, by the names that lead to it, and how it reads.
type Value struct{ Member, Text string }

// Unsaved lists what was typed and is not on the disk, in the order of typing.
func (j *Journal) Unsaved() []Unsaved {
	j.mu.Lock()
	defer j.mu.Unlock()
	var out []Unsaved
	for _, g := range j.queue {
		i := slices.IndexFunc(out, func(u Unsaved) bool { return u.Ref == g.ref })
		if i < 0 {
			i = len(out)
			out = append(out, j.unsaved(g.ref))
		}
		if !slices.Contains(out[i].Labels, g.label) {
			out[i].Labels = append(out[i].Labels, g.label)
		}
	}
	return out
}

// unsaved compares a record as it reads with the disk's. The caller holds mu.
func (j *Journal) unsaved(ref Ref) Unsaved {
	u := Unsaved{Ref: ref}
	now := members(ref, j.typed()[ref])
	committed, _ := j.committed(ref) // what cannot be read is not saved either
	was := members(ref, committed)
	u.Name = now["name"]
	u.At, _ = time.Parse(time.RFC3339, now["at"])
	for _, m := range slices.Sorted(maps.Keys(now)) {
		if now[m] != was[m] {
			u.Values = append(u.Values, Value{m, now[m]})
		}
	}
	return u
}

// members lists every value of a record by the names that lead to it.
func members(ref Ref, envelope []byte) map[string]string {
	out := map[string]string{}
	body, err := store.Unwrap(string(ref.Kind), string(ref.ID), envelope)
	if err != nil {
		return out
	}
	var v any
	if json.Unmarshal(body, &v) != nil {
		return out
	}
	var add func(at string, v any)
	add = func(at string, v any) {
		switch v := v.(type) {
		case map[string]any:
			for k, inner := range v {
				add(strings.TrimPrefix(at+" "+k, " "), inner)
			}
		case []any:
			for i, inner := range v {
				add(fmt.Sprintf("%s %d", at, i+1), inner)
			}
		default:
			out[at] = fmt.Sprint(v)
		}
	}
	add("", v)
	return out
}
