package today

import (
	"image"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/lang"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/measure"
	"twinloaf/journal/plan"
)

// dragStep is the grain in which a feeding is moved along the band.
const dragStep = 15 * time.Minute

// bandView shows the day band. A culture's handle is dragged, or, when the band
// has the focus, moved with the arrow keys; what follows is drawn at once.
type bandView struct {
	widget.BaseWidget
	band  band
	units measure.Units
	// moved is told of a feeding that is thought of; the zero time forgets it.
	moved func(culture journal.ID, at time.Time)
	// opened is told of a lane that was tapped.
	opened func(lane)

	held    int // the lane whose handle is being dragged, or -1
	chosen  int // the lane that the arrow keys move
	focused bool
	stop    func() // of what is on its way
}

func newBandView(moved func(journal.ID, time.Time), opened func(lane)) *bandView {
	v := &bandView{moved: moved, opened: opened, held: -1, stop: func() {}}
	v.ExtendBaseWidget(v)
	return v
}

func (v *bandView) show(b band, u measure.Units) {
	v.stop()
	v.band, v.units = b, u
	v.Refresh()
}

// follow shows a band in which a feeding that is thought of stands elsewhere: its curve
// goes there from where it was, so that the eye keeps it.
func (v *bandView) follow(b band, u measure.Units) {
	v.stop()
	was := v.band
	v.band, v.units = b, u
	away := make([]time.Duration, len(b.lanes))
	far := false
	for i, l := range b.lanes {
		if l.tried && i < len(was.lanes) && was.lanes[i].of == l.of && !was.lanes[i].handle.IsZero() {
			away[i] = was.lanes[i].handle.Add(was.lanes[i].shift).Sub(l.handle)
			far = far || away[i] != 0
		}
	}
	if !far {
		v.Refresh()
		return
	}
	to := func(done float32) {
		for i := range away {
			v.band.lanes[i].shift = time.Duration(float64(away[i]) * float64(1-done))
		}
		v.Refresh()
	}
	to(0)
	v.stop = kit.Glide(v, to)
}

// laneAt gives the lane at a height, or -1.
func (v *bandView) laneAt(y float32) int {
	top := float32(bandTop)
	for i, l := range v.band.lanes {
		if y >= top && y < top+l.tall() {
			return i
		}
		top += l.tall()
	}
	return -1
}

// Dragged moves the handle of the lane in which the drag began.
func (v *bandView) Dragged(ev *fyne.DragEvent) {
	if v.held < 0 {
		start := ev.Position.Subtract(fyne.NewPos(ev.Dragged.DX, ev.Dragged.DY))
		v.held = v.laneAt(start.Y)
	}
	if v.held < 0 || v.held >= len(v.band.lanes) || v.band.lanes[v.held].of == "" {
		return
	}
	v.think(v.held, v.band.at(float64(ev.Position.X), float64(v.Size().Width)))
}

// DragEnd lets go.
func (v *bandView) DragEnd() { v.held = -1 }

// think moves a lane's handle, within what is still to come on the band.
func (v *bandView) think(i int, at time.Time) {
	at = pages.Later(at.Round(dragStep), v.band.now)
	if at.After(v.band.to) {
		at = v.band.to
	}
	v.moved(v.band.lanes[i].of, at)
}

// Tapped opens what a lane is about.
func (v *bandView) Tapped(ev *fyne.PointEvent) {
	if i := v.laneAt(ev.Position.Y); i >= 0 {
		v.opened(v.band.lanes[i])
	}
}

// Cursor shows that there is something to grasp.
func (v *bandView) Cursor() desktop.Cursor { return desktop.PointerCursor }

func (v *bandView) FocusGained()     { v.focused = true; v.Refresh() }
func (v *bandView) FocusLost()       { v.focused = false; v.Refresh() }
func (v *bandView) TypedRune(r rune) { kit.PassRune(v, r) }

// TypedKey moves the chosen lane's feeding, or chooses another lane.
func (v *bandView) TypedKey(ev *fyne.KeyEvent) {
	n := len(v.band.lanes)
	if n == 0 {
		return
	}
	v.chosen = min(v.chosen, n-1)
	l := v.band.lanes[v.chosen]
	switch ev.Name {
	case fyne.KeyUp:
		v.chosen = (v.chosen + n - 1) % n
	case fyne.KeyDown:
		v.chosen = (v.chosen + 1) % n
	case fyne.KeyLeft, fyne.KeyRight:
		if l.of == "" || l.handle.IsZero() {
			return
		}
		step := dragStep
		if ev.Name == fyne.KeyLeft {
			step = -step
		}
		v.think(v.chosen, l.handle.Add(step))
	case fyne.KeyEscape:
		if l.of != "" {
			v.moved(l.of, time.Time{})
		}
	case fyne.KeyReturn, fyne.KeyEnter:
		kit.ByKey(v, func() { v.opened(l) })
	default:
		kit.PassKey(v, ev)
	}
	v.Refresh()
}

func (v *bandView) CreateRenderer() fyne.WidgetRenderer {
	r := &kit.Sketch{Of: v, Least: func() fyne.Size { return fyne.NewSize(320, v.band.tall()) }}
	picture := canvas.NewRaster(func(w, h int) image.Image {
		pal, _ := look.Current()
		if v.Size().Width == 0 {
			return image.NewRGBA(image.Rect(0, 0, w, h))
		}
		return v.band.paint(w, h, float64(w)/float64(v.Size().Width), pal)
	})
	r.Draw = func(size fyne.Size) []fyne.CanvasObject {
		picture.Resize(size)
		return append([]fyne.CanvasObject{picture}, v.words(size)...)
	}
	r.Refresh()
	return r
}

