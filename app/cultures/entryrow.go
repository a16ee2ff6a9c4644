package cultures

import (
	"strings"
	"unicode/utf8"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/kit"
	"twinloaf/app/look"
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
	return &entryRenderer{r: r, objects: objects}
}

type entryRenderer struct {
	r       *entryRow
	objects []fyne.CanvasObject
}

func (r *entryRenderer) Destroy()                     {}
func (r *entryRenderer) Objects() []fyne.CanvasObject { return r.objects }

func (r *entryRenderer) MinSize() fyne.Size { return fyne.NewSize(look.Space(60), entryLine()) }

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

func (r *entryRenderer) Layout(size fyne.Size) {
	row, c := r.r, r.r.columns
	gap := look.Space(5)
	kit.Put(r.r.rule, fyne.NewPos(0, -look.Space(2)), fyne.NewSize(size.Width, 1))
	x, below := float32(0), float32(0) // below the middle is what is said besides, and above it the rest
	if size.Height >= 2*entryLine() {
		below = entryLine() / 2
	}
	put := func(o fyne.CanvasObject, x, down, w float32) {
		h := o.MinSize().Height
		kit.Put(o, fyne.NewPos(x, (size.Height-h)/2+down), fyne.NewSize(w, h))
	}
	left, narrow := c.room(size.Width)
	said, what := row.besides, c.what
	if narrow {
		gap, what = look.Space(3), c.narrowWhat()
		if row.folded != "" {
			said.Text = strings.TrimSuffix(row.folded+" · "+said.Text, " · ")
		}
	}
	tight := narrow && left < 0
	if warmth := row.figures[warmthFigure].String(); tight && warmth != "" && row.clock.String() != "" {
		said.Text = strings.TrimPrefix(said.Text+" · "+warmth+"\u00a0"+row.units[warmthFigure].String(), " · ")
	}
	row.said.SetSpan(said)
	put(row.day, x, -below, c.day)
	x += c.day + gap - look.Space(2)
	put(row.clock, x, -below, c.clock)
	x += c.clock + gap
	free := what
	if row.figures[riseFigure].String() == "" {
		free += c.taken(riseFigure, gap)
	}
	put(row.what, x, -below, free)
	under := x
	x += what
	for k := range c.figure {
		seen := c.figure[k] > 0 && (!narrow || k == riseFigure || k == warmthFigure && !tight)
		kit.SetVisible(row.figures[k], seen)
		kit.SetVisible(row.units[k], seen)
		if !seen {
			continue
		}
		w := row.figures[k].MinSize().Width
		put(row.figures[k], x+gap+max(0, c.figure[k]-w), -below, w)
		if c.unit[k] > 0 {
			put(row.units[k], x+gap+c.figure[k]+look.Space(1), -below, c.unit[k])
		}
		x += c.taken(k, gap)
	}
	if x += gap; below > 0 {
		x = under
	}
	put(row.said, x, below, max(0, size.Width-x))
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

func (r *entryRenderer) Refresh() {
	r.Layout(r.r.Size())
	for _, o := range r.objects {
		o.Refresh()
	}
}
