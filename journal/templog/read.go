package templog

import (
	"cmp"
	"context"
	"slices"
	"strconv"
	"strings"
	"time"

	"twinloaf/journal/say"
)

// Limits on what is kept for showing.
const (
	previewRows = 12
	mostPoints  = 1 << 20 // readings kept: one every minute for two years
	tick        = 2000    // rows between looks at the context and calls of progress
)

// Inspect finds out how a file is laid out and shows the first rows as they will
// be taken.
//
// Errors: [ErrNoData], [ErrNotText], [*NoColumnError], [*AmbiguousOrderError],
// [*MixedOrderError], or the context's.
func Inspect(ctx context.Context, data []byte, o Options) (Preview, error) {
	r, err := open(ctx, data, o)
	if err != nil {
		return Preview{}, err
	}
	if err := r.rows(ctx, previewRows, nil); err != nil {
		return Preview{}, err
	}
	r.log.Some = r.taken > 0
	return r.log.Preview, nil
}

// Read takes the whole log. progress, if not nil, is told now and then how many
// bytes of how many are done; it is called on the goroutine of Read.
//
// Errors: those of [Inspect], and [ErrNoData] when not one row could be taken;
// the log then tells why. Lines that cannot be taken are no error.
func Read(ctx context.Context, data []byte, o Options, progress func(done, total int)) (Log, error) {
	r, err := open(ctx, data, o)
	if err != nil {
		return Log{}, err
	}
	if err := r.rows(ctx, 0, progress); err != nil {
		return Log{}, err
	}
	r.finish()
	if len(r.log.Points) == 0 {
		return r.log, ErrNoData
	}
	return r.log, nil
}

// reader reads the rows of one file.
type reader struct {
	text     string
	layout   Layout
	place    placer
	log      Log
	notAfter time.Time // zero: whenever
	taken    int       // readings that could be taken
	stride   int       // of which one in so many is kept
}

func open(ctx context.Context, data []byte, o Options) (*reader, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	text, encoding, others, err := decode(data)
	if err != nil {
		return nil, err
	}
	l, notes, err := findLayout(text, o)
	if err != nil {
		return nil, err
	}
	l.Encoding = encoding
	if len(others) > 0 {
		notes = append(notes, otherEncoding(others))
	}
	order, note, err := findOrder(ctx, text, l, o)
	if err != nil {
		return nil, err
	}
	if note != nil {
		notes = append(notes, *note)
	}
	l.Order = order
	zone := o.Zone
	if zone == nil {
		zone = time.UTC
	}
	return &reader{
		text: text, layout: l,
		place: placer{zone: zone, fixed: o.FixedClock, order: order}, notAfter: o.NotAfter,
		log: Log{Preview: Preview{Layout: l, Notes: notes}},
	}, nil
}

// otherEncoding tells which lines were read as Windows-1252 in a file in UTF-8.
func otherEncoding(others []int) Note {
	const most = 8
	var said []string
	for _, n := range others[:min(len(others), most)] {
		said = append(said, strconv.Itoa(n))
	}
	list := strings.Join(said, ", ")
	if len(others) > most {
		list += " …"
	}
	return Note{Code: NoteEncodings, Count: len(others), Sentence: say.N(
		"Line {{.Lines}} is not in UTF-8 as the others are; it was read as Windows-1252.",
		"{{.N}} lines are not in UTF-8 as the others are; they were read as Windows-1252: {{.Lines}}.",
		len(others), say.With{"Lines": list})}
}

// keep adds a reading. When there are too many, every second one is left out, and from
// then on only as many are kept: a log of any length takes a bounded memory.
func (r *reader) keep(p Point) {
	r.taken++
	r.stride = cmp.Or(r.stride, 1)
	if (r.taken-1)%r.stride != 0 {
		return
	}
	if len(r.log.Points) == mostPoints {
		half := r.log.Points[:0]
		for i := 0; i < mostPoints; i += 2 {
			half = append(half, r.log.Points[i])
		}
		r.log.Points = half
		r.stride *= 2
		if (r.taken-1)%r.stride != 0 {
			return
		}
	}
	r.log.Points = append(r.log.Points, p)
}

// rows takes rows until the file ends or, if most is not 0, so many were seen and one of
// them, or of those that follow, could be taken.
func (r *reader) rows(ctx context.Context, most int, progress func(done, total int)) error {
	walk := lines{text: r.text}
	var fields []string
	for seen := 0; most == 0 || seen < most || r.taken == 0; {
		line, ok := walk.next()
		if !ok {
			break
		}
		if walk.n%tick == 0 {
			if err := ctx.Err(); err != nil {
				return err
			}
			if progress != nil {
				progress(walk.at, len(r.text))
			}
		}
		if walk.n < r.layout.FirstLine {
			continue
		}
		fields = split(line, r.layout.Separator, fields)
		if len(fields) == 1 && fields[0] == "" {
			continue
		}
		seen++
		point, problem := r.take(fields)
		if problem.IsZero() {
			r.keep(point)
		} else {
			r.log.Refused++
		}
		if len(r.log.Rows) < previewRows {
			r.log.Rows = append(r.log.Rows, Row{Line: walk.n, Fields: slices.Clone(fields), Point: point, Problem: problem})
		}
	}
	if progress != nil {
		progress(len(r.text), len(r.text))
	}
	return ctx.Err()
}

