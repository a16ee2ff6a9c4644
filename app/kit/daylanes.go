package kit

import (
	"cmp"
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
	"twinloaf/charts"
	"twinloaf/journal/measure"
)

// LaneBlock is a stretch of a dough's day.
type LaneBlock struct {
	From, To time.Time
	Color    fyne.ThemeColorName
	Words    string
	Ticks    []time.Time // moments within it, such as turns
}

// Lane is one dough's day, its blocks in the order of time.
type Lane struct {
	Name   string              // may be empty where there is but one
	Mark   *charts.SeriesStyle // before the name; nil for none
	Blocks []LaneBlock
}

// DayLanes shows the days of doughs as strips on one clock, the hours beneath them. A
// strip by itself says what its blocks are where there is room. The hour after midnight
// says its day.
type DayLanes struct {
	widget.BaseWidget
	lanes    []Lane
	units    measure.Units
	now      time.Time
	from, to time.Time
}

// NewDayLanes makes the strips.
func NewDayLanes(lanes []Lane, u measure.Units, now time.Time) *DayLanes {
	d := &DayLanes{lanes: lanes, units: u, now: now}
	for _, l := range lanes {
		for _, b := range l.Blocks {
			if d.from.IsZero() || b.From.Before(d.from) {
				d.from = b.From
			}
			if b.To.After(d.to) {
				d.to = b.To
			}
		}
	}
	d.ExtendBaseWidget(d)
	return d
}

// left is where the strips begin: after the names.
func (d *DayLanes) left() float32 {
	w := float32(0)
	for _, l := range d.lanes {
		if l.Name != "" {
			w = max(w, fyne.MeasureText(l.Name, look.TextBody, fyne.TextStyle{Bold: true}).Width+l.markRoom()+look.Space(4))
		}
	}
	return min(w, look.Space(40)+laneMark)
}

// markRoom is what a mark takes before a name.
func (l Lane) markRoom() float32 {
	if l.Mark == nil {
		return 0
	}
	return laneMark
}

// top is where the first strip begins: below the words, where they are said.
func (d *DayLanes) top() float32 {
	if len(d.lanes) > 1 {
		return look.Space(1)
	}
	return laneTop
}

// foot is where the last strip ends.
func (d *DayLanes) foot() float32 {
	return d.top() + float32(len(d.lanes))*(laneHeight+laneGap) - laneGap
}

func (d *DayLanes) CreateRenderer() fyne.WidgetRenderer {
	return &Sketch{Of: d, Least: func() fyne.Size { return fyne.NewSize(look.Space(60), d.foot()+laneFoot) }, Draw: d.draw}
}

// lanesDrawn are the things that strips are drawn with.
type lanesDrawn struct {
	*DayLanes
	seen []fyne.CanvasObject
}

const (
	laneTop    = 20 // below the words
	laneHeight = 20
	laneGap    = 10
	laneFoot   = 24
	laneMark   = MarkSide + 6 // before a name
)

func (d *DayLanes) draw(size fyne.Size) []fyne.CanvasObject {
	r := &lanesDrawn{DayLanes: d}
	whole, left := d.to.Sub(d.from), d.left()
	room := size.Width - left
	if whole <= 0 || room <= 0 {
		return nil
	}
	x := func(t time.Time) float32 {
		return left + room*float32(min(1, max(0, float64(t.Sub(d.from))/float64(whole))))
	}
	r.hours(size.Width, room, x)
	for i, l := range d.lanes {
		y := d.top() + float32(i)*(laneHeight+laneGap)
		r.rect(look.ColorWash, left, size.Width, y, laneHeight)
		if l.Name != "" {
			name := r.word(Fit(Span{Text: l.Name, Bold: true}, left-l.markRoom()-look.Space(2)), look.ColorInk, 0, y)
			name.TextSize, name.TextStyle.Bold = look.TextBody, true
			Put(name, fyne.NewPos(l.markRoom(), y+(laneHeight-name.MinSize().Height)/2), name.MinSize())
			if l.Mark != nil {
				mark := NewMark(*l.Mark, MarkSide)
				Put(mark, fyne.NewPos(0, y+(laneHeight-MarkSide)/2), mark.MinSize())
				r.seen = append(r.seen, mark)
			}
		}
		for _, b := range l.Blocks {
			r.rect(b.Color, x(b.From), x(b.To)-1, y, laneHeight)
			for _, t := range b.Ticks {
				r.rect(look.ColorCrust, x(t)-1, x(t)+1, y-4, laneHeight+4)
			}
		}
		if len(d.lanes) == 1 {
			r.say(l.Blocks, size.Width, x)
		}
	}
	return r.seen
}

