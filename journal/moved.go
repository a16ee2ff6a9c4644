package journal

import (
	"errors"

	"twinloaf/journal/store"
)

// Errors of a journal whose file is no longer in its place.
var (
	ErrGone     = store.ErrGone
	ErrReplaced = store.ErrReplaced
)

// Moved tells whether the file of records has lost its place: [ErrGone] when its
// folder or it is gone, [ErrReplaced] when another file has been put there. The
// journal can still be read, what is typed is kept in memory, and nothing else can be
// changed until the file is back.
func (j *Journal) Moved() error { return j.store.Moved() }

// look looks again and again whether the file is in its place, and tells when that
// has changed.
func (j *Journal) look() {
	now := j.store.Moved()
	j.mu.Lock()
	if j.closed {
		j.mu.Unlock()
		return
	}
	was := j.moved
	j.moved = now
	j.watching.Reset(j.opt.LookEvery)
	j.mu.Unlock()
	switch {
	case now != nil && (was == nil || errors.Is(now, ErrGone) != errors.Is(was, ErrGone)):
		j.notify(Changed{Err: now})
	case now == nil && was != nil:
		if j.Flush() == nil {
			j.notify(Changed{Saved: true})
		}
	case j.store.Stale() && j.Trouble() == nil: // with trouble it is tried already
		j.flushLater()
	}
}
