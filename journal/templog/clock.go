package templog

import "time"

// placer puts times of day into a zone, row by row in the order of the file.
type placer struct {
	zone    *time.Location
	fixed   bool
	order   DateOrder
	last    time.Time
	onward  int // rows later than the one before them, less those earlier: below 0 the newest come first
	skipped int // times that no clock of the zone showed
	twice   int // times of the repeated hour taken for its second coming
}

// place turns a stamp into a time. In the hour that comes twice when summer time
// ends, a clock that has not moved on since the row before is in its second coming, and in
// a file with the newest first one that has not moved back is in its first.
// A time that the clock jumped over when summer time began is moved on by the jump.
func (p *placer) place(st stamp) time.Time {
	if !st.instant.IsZero() {
		p.last = st.instant
		return st.instant
	}
	month, day := st.date(p.order)
	zone := p.zone
	if st.hasOffset {
		zone = time.FixedZone("", st.offset)
	}
	t := time.Date(st.year, time.Month(month), day, st.hour, st.minute, st.second, st.nano, zone)
	if !st.hasOffset {
		t = p.settle(t, st)
		if p.fixed && p.last.IsZero() {
			_, offset := t.Zone()
			p.zone = time.FixedZone("", offset)
		}
	}
	if !p.last.IsZero() {
		p.onward += t.Compare(p.last)
	}
	p.last = t
	return t
}

// settle deals with the hours around a change of the clock.
func (p *placer) settle(t time.Time, st stamp) time.Time {
	_, before := t.Add(-4 * time.Hour).Zone()
	_, after := t.Add(4 * time.Hour).Zone()
	if before == after {
		return t
	}
	wall := time.Date(t.Year(), t.Month(), t.Day(), st.hour, st.minute, st.second, st.nano, time.UTC)
	first, second := wall.Add(-time.Duration(before)*time.Second).In(p.zone), wall.Add(-time.Duration(after)*time.Second).In(p.zone)
	shows := func(u time.Time) bool { return u.Hour() == st.hour && u.Minute() == st.minute }
	switch {
	case shows(first) && shows(second):
		late := !p.last.IsZero() && !first.After(p.last)
		if p.onward < 0 {
			late = second.Before(p.last)
		}
		if !late {
			return first
		}
		p.twice++
		return second
	case !shows(first) && !shows(second):
		p.skipped++
		return first
	}
	return t
}
