package templog

import (
	"strings"

	"twinloaf/journal/say"
)

// ErrNoData tells that there is no row that can be taken.
var ErrNoData = say.NewError("the file holds no row that can be taken")

// NoColumnError tells which column was looked for in vain.
type NoColumnError struct {
	What string // a column: "date and time" or "temperature"
	At   int    // a line to look at
	Text string
}

func (e *NoColumnError) Error() string { return e.Line().String() }

// Line says it in a sentence.
func (e *NoColumnError) Line() say.Line {
	with := say.With{"Line": e.At, "Text": e.Text}
	if e.What == temperature {
		return say.Of("no column of temperature was found; line {{.Line}} reads “{{.Text}}”. Choose the separator and the columns by hand", with)
	}
	return say.Of("no column of date and time was found; line {{.Line}} reads “{{.Text}}”. Choose the separator and the columns by hand", with)
}

// What is looked for.
const (
	dateAndTime = "date and time"
	temperature = "temperature"
)

// sampleLines is how many lines the layout is read off.
const sampleLines = 500

// sampled is one line of the sample under one separator.
type sampled struct {
	line   int
	fields []string
}

// separators in the order in which they are preferred where several serve alike.
var separators = []rune{';', '\t', ',', '|', ' '}

// findLayout tries every separator and keeps the one under which most lines hold
// a time and a temperature.
func findLayout(text string, o Options) (Layout, []Note, error) {
	raw := sample(text)
	if len(raw) == 0 {
		return Layout{}, nil, ErrNoData
	}
	try := separators
	if o.Separator != 0 {
		try = []rune{o.Separator}
	}
	var best columns
	for _, sep := range try {
		rows := make([]sampled, len(raw))
		for i, r := range raw {
			rows[i] = sampled{r.line, split(r.fields[0], sep, nil)}
		}
		c := findColumns(rows, sep, o)
		if c.score > best.score || (best.rows == nil && c.dated >= best.dated) {
			best = c
		}
	}
	if best.score == 0 {
		what, at := dateAndTime, raw[len(raw)/2]
		if best.dated > 0 {
			what = temperature
		}
		shown := at.fields[0]
		if len([]rune(shown)) > 80 {
			shown = string([]rune(shown)[:80]) + "…"
		}
		return Layout{}, nil, &NoColumnError{What: what, At: at.line, Text: shown}
	}
	l, notes := best.layout(o)
	return l, notes, nil
}

// sample is the first lines that are not blank, each in one field.
func sample(text string) []sampled {
	var out []sampled
	for l := (lines{text: text}); len(out) < sampleLines; {
		line, ok := l.next()
		if !ok {
			break
		}
		if strings.TrimSpace(line) != "" {
			out = append(out, sampled{l.n, []string{line}})
		}
	}
	return out
}

// columns are the columns found under one separator, from 0; time is -1 where
// the date column holds it.
type columns struct {
	rows             []sampled
	sep              rune
	date, time, temp int
	dated            int // rows with a date
	score            int // rows with a time and a temperature
	splitDecimal     bool
	others           []int // further columns headed as temperatures
	timeless         bool  // dates only
}

func findColumns(rows []sampled, sep rune, o Options) columns {
	c := columns{rows: rows, sep: sep, time: o.Time - 1, temp: -1}
	both := 0
	c.date, c.dated, both = dateColumn(rows, o.Date-1)
	if c.dated == 0 {
		return c
	}
	if c.time < 0 && both*2 < c.dated {
		if c.time = timeColumn(rows, c.date); c.time < 0 {
			c.timeless = true
		}
	}
	data := c.dataRows()
	c.splitDecimal = splitDecimal(rows, data, c, o)
	c.findTemp(data, o)
	return c
}

// dateColumn is the column with most dates, how many, and how many of them with
// a time of day.
func dateColumn(rows []sampled, chosen int) (col, dated, both int) {
	var dates, times []int
	for _, r := range rows {
		for i, f := range r.fields {
			if i >= len(dates) {
				dates, times = append(dates, 0), append(times, 0)
			}
			if st, ok := parseStamp(f); ok && st.hasDate {
				dates[i]++
				if st.hasTime {
					times[i]++
				}
			}
		}
	}
	if chosen >= 0 {
		if chosen < len(dates) {
			return chosen, dates[chosen], times[chosen]
		}
		return chosen, 0, 0
	}
	for i := range dates {
		if dates[i] > dated || (dates[i] == dated && times[i] > both) {
			col, dated, both = i, dates[i], times[i]
		}
	}
	return col, dated, both
}

func timeColumn(rows []sampled, date int) int {
	var counts []int
	for _, r := range rows {
		for i, f := range r.fields {
			if i >= len(counts) {
				counts = append(counts, 0)
			}
			if st, ok := parseStamp(f); ok && st.hasTime && !st.hasDate && i != date {
				counts[i]++
			}
		}
	}
	best := -1
	for i, n := range counts {
		if n > 0 && (best < 0 || n > counts[best]) {
			best = i
		}
	}
	return best
}

// dataRows are the rows with a date in its column.
func (c columns) dataRows() []sampled {
	var out []sampled
	for _, r := range c.rows {
		if c.date < len(r.fields) {
			if st, ok := parseStamp(r.fields[c.date]); ok && st.hasDate {
				out = append(out, r)
			}
		}
	}
	return out
}

