package kit

import (
	"image/color"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

func (e *entry) CreateRenderer() fyne.WidgetRenderer {
	r := &entryRenderer{e: e, paper: canvas.NewRectangle(color.Transparent), caret: canvas.NewRectangle(color.Transparent),
		hint: canvas.NewText("", color.Transparent), wheel: newWheel(e)}
	r.Refresh()
	return r
}

// entryRenderer draws the rows that are seen, and nothing while nothing is edited.
type entryRenderer struct {
	e            *entry
	paper, caret *canvas.Rectangle
	hint         *canvas.Text
	texts        []*canvas.Text
	marks        []*canvas.Rectangle // what is selected, row by row
	wheel        *wheel
	seen         []fyne.CanvasObject
}

func (r *entryRenderer) Destroy()                     {}
func (r *entryRenderer) MinSize() fyne.Size           { return r.e.MinSize() }
func (r *entryRenderer) Objects() []fyne.CanvasObject { return r.seen }
func (r *entryRenderer) Layout(fyne.Size)             { r.draw() }

func (r *entryRenderer) Refresh() {
	r.draw()
	canvas.Refresh(r.e)
}

func (r *entryRenderer) draw() {
	e := r.e
	r.seen = nil
	if !e.editing {
		return
	}
	size := e.Size()
	r.paper.FillColor = theme.Color(theme.ColorNameInputBackground)
	r.paper.StrokeColor, r.paper.StrokeWidth = theme.Color(focusColor(e)), ringWidth
	r.paper.CornerRadius = theme.Size(theme.SizeNameInputRadius)
	r.paper.Resize(size)
	r.seen = append(r.seen, r.paper)
	n := 0
	r.eachRow(func(from, to int, x, y, h float32) {
		if n == len(r.texts) {
			r.texts = append(r.texts, &canvas.Text{})
			r.marks = append(r.marks, canvas.NewRectangle(color.Transparent))
		}
		r.mark(r.marks[n], from, to, x, y, h)
		styleText(r.texts[n], e.style, strings.TrimRight(e.w.text[from:to], "\n"))
		line := e.adv.height()
		Put(r.texts[n], fyne.NewPos(x, y+(h-line)/2), fyne.NewSize(max(0, size.Width-x-entryInset), line))
		r.seen = append(r.seen, r.texts[n])
		n++
	})
	if e.w.text == "" && e.PlaceHolder != "" {
		s := e.style
		s.Color = look.ColorFaint
		styleText(r.hint, s, e.PlaceHolder)
		line := e.adv.height()
		Put(r.hint, fyne.NewPos(entryInset, r.firstTop(size)+(r.height()-line)/2), fyne.NewSize(max(0, size.Width-2*entryInset), line))
		r.seen = append(r.seen, r.hint)
	}
	r.showCaret(size)
	if e.MultiLine && len(e.rows) >= entryRows { // only then is there something to turn the wheel for
		r.wheel.Resize(size)
		r.seen = append(r.seen, r.wheel)
	}
}

// height is that of the row under hand.
func (r *entryRenderer) height() float32 {
	if r.e.MultiLine {
		return r.e.rowHeight()
	}
	return r.e.adv.height()
}

func (r *entryRenderer) firstTop(size fyne.Size) float32 {
	if r.e.MultiLine {
		return r.e.top()
	}
	return (size.Height - r.height()) / 2
}

// eachRow goes through the rows that are seen, and of a single line the letters.
func (r *entryRenderer) eachRow(do func(from, to int, x, y, h float32)) {
	e, size, h := r.e, r.e.Size(), r.height()
	if !e.MultiLine {
		to := e.first + e.adv.fit(e.w.text[e.first:], max(0, size.Width-2*entryInset))
		do(e.first, to, entryInset, r.firstTop(size), h)
		return
	}
	for i := max(0, int(e.scrolled/h)); i < len(e.rows); i++ {
		y := e.top() + float32(i)*h - e.scrolled
		if y < e.top()-1 {
			continue
		}
		if y+h > size.Height-e.top()+1 && i > 0 {
			break
		}
		do(e.rows[i].start, e.rows[i].end, entryInset, y, h)
	}
}

// mark shows which part of a row is selected.
func (r *entryRenderer) mark(m *canvas.Rectangle, rowFrom, rowTo int, x, y, h float32) {
	from, to := r.e.w.selected()
	from, to = max(from, rowFrom), min(to, rowTo)
	if from >= to {
		return
	}
	left := r.e.across(rowFrom, from)
	m.FillColor = theme.Color(theme.ColorNameSelection)
	Put(m, fyne.NewPos(x+left, y), fyne.NewSize(r.e.across(rowFrom, to)-left, h))
	r.seen = append(r.seen, m)
}

// showCaret draws the caret. It stands still: a page that is read is not to flicker.
func (r *entryRenderer) showCaret(size fyne.Size) {
	e, h := r.e, r.height()
	from, y := e.first, r.firstTop(size)
	if e.MultiLine && len(e.rows) > 0 {
		row := rowAt(e.rows, e.w.caret)
		from, y = e.rows[row].start, e.top()+float32(row)*h-e.scrolled
	}
	if y < 0 || y+h > size.Height+1 || e.w.caret < from {
		return
	}
	r.caret.FillColor = theme.Color(theme.ColorNamePrimary)
	Put(r.caret, fyne.NewPos(entryInset+e.across(from, e.w.caret)-1, y), fyne.NewSize(2, h))
	r.seen = append(r.seen, r.caret)
}

// wheel lies over an entry that has more rows than it shows, and turns them.
type wheel struct {
	widget.BaseWidget
	e *entry
}

func newWheel(e *entry) *wheel {
	w := &wheel{e: e}
	w.ExtendBaseWidget(w)
	return w
}

func (w *wheel) Scrolled(ev *fyne.ScrollEvent) {
	w.e.scrollTo(w.e.scrolled - ev.Scrolled.DY)
	w.e.Refresh()
}

func (w *wheel) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(canvas.NewRectangle(color.Transparent))
}
