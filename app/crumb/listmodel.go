package crumb

import (
	"slices"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/crumb"
	"twinloaf/journal/measure"
)

// A state says how far the measuring of a photo has come.
type state int

const (
	unmeasured state = iota
	lost             // its slice was not found: it wants an outline by hand
	measured
)

// An entry is one crumb photo in the list.
type entry struct {
	photo *journal.Photo
	owner string
	state state
	s     crumb.Summary
}

// entriesOf lists every crumb photo, newest first. It reads them all, and is meant
// for another goroutine.
func entriesOf(j journal.Source) ([]entry, error) {
	photos, err := journal.All[journal.Photo](j)
	if err != nil {
		return nil, err
	}
	var out []entry
	for _, ph := range photos {
		if ph.Role != journal.RoleCrumb {
			continue
		}
		e := entry{photo: ph, owner: ownerName(j, ph)}
		s, ok, err := journal.CrumbMeasures(j, ph)
		if err != nil {
			return nil, err
		}
		if ok {
			e = e.with(s)
		}
		out = append(out, e)
	}
	slices.SortStableFunc(out, func(a, b entry) int { return b.photo.When().Compare(a.photo.When()) })
	return out, nil
}

// with is the entry once it has been measured.
func (e entry) with(s crumb.Summary) entry {
	e.s, e.state = s, measured
	if len(s.Outline) == 0 {
		e.state = lost
	}
	return e
}

// item is how an entry stands in the list.
func (e entry) item(u measure.Units) kit.PhotoItem {
	it := kit.PhotoItem{Key: e.photo.Hash, Title: e.owner}
	open := e.s.Measured(crumb.Porosity)
	share := map[string]any{"Share": pages.OpenShare(open, u)}
	switch {
	case e.state == unmeasured:
		it.Sub = lang.L("not measured yet")
	case e.state == lost:
		it.Sub = lang.L("needs its outline drawn")
	case open.Trust == crumb.Withheld:
		it.Sub = lang.L("too poor to measure")
	case open.Trust == crumb.Doubtful:
		it.Sub = lang.L("perhaps {{.Share}} % open", share)
	default:
		it.Sub = lang.L("{{.Share}} % open", share)
	}
	return it
}

// counts tells how many entries are in each state.
func counts(all []entry) (out [3]int) {
	for _, e := range all {
		out[e.state]++
	}
	return out
}

// waiting lists the photos that have not been measured.
func waiting(all []entry) []*journal.Photo {
	var out []*journal.Photo
	for _, e := range all {
		if e.state == unmeasured {
			out = append(out, e.photo)
		}
	}
	return out
}

// shownOf are the entries in one of the states; -1 stands for all.
func shownOf(all []entry, which int) []entry {
	if which < 0 {
		return all
	}
	return slices.DeleteFunc(slices.Clone(all), func(e entry) bool { return e.state != state(which) })
}

// listHeading says how many photos wait.
func listHeading(all []entry) string {
	n := counts(all)
	switch {
	case len(all) == 0:
		return lang.L("No crumb photo yet")
	case n[unmeasured] == 1:
		return lang.L("One crumb photo waits to be measured")
	case n[unmeasured] > 1:
		return lang.L("{{.N}} crumb photos wait to be measured", map[string]any{"N": n[unmeasured]})
	case n[lost] == 1:
		return lang.L("One slice needs its outline drawn")
	case n[lost] > 1:
		return lang.L("{{.N}} slices need their outline drawn", map[string]any{"N": n[lost]})
	}
	return lang.L("Every crumb photo is measured")
}