// take reads one row; problem says why when it cannot be taken.
func (r *reader) take(fields []string) (p Point, problem say.Line) {
	l := r.layout
	if need := max(l.Date, l.Time, l.Temp); len(fields) < need {
		return p, say.N("it has one field, and the temperature or the time is in field {{.Want}}.",
			"it has {{.N}} fields, and the temperature or the time is in field {{.Want}}.", len(fields), say.With{"Want": need})
	}
	st, ok := parseStamp(fields[l.Date-1])
	if !ok || !st.hasDate {
		return p, say.Of("{{.Field}} is not a date.", quote(fields[l.Date-1]))
	}
	if l.Time > 0 {
		clock, ok := parseStamp(fields[l.Time-1])
		if !ok || !clock.hasTime {
			return p, say.Of("{{.Field}} is not a time of day.", quote(fields[l.Time-1]))
		}
		clock.hasDate, clock.year, clock.a, clock.b, clock.settled = true, st.year, st.a, st.b, st.settled
		st = clock
	}
	if st.instant.IsZero() && !st.real(l.Order) {
		return p, noSuchDate(fields[l.Date-1], l.Order)
	}
	text := tempField(fields, l.Temp-1, l.SplitDecimal)
	v, unit, ok := parseTemp(text)
	if !ok {
		return p, say.Of("{{.Field}} is not a temperature.", quote(text))
	}
	if unit == UnitAuto {
		unit = l.Unit
	}
	p.Temp = celsius(v, unit)
	if !believable(p.Temp) {
		return Point{}, say.Of("{{.Field}} cannot be a temperature of a kitchen; the sensor may have been at fault.", quote(text))
	}
	p.At = r.place.place(st)
	if !r.notAfter.IsZero() && p.At.After(r.notAfter) {
		return Point{}, say.Of("its time is still to come.")
	}
	return p, say.Line{}
}

// noSuchDate says of a field that it is no date in the order that was found.
func noSuchDate(field string, o DateOrder) say.Line {
	switch o {
	case DayFirst:
		return say.Of("{{.Field}} is not a date with the day first.", quote(field))
	case MonthFirst:
		return say.Of("{{.Field}} is not a date with the month first.", quote(field))
	}
	return say.Of("{{.Field}} is not a date.", quote(field))
}

// quote names a field, cut short, in what is said of it.
func quote(s string) say.With {
	if s == "" {
		return say.With{"Field": say.Of("an empty field")}
	}
	if runes := []rune(s); len(runes) > 40 {
		s = string(runes[:40]) + "…"
	}
	return say.With{"Field": "“" + s + "”"}
}

// finish puts the points in order, each time once, and finds the gaps.
func (r *reader) finish() {
	g := &r.log
	byTime := func(a, b Point) int { return a.At.Compare(b.At) }
	unsorted := 0
	for i := 1; i < len(g.Points); i++ {
		if g.Points[i].At.Before(g.Points[i-1].At) {
			unsorted++
		}
	}
	if unsorted > 0 {
		slices.SortStableFunc(g.Points, byTime)
	}
	same, conflicts := 0, 0
	kept := g.Points[:0]
	for _, p := range g.Points {
		if n := len(kept); n > 0 && kept[n-1].At.Equal(p.At) {
			if kept[n-1].Temp == p.Temp {
				same++
			} else {
				conflicts++
			}
			continue
		}
		kept = append(kept, p)
	}
	g.Points = kept
	if r.stride > 1 {
		r.note(NoteThinned, r.taken, say.Of("There are {{.All}} readings, more than can be kept; one in {{.Of}} was taken, from the first to the last.",
			say.With{"All": say.Thousands(float64(r.taken)), "Of": r.stride}))
	}
	twice, skipped := r.place.twice, r.place.skipped
	r.note(NoteUnsorted, unsorted, say.N("Once a row is earlier than the one before it; the rows were put in order.",
		"{{.N}} times a row is earlier than the one before it; the rows were put in order.", unsorted))
	r.note(NoteDuplicates, same, say.N("One row is there twice; it was taken once.",
		"{{.N}} rows are there twice; each was taken once.", same))
	r.note(NoteConflicts, conflicts, say.N("One row gives a second temperature for a time already read; the first was kept.",
		"{{.N}} rows give a second temperature for a time already read; the first was kept.", conflicts))
	r.note(NoteClockTwice, twice, say.N("One row falls into the hour that came twice when summer time ended; it was taken for its second coming.",
		"{{.N}} rows fall into the hour that came twice when summer time ended; they were taken for its second coming.", twice))
	r.note(NoteClockSkipped, skipped, say.N("One row has a time that no clock showed when summer time began; if the logger does not follow summer time, say so.",
		"{{.N}} rows have a time that no clock showed when summer time began; if the logger does not follow summer time, say so.", skipped))
	g.gaps()
}

func (r *reader) note(code NoteCode, n int, words say.Line) {
	if n > 0 {
		r.log.Notes = append(r.log.Notes, Note{Code: code, Count: n, Sentence: words})
	}
}

// gaps finds the usual step, the median, and the pauses longer than two and a
// half of it.
func (g *Log) gaps() {
	if len(g.Points) < 2 {
		return
	}
	steps := make([]time.Duration, 0, len(g.Points)-1)
	for i := 1; i < len(g.Points); i++ {
		steps = append(steps, g.Points[i].At.Sub(g.Points[i-1].At))
	}
	sorted := slices.Clone(steps)
	slices.Sort(sorted)
	g.Step = sorted[len(sorted)/2]
	for i, s := range steps {
		if s > g.Step*5/2 {
			g.Gaps = append(g.Gaps, Gap{From: g.Points[i].At, To: g.Points[i+1].At})
		}
	}
}