// say writes what blocks are over them, where there is room: over those in the oven
// first, and then over the longest.
func (r *lanesDrawn) say(blocks []LaneBlock, width float32, x func(time.Time) float32) {
	order := slices.Clone(blocks)
	slices.SortStableFunc(order, func(a, b LaneBlock) int {
		if baked := a.Color == look.ColorCrust; baked != (b.Color == look.ColorCrust) {
			if baked {
				return -1
			}
			return 1
		}
		return cmp.Compare(b.To.Sub(b.From), a.To.Sub(a.From))
	})
	type stretch struct{ from, to float32 }
	var taken []stretch
	for _, b := range order {
		if b.Words == "" {
			continue
		}
		w := fyne.MeasureText(b.Words, look.TextSmall, fyne.TextStyle{}).Width
		at := min(x(b.From), width-w)
		if slices.ContainsFunc(taken, func(s stretch) bool { return at < s.to && s.from < at+w+look.Space(2) }) {
			continue
		}
		taken = append(taken, stretch{at, at + w + look.Space(2)})
		r.word(b.Words, look.ColorInk, at, 0)
	}
}

// hours writes the clock beneath, as often as there is room.
func (r *lanesDrawn) hours(width, room float32, x func(time.Time) float32) {
	every := 24
	for _, n := range []int{1, 2, 3, 6, 12} {
		if room*float32(n)/float32(r.to.Sub(r.from).Hours()) >= look.Space(16) {
			every = n
			break
		}
	}
	y, m, day := r.from.In(r.now.Location()).Date()
	free := float32(0) // where the next words may begin
	for h := 0; ; h += every {
		t := time.Date(y, m, day, h, 0, 0, 0, r.now.Location())
		if t.After(r.to) {
			return
		}
		if t.Before(r.from) {
			continue
		}
		words := r.units.Clock(t)
		if t.Hour() == 0 {
			words = r.units.Day(t, r.now)
		}
		w := fyne.MeasureText(words, look.TextSmall, fyne.TextStyle{}).Width
		r.rect(look.ColorRule, x(t), x(t)+1, r.foot(), look.Space(1))
		at := min(max(x(r.from), x(t)-w/2), width-w)
		if at < free { // moved in from the edge, it would lie over the one before
			continue
		}
		free = at + w + look.Space(1)
		r.word(words, look.ColorFaint, at, r.foot()+look.Space(1.5))
	}
}

func (r *lanesDrawn) rect(c fyne.ThemeColorName, from, to, y, h float32) {
	b := canvas.NewRectangle(theme.Color(c))
	b.CornerRadius = min(2, (to-from)/2)
	Put(b, fyne.NewPos(from, y), fyne.NewSize(max(1, to-from), h))
	r.seen = append(r.seen, b)
}

func (r *lanesDrawn) word(s string, c fyne.ThemeColorName, x, y float32) *canvas.Text {
	t := canvas.NewText(s, theme.Color(c))
	t.TextSize = look.TextSmall
	Put(t, fyne.NewPos(x, y), t.MinSize())
	r.seen = append(r.seen, t)
	return t
}
