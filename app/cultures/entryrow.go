package cultures

import (
	"strings"
	"unicode/utf8"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/histories"
	"twinloaf/journal/measure"
)

// entryColumns are the widths of the columns of a list of entries; nought for those in
// which nothing stands.
type entryColumns struct {
	day, clock, what float32
	figure, unit     [figureCount]float32
}

// columnsOf makes the columns as wide as the longest that stands in each.
func columnsOf(entries []entry, u measure.Units) entryColumns {
	var day, clock, what string
	figures := entryFigures{}
	for _, e := range entries {
		day, clock, what = longer(day, e.day), longer(clock, e.clock), longer(what, e.what)
		for k, f := range e.figures {
			figures[k] = longer(figures[k], f)
		}
	}
	wide := func(s kit.Span) float32 { return s.Extent().Width }
	// Letters are of many widths, digits of one: what is longest may not be widest.
	c := entryColumns{day: wide(kit.Span{Text: day}) + look.Space(2), clock: wide(kit.Span{Text: clock}), what: wide(kit.Span{Text: what, Bold: true}) + look.Space(2)}
	for k, unit := range figureUnits(u) {
		if figures[k] == "" {
			continue
		}
		over := wide(kit.Span{Text: figureHead(k), Size: look.TextSmall})
		if unit != "" { // the head stands over both
			c.unit[k] = wide(kit.Span{Text: unit, Size: look.TextSmall})
			over -= look.Space(1) + c.unit[k]
		}
		c.figure[k] = max(wide(kit.Span{Text: figures[k]}), over)
	}
	return c
}

func longer(a, b string) string {
	if utf8.RuneCountInString(b) > utf8.RuneCountInString(a) {
		return b
	}
	return a
}

// figureHead is what stands over a column of figures.
func figureHead(k int) string {
	return [figureCount]string{keptFigure: lang.L("kept"), flourFigure: lang.L("flour"), waterFigure: lang.L("water"),
		riseFigure: lang.L("rise"), warmthFigure: lang.L("temperature"), acidFigure: "pH"}[k]
}

// entryRow is a row of the list of everything: the day where it changes, the clock, what
// it is, its figures, and what is said besides.
type entryRow struct {
	widget.BaseWidget
	columns         *entryColumns
	rule            fyne.CanvasObject // above the first of a day
	day, what, said *kit.Elided
	clock           *kit.Text
	figures, units  [figureCount]*kit.Text
	besides         kit.Span // what is said
	folded          string   // of the figures that have no column in a narrow list
}

func newEntryRow(columns *entryColumns) *entryRow {
	r := &entryRow{columns: columns, rule: kit.Rule(), day: kit.NewElided(kit.Span{}), what: kit.NewElided(kit.Span{}), said: kit.NewElided(kit.Span{}), clock: kit.NewLine(kit.Span{})}
	r.rule.Hide()
	for k := range r.figures {
		r.figures[k], r.units[k] = kit.NewLine(kit.Span{}), kit.NewLine(kit.Span{})
	}
	r.ExtendBaseWidget(r)
	return r
}

// setHeads makes the row the heads of the columns.
func (r *entryRow) setHeads() {
	for k := range r.figures {
		r.figures[k].SetSpans(kit.Span{Text: figureHead(k), Size: look.TextSmall, Color: look.ColorFaint})
	}
	r.Refresh()
}

// set shows an entry, with its day where that changes; first says that it is the first of
// its day, and not of all.
func (r *entryRow) set(e entry, day string, first bool, u measure.Units) {
	ink := look.ColorInk
	if e.alarm {
		ink = look.ColorEmber
	}
	kit.SetVisible(r.rule, first)
	r.day.SetSpan(kit.Span{Text: day, Color: look.ColorFaint})
	r.clock.SetSpans(kit.Span{Text: e.clock, Color: look.ColorFaint})
	r.what.SetSpan(kit.Span{Text: e.what, Color: ink, Bold: e.sort == fedEntry})
	r.besides = kit.Span{Text: e.said, Color: ink}
	r.folded = e.weights
	if acid := e.figures[acidFigure]; acid != "" {
		r.folded = "pH\u00a0" + acid
	}
	for k, unit := range figureUnits(u) {
		if e.figures[k] == "" {
			unit = ""
		}
		r.figures[k].SetText(e.figures[k])
		r.units[k].SetSpans(kit.Span{Text: unit, Size: look.TextSmall, Color: look.ColorFaint})
	}
	r.Refresh()
}

func (r *entryRow) CreateRenderer() fyne.WidgetRenderer {
	objects := []fyne.CanvasObject{r.rule, r.day, r.clock, r.what, r.said}
	for k := range r.figures {
		objects = append(objects, r.figures[k], r.units[k])
	}
	return &kit.Drawing{Of: r, Things: objects, Lay: r.lay, Least: func() fyne.Size { return fyne.NewSize(look.Space(60), entryLine()) }}
}

// entryLine is the height of a line of a row.
func entryLine() float32 { return kit.Span{Text: "x"}.Extent().Height }

// leastSaid is the room that what is said besides has at least: the columns of a feeding's
// weights and of the few figures of acid give way to it, and are said there. Where it would have
// less than tightSaid even so, it stands on a line of its own below the others; and where those
// have no room for the temperature, that is said there as well, last.
const (
	leastSaid = 150
	tightSaid = 200
)

