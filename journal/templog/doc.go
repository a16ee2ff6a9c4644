// Package templog reads temperature logs: the CSV files that data loggers of all
// makes write. It finds out how a file is laid out (encoding, separator, heading,
// columns, order of day and month, °C or °F), says what it found and why so that
// it can be shown before anything is taken, and then reads the rows.
//
// Everything found can be chosen instead, by [Options]. Nothing is guessed in
// silence: what the file does not settle is a [Note], or, where a wrong guess would
// put every row on another day, an [AmbiguousOrderError].
//
// The package is pure: bytes in, points out. It opens no file and reads no clock.
package templog

import (
	"fmt"
	"time"

	"twinloaf/journal/formula"
	"twinloaf/journal/say"
)

// Celsius are the degrees that a dough has too.
type Celsius = formula.Celsius

// Point is one row taken.
type Point struct {
	At   time.Time
	Temp Celsius
}

// Unit is the unit of the temperatures in a file.
type Unit int

// The units. The zero value finds out.
const (
	UnitAuto Unit = iota
	DegreesC
	DegreesF
)

// String is the sign of the unit.
func (u Unit) String() string {
	return [...]string{"unknown", "°C", "°F"}[min(max(u, 0), 2)]
}

// DateOrder is the order of day, month and year where the year is not first.
type DateOrder int

// The orders. The zero value finds out.
const (
	OrderAuto  DateOrder = iota
	DayFirst             // 25/11/2026
	MonthFirst           // 11/25/2026
)

// Options say what the caller has chosen. The zero value finds everything out and
// takes times without an offset for UTC.
type Options struct {
	Separator rune // 0 finds it
	Date      int  // column of date, or of date and time, from 1; 0 finds it
	Time      int  // column of the time of day, if apart
	Temp      int  // column of the temperature
	Order     DateOrder
	Unit      Unit
	Zone      *time.Location // of times without an offset; nil is UTC

	// FixedClock is for loggers that do not follow summer time: the offset of the
	// first row holds for all.
	FixedClock bool

	// NotAfter, if set, is the time now: a row that is later is not taken, and day and month
	// are told apart by it.
	NotAfter time.Time
}

// Layout is how a file is laid out. Columns count from 1; Time is 0 where the date
// column holds the time as well.
type Layout struct {
	Encoding         string
	Separator        rune
	Heading          []string // the row of headings, nil if there is none
	FirstLine        int      // line number of the first row of data
	Columns          int
	Date, Time, Temp int
	Order            DateOrder // OrderAuto where every date puts its year first, or day equals month
	Unit             Unit
	SplitDecimal     bool // an unquoted decimal comma in a comma-separated file: two fields are one figure
}

// Row is one line as it stands in the file and as it will be taken.
type Row struct {
	Line    int
	Fields  []string
	Point   Point
	Problem say.Line // why it is not taken; says nothing if it is
}

// Preview is what is shown before a log is taken.
type Preview struct {
	Layout Layout
	Rows   []Row  // the first rows of data
	Notes  []Note // what was guessed, and on what grounds
	Some   bool   // a row at least can be taken
}

// NoteCode names what a note is about.
type NoteCode string

// The notes.
const (
	NoteUnitGuessed  NoteCode = "unit guessed"
	NoteOrderBySteps NoteCode = "day and month told by the steps"
	NoteNoTimeOfDay  NoteCode = "no time of day"
	NoteSplitDecimal NoteCode = "decimal comma in a comma-separated file"
	NoteManyColumns  NoteCode = "more than one temperature"
	NoteClockSkipped NoteCode = "times that no clock showed"
	NoteClockTwice   NoteCode = "hour that came twice"
	NoteUnsorted     NoteCode = "rows out of order"
	NoteDuplicates   NoteCode = "rows twice"
	NoteConflicts    NoteCode = "two temperatures at one time"
	NoteEncodings    NoteCode = "lines in another encoding"
	NoteThinned      NoteCode = "readings left out"
)

// Note is something the reader of a preview should know.
type Note struct {
	Code     NoteCode
	Count    int // of rows, where it counts
	Sentence say.Line
}

// Gap is a pause between rows of more than twice and a half the usual step.
type Gap struct {
	From, To time.Time
}

// Log is a log that was read: points in order of time, each time once.
type Log struct {
	Preview
	Points  []Point
	Step    time.Duration // usual time between rows
	Gaps    []Gap
	Refused int // lines not taken
}

// AmbiguousOrderError tells that the file does not settle whether the day or the
// month comes first. The caller has to ask, and choose Options.Order.
type AmbiguousOrderError struct {
	At             int // line
	Text           string
	AsDay, AsMonth time.Time // of the line, read either way
}

func (e *AmbiguousOrderError) Error() string {
	return fmt.Sprintf("line %d: %s", e.At, e.Line())
}

// Line says it in a sentence.
func (e *AmbiguousOrderError) Line() say.Line {
	return say.Of("“{{.Text}}” may be {{.AsDay}} or {{.AsMonth}}, and nothing in the file settles it: choose the order.",
		say.With{"Text": e.Text, "AsDay": say.Moment{At: e.AsDay, As: say.Date}, "AsMonth": say.Moment{At: e.AsMonth, As: say.Date}})
}
