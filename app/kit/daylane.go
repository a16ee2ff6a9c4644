package kit

import (
	"image/color"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// LaneBlock is a stretch of a dough's day.
type LaneBlock struct {
	From, To time.Time
	Color    fyne.ThemeColorName
	Words    string
	Ticks    []time.Time // moments within it, such as turns
}

// DayLane shows a dough's day as one strip, hours beneath it and words above it where
// there is room. The hour after midnight says its day.
type DayLane struct {
	widget.BaseWidget
	blocks []LaneBlock
	units  Units
	now    time.Time
	from   time.Time
	to     time.Time
}

// NewDayLane makes the strip of some blocks, in the order of time.
func NewDayLane(blocks []LaneBlock, u Units, now time.Time) *DayLane {
	d := &DayLane{blocks: blocks, units: u, now: now}
	for _, b := range blocks {
		if d.from.IsZero() || b.From.Before(d.from) {
			d.from = b.From
		}
		if b.To.After(d.to) {
			d.to = b.To
		}
	}
	d.ExtendBaseWidget(d)
	return d
}

// CreateRenderer is called by Fyne.
func (d *DayLane) CreateRenderer() fyne.WidgetRenderer {
	return &dayLaneRenderer{d: d}
}

type dayLaneRenderer struct {
	d    *DayLane
	seen []fyne.CanvasObject
}

const (
	laneTop    = 20 // below the words
	laneHeight = 20
	laneFoot   = 24
)

func (r *dayLaneRenderer) Destroy()                     {}
func (r *dayLaneRenderer) Objects() []fyne.CanvasObject { return r.seen }
func (r *dayLaneRenderer) MinSize() fyne.Size {
	return fyne.NewSize(look.Space(60), laneTop+laneHeight+laneFoot)
}
func (r *dayLaneRenderer) Layout(size fyne.Size) { r.draw(size) }
func (r *dayLaneRenderer) Refresh() {
	r.draw(r.d.Size())
	canvas.Refresh(r.d)
}

func (r *dayLaneRenderer) draw(size fyne.Size) {
	d := r.d
	r.seen = r.seen[:0]
	whole := d.to.Sub(d.from)
	if whole <= 0 || size.Width <= 0 {
		return
	}
	x := func(t time.Time) float32 {
		return size.Width * float32(min(1, max(0, float64(t.Sub(d.from))/float64(whole))))
	}
	rect := func(c color.Color, from, to, y, h float32) {
		b := canvas.NewRectangle(c)
		b.CornerRadius = 2
		b.Move(fyne.NewPos(from, y))
		b.Resize(fyne.NewSize(max(2, to-from), h))
		r.seen = append(r.seen, b)
	}
	rect(theme.Color(look.ColorWash), 0, size.Width, laneTop, laneHeight)
	r.hours(size, x, float64(whole)/float64(time.Hour))
	free := float32(0) // the words of a block may begin from here
	for _, b := range d.blocks {
		from, to := x(b.From), x(b.To)
		rect(theme.Color(b.Color), from, to-1, laneTop, laneHeight)
		for _, t := range b.Ticks {
			rect(theme.Color(look.ColorCrust), x(t)-1, x(t)+1, laneTop-4, laneHeight+4)
		}
		w := fyne.MeasureText(b.Words, look.TextSmall, fyne.TextStyle{}).Width
		at := min(from, size.Width-w)
		if b.Words != "" && at >= free {
			r.word(b.Words, look.ColorInk, at, 0)
			free = at + w + look.Space(2)
		}
	}
}

// hours writes the clock beneath, as often as there is room.
func (r *dayLaneRenderer) hours(size fyne.Size, x func(time.Time) float32, whole float64) {
	d := r.d
	every := 24
	for _, n := range []int{1, 2, 3, 6, 12} {
		if size.Width*float32(n)/float32(whole) >= look.Space(16) {
			every = n
			break
		}
	}
	at := d.from.In(d.now.Location())
	y, m, day := at.Date()
	for h := 0; ; h += every {
		t := time.Date(y, m, day, h, 0, 0, 0, at.Location())
		if t.After(d.to) {
			return
		}
		if t.Before(d.from) {
			continue
		}
		words := d.units.Clock(t)
		if t.Hour() == 0 {
			words = d.units.Day(t, d.now)
		}
		w := fyne.MeasureText(words, look.TextSmall, fyne.TextStyle{}).Width
		line := canvas.NewRectangle(theme.Color(look.ColorRule))
		line.Move(fyne.NewPos(x(t), laneTop+laneHeight))
		line.Resize(fyne.NewSize(1, look.Space(1)))
		r.seen = append(r.seen, line)
		r.word(words, look.ColorFaint, min(max(0, x(t)-w/2), size.Width-w), laneTop+laneHeight+look.Space(1.5))
	}
}

func (r *dayLaneRenderer) word(s string, c fyne.ThemeColorName, x, y float32) {
	t := canvas.NewText(s, theme.Color(c))
	t.TextSize = look.TextSmall
	t.Move(fyne.NewPos(x, y))
	t.Resize(t.MinSize())
	r.seen = append(r.seen, t)
}