// room is what the columns leave of a width, and whether those that give way do so there.
func (c *entryColumns) room(width float32) (left float32, narrow bool) {
	gap := look.Space(5)
	left = width - c.day - look.Space(3) - c.clock - gap - c.what
	for k := range c.figure {
		left -= c.taken(k, gap)
	}
	if left >= leastSaid {
		return left, false
	}
	gap = look.Space(3)
	return width - c.day - c.clock - c.narrowWhat() - c.taken(riseFigure, gap) - c.taken(warmthFigure, gap) - 3*gap + look.Space(2), true
}

// narrowWhat is the column of what it is in a narrow list: the longest may reach over that of rises,
// in which most that is long has none.
func (c *entryColumns) narrowWhat() float32 { return min(c.what, look.Space(25)) }

// high is how high the rows of a list so wide are: of one line, or of two.
func (c *entryColumns) high(width float32) float32 {
	if left, narrow := c.room(width); narrow && left < tightSaid {
		return 2 * entryLine()
	}
	return entryLine()
}

func (r *entryRow) lay(size fyne.Size) {
	c := r.columns
	gap := look.Space(5)
	kit.Put(r.rule, fyne.NewPos(0, -look.Space(2)), fyne.NewSize(size.Width, 1))
	x, below := float32(0), float32(0) // below the middle is what is said besides, and above it the rest
	if size.Height >= 2*entryLine() {
		below = entryLine() / 2
	}
	put := func(o fyne.CanvasObject, x, down, w float32) {
		h := o.MinSize().Height
		kit.Put(o, fyne.NewPos(x, (size.Height-h)/2+down), fyne.NewSize(w, h))
	}
	left, narrow := c.room(size.Width)
	said, what := r.besides, c.what
	if narrow {
		gap, what = look.Space(3), c.narrowWhat()
		if r.folded != "" {
			said.Text = strings.TrimSuffix(r.folded+" · "+said.Text, " · ")
		}
	}
	tight := narrow && left < 0
	if warmth := r.figures[warmthFigure].String(); tight && warmth != "" && r.clock.String() != "" {
		said.Text = strings.TrimPrefix(said.Text+" · "+warmth+"\u00a0"+r.units[warmthFigure].String(), " · ")
	}
	r.said.SetSpan(said)
	put(r.day, x, -below, c.day)
	x += c.day + gap - look.Space(2)
	put(r.clock, x, -below, c.clock)
	x += c.clock + gap
	free := what
	if r.figures[riseFigure].String() == "" {
		free += c.taken(riseFigure, gap)
	}
	put(r.what, x, -below, free)
	under := x
	x += what
	for k := range c.figure {
		seen := c.figure[k] > 0 && (!narrow || k == riseFigure || k == warmthFigure && !tight)
		kit.SetVisible(r.figures[k], seen)
		kit.SetVisible(r.units[k], seen)
		if !seen {
			continue
		}
		w := r.figures[k].MinSize().Width
		put(r.figures[k], x+gap+max(0, c.figure[k]-w), -below, w)
		if c.unit[k] > 0 {
			put(r.units[k], x+gap+c.figure[k]+look.Space(1), -below, c.unit[k])
		}
		x += c.taken(k, gap)
	}
	if x += gap; below > 0 {
		x = under
	}
	put(r.said, x, below, max(0, size.Width-x))
}

// taken is the room of a figure, its unit and the gap before it.
func (c *entryColumns) taken(k int, gap float32) float32 {
	switch {
	case c.figure[k] == 0:
		return 0
	case c.unit[k] == 0:
		return gap + c.figure[k]
	}
	return gap + c.figure[k] + look.Space(1) + c.unit[k]
}

// The figures of an entry that the list of everything has columns for.
const (
	keptFigure = iota
	flourFigure
	waterFigure
	riseFigure
	warmthFigure
	acidFigure
	figureCount
)

// entryFigures are figures as they are written, without their units; empty: not recorded.
type entryFigures [figureCount]string

// figureUnits are the units of the columns.
func figureUnits(u measure.Units) [figureCount]string {
	w := u.Weight().Unit
	return [figureCount]string{keptFigure: w, flourFigure: w, waterFigure: w, warmthFigure: u.Temperature().Unit}
}

// figuresOfFeeding are what a feeding weighed and how warm the room was.
func figuresOfFeeding(f *journal.Feeding, u measure.Units) entryFigures {
	form := formOf(f)
	var out entryFigures
	if f.Kept > 0 {
		out[keptFigure] = bareGrams(u, form.kept)
	}
	if !histories.Taking(f) {
		out[flourFigure], out[waterFigure] = bareGrams(u, form.flour), bareGrams(u, form.water)
	}
	out[warmthFigure] = warmth(f.RoomC, u)
	return out
}

// figuresOfReading are what was read; the rise is against the feeding f.
func figuresOfReading(r *journal.Reading, f *journal.Feeding, u measure.Units) entryFigures {
	var out entryFigures
	if rise, ok := histories.Rise(r, f); ok {
		out[riseFigure] = u.Times().Write(rise)
	}
	if r.PH != nil {
		out[acidFigure] = u.FixedNumber(*r.PH, 2)
	}
	out[warmthFigure] = warmth(r.Temp, u)
	return out
}

// warmth writes a temperature to the tenth, so that a column of them lines up.
func warmth(c *formula.Celsius, u measure.Units) string {
	if c == nil {
		return ""
	}
	return u.FixedNumber(u.Temperature().Shown(float64(*c)), 1)
}

// bareGrams writes a weight as grams does, without its unit and with the decimals of its
// column.
func bareGrams(u measure.Units, g float64) string {
	if u.Ounces {
		return u.FixedNumber(u.Weight().Shown(g), 2)
	}
	return u.FixedNumber(roundGrams(g), 0)
}
