package journal

import (
	"bytes"
	"errors"
	"fmt"
	"maps"
	"slices"
	"time"

	"twinloaf/journal/store"
)

// gathered is a run of typed edits to one field of one record that has not
// been committed yet.
type gathered struct {
	ref   Ref
	label string
	at    time.Time
	// apply makes the run of edits on an envelope and gives the new one.
	apply []func(value []byte) ([]byte, error)
}

// Edit alters a record as it is typed. Every reader sees the change at once;
// it is committed together with the edits around it within a second, and
// [Journal.Close], a crash's last commit aside, loses none. The change may be
// made again on a fresher copy of the record, on another goroutine, so it must only set
// what it sets.
// Edits under one label make one step of the history.
func Edit[T any, R Record[T]](j *Journal, id ID, label string, change func(R)) error {
	kind := R(new(T)).kind()
	ref := Ref{Kind: kind, ID: id}
	apply := func(value []byte) ([]byte, error) {
		rec, err := decode[T, R](id, value)
		if err != nil {
			return nil, err
		}
		before := mend(rec)
		change(rec)
		if err := refuseNew(mend(rec), before); err != nil {
			return nil, err
		}
		return encode[T, R](rec)
	}
	if err := j.gather(ref, label, apply); err != nil {
		return fmt.Errorf("%s: %w", label, err)
	}
	j.notify(Changed{Label: label, Refs: []Ref{ref}, Typed: true})
	return nil
}

func (j *Journal) gather(ref Ref, label string, apply func([]byte) ([]byte, error)) error {
	j.mu.Lock()
	defer j.mu.Unlock()
	if j.closed {
		return ErrClosed
	}
	value, ok := j.typed()[ref]
	if !ok {
		var err error
		if value, err = j.committed(ref); err != nil {
			return err
		}
		if value == nil {
			return ErrNotFound
		}
	}
	value, err := apply(value)
	if err != nil {
		return err
	}
	j.setTyped(ref, value)
	now := time.Now() // gathering is by the real clock: it guards against a real crash
	if n := len(j.queue); n > 0 && j.queue[n-1].ref == ref && j.queue[n-1].label == label {
		j.queue[n-1].apply = append(j.queue[n-1].apply, apply)
	} else {
		if n == 0 {
			j.oldest = now
		}
		j.queue = append(j.queue, &gathered{ref: ref, label: label, at: j.Now(), apply: []func([]byte) ([]byte, error){apply}})
	}
	if j.trouble != nil {
		return nil // the next try has its time already
	}
	wait := j.opt.GatherFor
	if left := 2*j.opt.GatherFor - now.Sub(j.oldest); left < wait {
		wait = max(left, 0)
	}
	j.flushIn(wait)
	return nil
}

// flushIn has the flush come after a while. The caller holds mu.
func (j *Journal) flushIn(wait time.Duration) {
	if j.timer == nil {
		j.timer = time.AfterFunc(wait, j.flushLater)
	} else {
		j.timer.Reset(wait)
	}
}

// committed reads an envelope past the overlay. The caller may hold mu.
func (j *Journal) committed(ref Ref) (value []byte, err error) {
	err = j.store.View(func(st *store.Tx) error {
		if v := st.Get(ref); v != nil {
			value = append([]byte{}, v...)
		}
		return nil
	})
	return value, err
}

// overlayAgain makes the typed edits of ref that are still waiting once more
// on the committed record. The caller holds mu.
func (j *Journal) overlayAgain(ref Ref) {
	value, err := j.committed(ref)
	if err != nil {
		return // what was typed goes on reading as it did
	}
	waiting := false
	for _, g := range j.queue {
		if g.ref != ref || value == nil {
			continue
		}
		for _, apply := range g.apply {
			if next, err := apply(value); err == nil {
				value, waiting = next, true
			}
		}
	}
	if !waiting {
		value = nil
	}
	j.setTyped(ref, value)
}

// setTyped has a record read as it was typed, or, with nil, as it is committed. The
// caller holds mu.
func (j *Journal) setTyped(ref Ref, value []byte) {
	next := maps.Clone(j.typed()) // of few records at once
	if value != nil {
		next[ref] = value
	} else {
		delete(next, ref)
	}
	j.overlay.Store(&next)
}

// flushLater commits on the timer's goroutine.
func (j *Journal) flushLater() {
	if err := j.Flush(); err != nil {
		j.notify(Changed{Err: err})
	}
}

// Flush commits what was typed. After an error the edits are still in memory, and
// are tried again by themselves until they are on the disk, and with each change.
func (j *Journal) Flush() error {
	j.write.Lock()
	told, err := j.flushLocked()
	j.write.Unlock()
	for _, c := range told {
		j.notify(c)
	}
	return err
}

// flushLocked commits what was typed and gives what to tell of it once no lock
// is held. Edits that cannot be made on their record any more stay behind, and keep
// no other from the disk. The caller holds write.
func (j *Journal) flushLocked() ([]Changed, error) {
	j.mu.Lock()
	queue := j.queue
	if len(queue) == 0 && !j.store.Unsure() {
		defer j.mu.Unlock()
		return j.recovered(), nil // another change may have made sure of what was unsure
	}
	j.queue = nil
	j.mu.Unlock()
	var told []Changed
	var stuck []*gathered
	var err, why error
	for {
		told = nil
		err = j.writeAll(queue, &told)
		s, ok := errors.AsType[*stuckError](err)
		if !ok {
			break
		}
		why = err
		stuck = append(stuck, s.edit)
		queue = slices.DeleteFunc(queue, func(g *gathered) bool { return g == s.edit })
	}
	j.mu.Lock()
	defer j.mu.Unlock()
	left := stuck
	if err != nil && !errors.Is(err, store.ErrUnsure) {
		left, told = append(queue, stuck...), nil
	}
	if err == nil {
		err = why
	}
	j.queue = append(left, j.queue...)
	for _, g := range queue {
		if _, still := j.typed()[g.ref]; still {
			j.overlayAgain(g.ref)
		}
	}
	if err != nil {
		j.tryAgain(err)
		return told, &unsavedError{err}
	}
	return append(told, j.recovered()...), nil
}

// writeAll makes gathered edits in one commit.
func (j *Journal) writeAll(queue []*gathered, told *[]Changed) error {
	if len(queue) == 0 {
		return j.store.MakeSure()
	}
	_, err := j.commit(func(t *Tx) error {
		for _, g := range queue {
			did, err := g.write(t)
			if err != nil {
				return err
			}
			if did {
				*told = append(*told, Changed{Label: g.label, Refs: []Ref{g.ref}})
			}
		}
		return nil
	})
	return err
}

// write makes the gathered edits as one step of the history.
func (g *gathered) write(t *Tx) (did bool, err error) {
	before := bytes.Clone(t.st.Get(g.ref))
	if before == nil {
		return false, nil // taken away in the meantime: there is nothing to edit
	}
	after := before
	for _, apply := range g.apply {
		if after, err = apply(after); err != nil {
			return false, &stuckError{g, fmt.Errorf("%s: %w", g.label, err)}
		}
	}
	if string(after) == string(before) {
		return false, nil
	}
	if err := t.st.Set(g.ref, after); err != nil {
		return false, err
	}
	return true, t.st.Remember(store.Entry{Label: g.label, At: g.at, Typed: true,
		Edits: []store.Edit{{Ref: g.ref, Before: before, After: after}}})
}
