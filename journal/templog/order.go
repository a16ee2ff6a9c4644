package templog

import (
	"context"
	"strings"
	"time"

	"twinloaf/journal/say"
)

// MixedOrderError tells that the file puts the day first on one line and the month
// first on another.
type MixedOrderError struct {
	DayLine, MonthLine int
}

func (e *MixedOrderError) Error() string { return e.Line().String() }

// Line says it in a sentence.
func (e *MixedOrderError) Line() say.Line {
	return say.Of("line {{.Day}} has the day first and line {{.Month}} the month first; the file cannot be read as it is", say.With{"Day": e.DayLine, "Month": e.MonthLine})
}

// findOrder tells day from month by the dates of the whole file: by a number above
// 12, by rows that would be later than they can be, or by the steps from row to
// row. Dates that leave no doubt give OrderAuto.
func findOrder(ctx context.Context, text string, l Layout, o Options) (DateOrder, *Note, error) {
	if o.Order != OrderAuto {
		return o.Order, nil, nil
	}
	e := evidence{notAfter: o.NotAfter}
	var fields []string
	walk := lines{text: text}
	last := ""
	for {
		line, ok := walk.next()
		if !ok {
			break
		}
		if walk.n%4096 == 0 && ctx.Err() != nil {
			return OrderAuto, nil, ctx.Err()
		}
		if walk.n < l.FirstLine {
			continue
		}
		fields = split(line, l.Separator, fields)
		if l.Date > len(fields) {
			continue
		}
		field := fields[l.Date-1]
		if len(field) >= 6 && len(last) >= 6 && sameDate(field, last) {
			continue
		}
		last = field
		if st, ok := parseStamp(field); ok && st.hasDate && !st.settled && st.instant.IsZero() {
			e.see(walk.n, field, st)
		}
	}
	return e.decide()
}

// sameDate says that two fields agree up to their time of day, so that a long log
// is not parsed twice over.
func sameDate(a, b string) bool {
	for i := 0; i < len(a) && i < len(b); i++ {
		if a[i] != b[i] {
			return i >= 8 && a[:i] == b[:i] && strings.ContainsAny(a[:i], " T")
		}
	}
	return a == b
}

// evidence gathers what speaks for either order.
type evidence struct {
	notAfter             time.Time
	dayLine, monthLine   int // first line that can only be read so
	daySteps, monthSteps float64
	lateDay, lateMonth   bool
	lastDay, lastMonth   time.Time
	doubtLine            int
	doubtText            string
	doubt                stamp
}

func (e *evidence) see(line int, text string, st stamp) {
	day, month := st.real(DayFirst), st.real(MonthFirst)
	switch {
	case day && !month && e.dayLine == 0:
		e.dayLine = line
	case month && !day && e.monthLine == 0:
		e.monthLine = line
	}
	if day && month && st.a != st.b && e.doubtLine == 0 {
		e.doubtLine, e.doubtText, e.doubt = line, text, st
	}
	if day {
		e.daySteps, e.lastDay = step(e.daySteps, e.lastDay, at(st, DayFirst))
		e.lateDay = e.lateDay || (!e.notAfter.IsZero() && at(st, DayFirst).After(e.notAfter.Add(24*time.Hour)))
	}
	if month {
		e.monthSteps, e.lastMonth = step(e.monthSteps, e.lastMonth, at(st, MonthFirst))
		e.lateMonth = e.lateMonth || (!e.notAfter.IsZero() && at(st, MonthFirst).After(e.notAfter.Add(24*time.Hour)))
	}
}

func step(sum float64, last, now time.Time) (float64, time.Time) {
	if !last.IsZero() {
		d := now.Sub(last).Hours()
		if d < 0 {
			d = -2 * d // logs go forward
		}
		sum += d
	}
	return sum, now
}

// at is the date of a stamp as midnight in UTC, for comparing only.
func at(st stamp, o DateOrder) time.Time {
	m, d := st.date(o)
	return time.Date(st.year, time.Month(m), d, 0, 0, 0, 0, time.UTC)
}

func (e *evidence) decide() (DateOrder, *Note, error) {
	switch {
	case e.dayLine > 0 && e.monthLine > 0:
		return OrderAuto, nil, &MixedOrderError{DayLine: e.dayLine, MonthLine: e.monthLine}
	case e.dayLine > 0:
		return DayFirst, nil, nil
	case e.monthLine > 0:
		return MonthFirst, nil, nil
	case e.doubtLine == 0:
		return OrderAuto, nil, nil
	case e.lateDay != e.lateMonth:
		if e.lateDay {
			return MonthFirst, nil, nil
		}
		return DayFirst, nil, nil
	case e.monthSteps > 5*e.daySteps && e.daySteps > 0:
		return DayFirst, bySteps(DayFirst), nil
	case e.daySteps > 5*e.monthSteps && e.monthSteps > 0:
		return MonthFirst, bySteps(MonthFirst), nil
	}
	return OrderAuto, nil, &AmbiguousOrderError{At: e.doubtLine, Text: e.doubtText, AsDay: at(e.doubt, DayFirst), AsMonth: at(e.doubt, MonthFirst)}
}

func bySteps(o DateOrder) *Note {
	words := say.Of("Read with the day first, the rows follow each other day by day; read the other way they would jump by months.")
	if o == MonthFirst {
		words = say.Of("Read with the month first, the rows follow each other day by day; read the other way they would jump by months.")
	}
	return &Note{Code: NoteOrderBySteps, Sentence: words}
}