// splitDecimal says whether a comma-separated file has unquoted decimal commas:
// each row has one field more than its heading.
func splitDecimal(rows, data []sampled, c columns, o Options) bool {
	if c.sep != ',' || len(data) == 0 || o.Temp > 0 {
		return false
	}
	head := c.heading(data[0].line)
	if len(head) == 0 {
		return false
	}
	for _, r := range data {
		if len(r.fields) != len(head)+1 {
			return false
		}
	}
	return len(rows) > len(data)
}

// findTemp picks the column of figures that looks most like temperatures.
func (c *columns) findTemp(data []sampled, o Options) {
	head := []string(nil)
	if len(data) > 0 {
		head = c.heading(data[0].line)
	}
	widest := 0
	for _, r := range data {
		widest = max(widest, len(r.fields))
	}
	bestRank := -100
	for col := range widest {
		if col == c.date || col == c.time || (o.Temp > 0 && col != o.Temp-1) {
			continue
		}
		figures, counter := figuresIn(data, col, c.splitDecimal)
		if figures == 0 || (o.Temp == 0 && figures*4 < len(data)) {
			continue
		}
		rank := 0
		if col < len(head) {
			rank = headingRank(head[col])
		}
		if counter {
			rank -= 2
		}
		if rank >= 3 && c.temp >= 0 && bestRank >= 3 {
			c.others = append(c.others, col)
		}
		if rank > bestRank {
			bestRank, c.temp, c.score = rank, col, figures
		}
		if c.splitDecimal {
			break // the columns behind have moved: only the first figure is sure
		}
	}
}

// figuresIn counts the believable figures of a column, and says whether it just
// counts the rows.
func figuresIn(data []sampled, col int, joined bool) (n int, counter bool) {
	counter = len(data) > 3
	last := 0.0
	for i, r := range data {
		if col >= len(r.fields) {
			continue
		}
		v, _, ok := parseTemp(tempField(r.fields, col, joined))
		if !ok {
			continue
		}
		if v > -80 && v < 305 { // °C or °F
			n++
		}
		counter = counter && (i == 0 || v == last+1)
		last = v
	}
	return n, counter
}

// tempField is the field of the temperature, put together again where its decimal
// comma has split it.
func tempField(fields []string, col int, joined bool) string {
	if joined && col+1 < len(fields) {
		return fields[col] + "," + fields[col+1]
	}
	return fields[col]
}

// layout puts what was found into the form that is shown.
func (c columns) layout(o Options) (Layout, []Note) {
	data := c.dataRows()
	l := Layout{
		Separator: c.sep, FirstLine: data[0].line, Heading: c.heading(data[0].line),
		Date: c.date + 1, Time: c.time + 1, Temp: c.temp + 1, SplitDecimal: c.splitDecimal,
	}
	for _, r := range data {
		l.Columns = max(l.Columns, len(r.fields))
	}
	var notes []Note
	unit, note := c.unit(data, l, o)
	l.Unit = unit
	if note.Code != "" {
		notes = append(notes, note)
	}
	if c.timeless {
		notes = append(notes, Note{Code: NoteNoTimeOfDay, Sentence: say.Of("The rows have a date and no time of day; they are taken for midnight.")})
	}
	if c.splitDecimal {
		notes = append(notes, Note{Code: NoteSplitDecimal, Sentence: say.Of("The decimal comma is also the separator: two fields are taken together as one temperature.")})
	}
	if len(c.others) > 0 {
		notes = append(notes, Note{Code: NoteManyColumns, Count: len(c.others) + 1,
			Sentence: say.Of("There are {{.N}} columns of temperature; column {{.Taken}} is taken.", say.With{"N": len(c.others) + 1, "Taken": l.Temp})})
	}
	return l, notes
}

// unit reads the unit off the options, the fields, the heading or, failing all, the
// size of the figures.
func (c columns) unit(data []sampled, l Layout, o Options) (Unit, Note) {
	if o.Unit != UnitAuto {
		return o.Unit, Note{}
	}
	sum, n := 0.0, 0.0
	for _, r := range data {
		if c.temp >= len(r.fields) {
			continue
		}
		v, u, ok := parseTemp(tempField(r.fields, c.temp, c.splitDecimal))
		if ok && u != UnitAuto {
			return u, Note{}
		}
		if ok {
			sum, n = sum+v, n+1
		}
	}
	if c.temp < len(l.Heading) {
		if u := headingUnit(l.Heading[c.temp]); u != UnitAuto {
			return u, Note{}
		}
	}
	// Loggers also name the unit once, in the lines above the rows.
	for _, r := range c.rows {
		if r.line >= l.FirstLine {
			break
		}
		if u := headingUnit(strings.Join(r.fields, " ")); u != UnitAuto {
			return u, Note{}
		}
	}
	u := DegreesC
	if sum/max(n, 1) > 45 { // no kitchen is that warm in °C
		u = DegreesF
	}
	return u, Note{Code: NoteUnitGuessed, Sentence: say.Of("The file does not name its unit; by the size of the figures ({{.Mean}} on average) they are taken for {{.Unit}}.",
		say.With{"Mean": say.Number{Value: sum / max(n, 1)}, "Unit": u})}
}