// words are the hours, the names and what each lane says, at their places.
func (v *bandView) words(size fyne.Size) (out []fyne.CanvasObject) {
	b := v.band
	put := func(s string, textSize float32, bold bool, colour fyne.ThemeColorName, x, y float32) {
		t := canvas.NewText(s, theme.Color(colour))
		t.TextSize, t.TextStyle.Bold = textSize, bold
		m := t.MinSize()
		x = max(0, min(x, size.Width-m.Width))
		kit.Put(t, fyne.NewPos(x, y), m)
		out = append(out, t)
	}
	width := float64(size.Width)
	if width <= bandLeft {
		return nil
	}
	free := float32(0) // where the next words may begin
	for at := b.firstHour(); at.Before(b.to); at = at.Add(3 * time.Hour) {
		x := float32(b.x(at, width))
		if x+14 >= size.Width {
			break
		}
		words, next := hourWord(at, v.units), at.Add(3*time.Hour)
		if at.Hour() == 0 { // another day begins
			words = v.units.Day(at, b.now)
			x -= 8
		}
		end := x - 8 + fyne.MeasureText(words, look.TextSmall, fyne.TextStyle{}).Width + look.Space(1)
		if at.Hour() != 0 && (x-8 < free || next.Hour() == 0 && end > float32(b.x(next, width))-16) {
			continue // an hour gives way to the day beside it
		}
		free = end
		put(words, look.TextSmall, false, look.ColorFaint, x-8, 2)
	}
	y := float32(bandTop)
	for i, l := range b.lanes {
		base := y + l.tall() - l.foot()
		colour := fyne.ThemeColorName(look.ColorInk)
		if v.focused && i == v.chosen {
			colour = look.ColorCrust
		}
		name := float32(0) // a culture's mark stands before it
		if l.of != "" {
			name = bandMark + look.Space(1)
		}
		put(kit.Fit(kit.Span{Text: l.name, Bold: true}, bandLeft-name-look.Space(2)), look.TextBody, true, colour, name, base-14)
		at := l.ripe.from.Add(l.shift)
		if l.ripe.from.IsZero() || at.Before(b.from) {
			at = b.from
		}
		if l.words != "" {
			x, now := float32(b.x(at, width)), float32(b.x(b.now, width))
			wide := fyne.MeasureText(l.words, look.TextSmall, fyne.TextStyle{}).Width
			late := v.lateTag(l)
			if late != nil {
				wide += late.MinSize().Width
			}
			if x < now && now < x+wide {
				x = now + 8 // the line of the present would go through them
			}
			if late == nil {
				put(l.words, look.TextSmall, false, look.ColorFaint, x, base+3)
			} else {
				m := late.MinSize()
				x = max(bandLeft, min(x, size.Width-wide))
				kit.Put(late, fyne.NewPos(x, y+l.tall()-m.Height), m)
				out = append(out, late)
				words := kit.Fit(kit.Span{Text: l.words, Size: look.TextSmall}, size.Width-x-m.Width)
				put(words, look.TextSmall, false, look.ColorFaint, x+m.Width, y+l.tall()-m.Height+look.Space(0.25))
			}
		}
		v.blockWords(l, base, width, put)
		y += l.tall()
	}
	return out
}

// lateTag says by how much what a lane waits for is overdue; nil where it is not.
func (v *bandView) lateTag(l lane) *kit.Due {
	if !l.late {
		return nil
	}
	tag := kit.NewDue(look.TextSmall)
	tag.Set("", l.by, v.band.now, v.units)
	return tag
}

// blockWords names those stretches of a dough's day that have room for it, and its time
// in the oven, however short, before what would stand in its place.
func (v *bandView) blockWords(l lane, base float32, width float64, put func(string, float32, bool, fyne.ThemeColorName, float32, float32)) {
	var ovenFrom, ovenTo float64 // what the word of the oven takes
	say := func(words string, x float64) {
		put(words, look.TextSmall, false, look.ColorFaint, float32(x), base-17)
	}
	wide := func(words string) float64 {
		return float64(fyne.MeasureText(words, look.TextSmall, fyne.TextStyle{}).Width)
	}
	if from, to := l.oven(); to.After(v.band.from) && from.Before(v.band.to) {
		words := lang.L("Bake")
		x, x2 := max(bandLeft, v.band.x(from, width)), min(width, v.band.x(to, width))
		ovenFrom = min(max(bandLeft, (x+x2-wide(words))/2), width-wide(words))
		ovenTo = ovenFrom + wide(words) + 8
		say(words, ovenFrom)
	}
	for _, bl := range l.blocks {
		if bl.kind == plan.Turns || inOven(bl.kind) { // its ticks stand there, or its word
			continue
		}
		x, x2 := max(bandLeft, v.band.x(bl.from, width)), min(width, v.band.x(bl.to, width))
		if x < ovenTo && x+wide(bl.words)+8 > ovenFrom {
			x = ovenTo
		}
		if x2-x > wide(bl.words)+4 {
			say(bl.words, x)
		}
	}
}

func inOven(k plan.Kind) bool { return k == plan.BakeCovered || k == plan.BakeUncovered }

// oven is when a dough's first stretch in the oven begins, and when its last ends.
func (l lane) oven() (from, to time.Time) {
	for _, bl := range l.blocks {
		if inOven(bl.kind) {
			if from.IsZero() {
				from = bl.from
			}
			to = bl.to
		}
	}
	return from, to
}

// hourWord is an hour of the day as briefly as can be.
func hourWord(t time.Time, u measure.Units) string {
	return strings.ReplaceAll(u.Locale().Hour(t), "\u00a0", "")
}
