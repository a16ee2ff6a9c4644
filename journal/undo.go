package journal

import "twinloaf/journal/store"

// Undo takes back the last change and tells what it was called. Changes before it
// that can no longer be taken back are stepped past and named by a [*Skipped]; the
// next Undo goes on behind them.
func (j *Journal) Undo() (label string, err error) { return j.step(true) }

// Redo makes the change again that was undone last.
func (j *Journal) Redo() (label string, err error) { return j.step(false) }

// A Skipped names changes that can no longer be undone.
type Skipped = store.Skipped

func (j *Journal) step(back bool) (label string, err error) {
	var skipped []string
	refs, err := j.writing(func(t *Tx) (err error) {
		t.secret = true // the way is kept, though perhaps no record changes
		label, skipped, err = t.st.Walk(back)
		return err
	})
	if len(refs) > 0 {
		j.notify(Changed{Label: label, Refs: refs})
	}
	if err == nil && len(skipped) > 0 {
		return "", &Skipped{Labels: skipped}
	}
	return label, err
}

// Steps tells what undo and redo would take back or make again; an empty
// label means that there is nothing.
func (j *Journal) Steps() (undo, redo string) {
	j.mu.Lock()
	typed := ""
	if n := len(j.queue); n > 0 {
		typed = j.queue[n-1].label
	}
	j.mu.Unlock()
	_ = j.store.View(func(st *store.Tx) error {
		undo, redo = st.Steps()
		return nil
	})
	if typed != "" {
		return typed, ""
	}
	return undo, redo
}
