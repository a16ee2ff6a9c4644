package journal

import (
	"errors"
	"fmt"

	"twinloaf/journal/store"
)

// Do makes one change: everything that fn writes goes to disk together with
// its indexes and the step that undoes it, or, when fn or the disk fails,
// nothing does. The label names the change to the baker, as in "undo LABEL".
func (j *Journal) Do(label string, fn func(tx *Tx) error) error {
	return j.do(label, &store.Entry{Label: label}, fn)
}

// DoWithoutUndo makes a change that is not to be undone, such as a score that was
// handed in.
func (j *Journal) DoWithoutUndo(label string, fn func(tx *Tx) error) error {
	return j.do(label, nil, fn)
}

// do makes a change, and step of the history of it; nil makes none.
func (j *Journal) do(label string, step *store.Entry, fn func(tx *Tx) error) error {
	refs, err := j.writing(func(t *Tx) error {
		if err := fn(t); err != nil {
			return err
		}
		if edits := t.st.Edits(); step != nil && len(edits) > 0 {
			step.At, step.Edits = j.Now(), edits
			return t.st.Remember(*step)
		}
		return nil
	})
	if len(refs) > 0 {
		j.notify(Changed{Label: label, Refs: refs})
	}
	if err != nil {
		return fmt.Errorf("%s: %w", label, err)
	}
	return nil
}

// writing commits what was typed, then what fn writes, and gives the records that
// fn touched. The lock is let go even if fn panics: the journal stays usable, and
// can be closed.
func (j *Journal) writing(fn func(t *Tx) error) ([]Ref, error) {
	var told []Changed
	refs, err := func() (refs []Ref, err error) {
		j.write.Lock()
		defer j.write.Unlock()
		if j.Closed() {
			return nil, ErrClosed
		}
		told, err = j.flushLocked()
		if _, stuck := errors.AsType[*stuckError](err); err != nil && !stuck && !errors.Is(err, store.ErrUnsure) {
			// What was typed comes first. It says for itself that it is kept.
			return nil, errors.Unwrap(err)
		}
		return j.commit(fn)
	}()
	for _, c := range told {
		j.notify(c)
	}
	return refs, err
}

// errNothing rolls back a transaction that turned out to change nothing, which
// spares the disk a commit.
var errNothing = errors.New("nothing changed")

// commit runs fn in one writing transaction, brings the shelf's summaries up to
// what it wrote, and gives the records that it touched. The caller holds write.
func (j *Journal) commit(fn func(t *Tx) error) ([]Ref, error) {
	var refs []Ref
	var summaries []summaryChange
	err := j.store.Update(func(st *store.Tx) error {
		t := &Tx{st: st, j: j}
		if err := fn(t); err != nil {
			return err
		}
		edits := st.Edits()
		if len(edits) == 0 && !t.secret {
			return errNothing
		}
		for _, e := range edits {
			refs = append(refs, e.Ref)
		}
		for id := range t.reindex {
			refs = append(refs, Ref{Kind: KindBake, ID: id})
		}
		refs = append(refs, t.derived...)
		var err error
		summaries, err = reindex(t, edits)
		return err
	})
	if errors.Is(err, errNothing) {
		return nil, nil
	}
	if err != nil && !errors.Is(err, store.ErrUnsure) {
		return nil, err
	}
	j.applyCommit(refs, summaries) // a change that the disk is unsure of is there, too
	return refs, err
}

// applyCommit brings what is kept in memory up to a commit.
func (j *Journal) applyCommit(refs []Ref, summaries []summaryChange) {
	j.mu.Lock()
	defer j.mu.Unlock()
	if j.summaries != nil {
		j.summaries.apply(summaries)
	}
	for _, ref := range refs {
		if _, typed := j.typed()[ref]; typed {
			j.overlayAgain(ref)
		}
	}
}
