package journal

import "slices"

// Changed tells a listener what a change touched.
type Changed struct {
	Label string
	Refs  []Ref
	// Typed marks an edit that can be read already and will be on disk within
	// a second; the same change is told again when it is.
	Typed bool
	// Err is set when typed edits could not be written, or when the journal's file
	// has lost its place. What was typed is kept in memory and tried again by itself.
	Err error
	// Saved says that what could not be written before is on the disk now, or that
	// the file is back in its place.
	Saved bool
}

// Touches reports whether the change touched the record id.
func (c Changed) Touches(id ID) bool {
	return slices.ContainsFunc(c.Refs, func(r Ref) bool { return r.ID == id })
}

// TouchesKind reports whether the change touched a record of any of the kinds.
func (c Changed) TouchesKind(kinds ...Kind) bool {
	return slices.ContainsFunc(c.Refs, func(r Ref) bool { return slices.Contains(kinds, r.Kind) })
}

// Listen has fn called after each change, on the goroutine that made it, until
// stop is called. fn must not change the journal itself.
func (j *Journal) Listen(fn func(Changed)) (stop func()) {
	j.mu.Lock()
	defer j.mu.Unlock()
	n := j.nextHear
	j.nextHear++
	j.listeners[n] = fn
	return func() {
		j.mu.Lock()
		defer j.mu.Unlock()
		delete(j.listeners, n)
	}
}

// notify calls the listeners. It must be called with no lock of j held.
func (j *Journal) notify(c Changed) {
	j.mu.Lock()
	for _, r := range c.Refs {
		j.changes[r.Kind]++
	}
	if len(c.Refs) == 0 {
		j.changes[""]++ // of what, is not said
	}
	fns := make([]func(Changed), 0, len(j.listeners))
	for n := range j.nextHear {
		if fn, ok := j.listeners[n]; ok {
			fns = append(fns, fn)
		}
	}
	j.mu.Unlock()
	for _, fn := range fns {
		fn(c)
	}
}

// A Version tells whether records were changed: two of the same kinds are alike if none
// was in between, and the journal was not closed and opened.
type Version struct {
	j *Journal
	n int
}

// Version gives that of the records of some kinds. Who is told of a change finds a later
// one than before it.
func (j *Journal) Version(kinds ...Kind) Version {
	j.mu.Lock()
	defer j.mu.Unlock()
	v := Version{j, j.changes[""]}
	for _, k := range kinds {
		v.n += j.changes[k]
	}
	return v
}
