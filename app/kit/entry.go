package kit

import (
	"unicode/utf8"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// entryRows is how many rows of a long text an entry shows at a time.
const entryRows = 16

// entry takes keys and shows the text that they make, while it is edited: at other times
// a field shows its text as a page does. It stays in the tree, so that Tab and clicks
// find it. What a key costs follows from the rows that are seen and moved, not from
// how long the text is.
type entry struct {
	widget.BaseWidget
	MultiLine   bool
	PlaceHolder string
	OnChanged   func(string)
	OnSubmitted func(string)

	w         writing
	style     Span
	adv       *advances
	rows      []textRow // of many lines, broken for room
	room      float32
	scrolled  float32 // the height above the first row that is seen
	first     int     // of one line, the offset of the first letter that is seen
	goal      float32 // where the caret would like to be, going up and down
	editing   bool
	byMouse   bool // a click that is going on began the editing
	pressed   bool // a button went down of which no tap was told yet
	selectAll bool // take the whole text on focus, so that typing replaces it
	shift     bool
	onFocus   func(bool)
	onEscape  func()
	// onKey may take a key before the entry does, onRune a character and onPaste a text.
	onKey   func(*fyne.KeyEvent) bool
	onRune  func(rune) bool
	onPaste func(string) bool
}

func newEntry(multi bool, style Span) *entry {
	e := &entry{MultiLine: multi, style: style, adv: newAdvances(style), goal: -1}
	e.ExtendBaseWidget(e)
	return e
}

// text gives what is written.
func (e *entry) text() string { return e.w.text }

// SetText replaces what is written; there is nothing to take back then.
func (e *entry) SetText(s string) {
	if e.w.text == s {
		return
	}
	e.w.set(s)
	e.first, e.scrolled, e.goal = 0, 0, -1
	e.rewrap()
	e.told()
}

// toEnd sets the caret behind the last letter.
func (e *entry) toEnd() {
	e.w.moveTo(len(e.w.text), false)
	e.follow()
}

func (e *entry) told() {
	tell(e.OnChanged, e.w.text)
	e.Refresh()
}

// rewrap breaks the whole text into rows.
func (e *entry) rewrap() {
	if e.MultiLine {
		e.rows = wrapRows(e.w.text, e.adv, e.wrapRoom())
	}
}

func (e *entry) wrapRoom() float32 {
	if e.room <= 0 {
		return 1e9
	}
	return e.room
}

// put replaces what lies between two offsets by hand.
func (e *entry) put(from, to int, with string) {
	if from == to && with == "" {
		return
	}
	e.changed(e.w.replace(from, to, with))
}

// changed follows a stroke: the rows that it moved, the caret, and whoever listens.
func (e *entry) changed(s stroke) {
	if e.MultiLine {
		e.rows = rewrapRows(e.rows, e.w.text, s.at, len(s.removed), len(s.added), e.adv, e.wrapRoom())
	}
	e.first = min(e.first, e.w.caret) // of a line that was scrolled what is drawn may be gone
	e.goal = -1
	e.told() // may give it more room
	e.follow()
	if f := frameOf(e); f != nil && e.MultiLine && len(s.added) > utf8.UTFMax { // which it has only when it is drawn
		f.After(revealLater, e.follow)
	}
}

// insert puts text in the place of what is selected.
func (e *entry) insert(s string) {
	from, to := e.w.selected()
	e.put(from, to, s)
}

// Resize breaks the rows anew for the width.
func (e *entry) Resize(s fyne.Size) {
	if room := s.Width - 2*entryInset; room != e.room && e.MultiLine {
		e.room = room
		e.rewrap()
	}
	e.room = s.Width - 2*entryInset
	e.BaseWidget.Resize(s)
	e.keepInSight()
}

// rowHeight is that of a row of text as a page sets it.
func (e *entry) rowHeight() float32 { return e.style.size() * e.style.leading() }

// MinSize is one line, or as many as the text has, up to entryRows.
func (e *entry) MinSize() fyne.Size {
	if !e.MultiLine {
		return fyne.NewSize(look.Space(10), e.adv.height()+2*theme.InnerPadding())
	}
	return fyne.NewSize(look.Space(10), float32(e.rowsShown())*e.rowHeight()+2*theme.InnerPadding())
}

// rowsShown is how many rows it has room for: those of its text, as they are read.
func (e *entry) rowsShown() int { return max(1, min(len(e.rows), entryRows)) }

// AcceptsTab is false: Tab always goes on to the next field.
func (e *entry) AcceptsTab() bool { return false }

// FocusGained begins the editing.
func (e *entry) FocusGained() {
	e.editing = true
	e.shift = false
	tell(e.onFocus, true)
	if e.selectAll && !e.byMouse {
		e.w.selectAll()
	}
	e.follow()
	// What was clicked on is in sight; moving it under the pointer would make the
	// click end on something else.
	if !e.byMouse {
		reveal(e)
	}
	if f := frameOf(e); f != nil {
		f.placeToast(f.Size())
	}
}

func (e *entry) FocusLost() {
	e.editing = false
	tell(e.onFocus, false)
	e.Refresh()
}

// TypedRune writes a character.
func (e *entry) TypedRune(r rune) {
	if e.onRune != nil && e.onRune(r) {
		return
	}
	if r >= ' ' {
		e.insert(string(r))
	}
}

// KeyDown and KeyUp follow the Shift keys.
func (e *entry) KeyDown(ev *fyne.KeyEvent) {
	if ev.Name == desktop.KeyShiftLeft || ev.Name == desktop.KeyShiftRight {
		e.shift = true
	}
}

func (e *entry) KeyUp(ev *fyne.KeyEvent) {
	if ev.Name == desktop.KeyShiftLeft || ev.Name == desktop.KeyShiftRight {
		e.shift = false
	}
}

// TypedKey moves, deletes, begins a line, or leaves.
func (e *entry) TypedKey(ev *fyne.KeyEvent) {
	if e.onKey != nil && e.onKey(ev) {
		return
	}
	from, to := e.w.selected()
	switch ev.Name {
	case fyne.KeyEscape:
		call(e.onEscape)
	case fyne.KeyReturn, fyne.KeyEnter:
		if e.MultiLine {
			e.insert("\n")
		} else if e.OnSubmitted != nil {
			e.OnSubmitted(e.w.text)
		}
	case fyne.KeyBackspace:
		if from == to {
			from = e.w.before(to)
		}
		e.put(from, to, "")
	case fyne.KeyDelete:
		if from == to {
			to = e.w.after(from)
		}
		e.put(from, to, "")
	case fyne.KeyPageUp, fyne.KeyPageDown:
		if !e.MultiLine { // of no use here: the page is scrolled
			PassKey(e, ev)
			return
		}
		e.move(ev.Name, false)
	case fyne.KeyF1, fyne.KeyF2, fyne.KeyF3, fyne.KeyF4, fyne.KeyF5, fyne.KeyF6,
		fyne.KeyF7, fyne.KeyF8, fyne.KeyF9, fyne.KeyF10, fyne.KeyF11, fyne.KeyF12:
		PassKey(e, ev) // they write nothing
	default:
		e.move(ev.Name, false)
	}
}

// move moves the caret; with words it goes by words, or to either end of the text.
func (e *entry) move(key fyne.KeyName, words bool) {
	from, to := e.w.selected()
	at, selecting := e.w.caret, from != to && !e.shift
	goal := float32(-1)
	switch key {
	case fyne.KeyLeft:
		switch {
		case words:
			at = wordBefore(e.w.text, at)
		case selecting:
			at = from
		default:
			at = e.w.before(at)
		}
	case fyne.KeyRight:
		switch {
		case words:
			at = wordAfter(e.w.text, at)
		case selecting:
			at = to
		default:
			at = e.w.after(at)
		}
	case fyne.KeyHome:
		at = 0
		if e.MultiLine && !words {
			at = e.rows[rowAt(e.rows, e.w.caret)].start
		}
	case fyne.KeyEnd:
		at = len(e.w.text)
		if e.MultiLine && !words {
			at = e.rowEnd(rowAt(e.rows, e.w.caret))
		}
	case fyne.KeyUp, fyne.KeyDown, fyne.KeyPageUp, fyne.KeyPageDown:
		if !e.MultiLine {
			return
		}
		by := map[fyne.KeyName]int{fyne.KeyUp: -1, fyne.KeyDown: 1, fyne.KeyPageUp: 1 - entryRows, fyne.KeyPageDown: entryRows - 1}[key]
		at, goal = e.upDown(by)
	default:
		return
	}
	e.w.moveTo(at, e.shift)
	e.goal = goal
	e.follow()
}

// upDown is where the caret comes to by so many rows down.
func (e *entry) upDown(by int) (at int, goal float32) {
	row := rowAt(e.rows, e.w.caret)
	goal = e.goal
	if goal < 0 {
		goal = e.across(e.rows[row].start, e.w.caret)
	}
	switch to := row + by; {
	case to < 0:
		return 0, goal
	case to >= len(e.rows):
		return len(e.w.text), goal
	default:
		return e.inRow(to, goal), goal
	}
}

// rowEnd is the last place in a row for the caret: before the space at which a row
// ends that wraps, since behind it is the beginning of the next.
func (e *entry) rowEnd(i int) int {
	r := e.rows[i]
	if i+1 < len(e.rows) && e.rows[i+1].start == r.end && r.end > r.start {
		return e.w.before(r.end)
	}
	return r.end
}

// across is how far apart two offsets of one row are drawn.
func (e *entry) across(from, to int) float32 {
	if to-from > strokeMost*2 {
		return e.adv.width(e.w.text[from:to])
	}
	size, _ := e.style.measure(e.w.text[from:to])
	return size.Width
}

// inRow is the offset nearest to a place across a row.
func (e *entry) inRow(i int, x float32) int {
	return e.near(e.rows[i].start, e.rowEnd(i), x)
}

// near is the offset between two of one row that is nearest to x from the first.
func (e *entry) near(from, to int, x float32) int {
	lo, hi := from, to
	for lo < hi { // the first offset at or beyond x
		mid := (lo + hi) / 2
		for mid > lo && !startsRune(e.w.text, mid) {
			mid--
		}
		if e.across(from, mid) >= x {
			hi = mid
		} else {
			lo = e.w.after(mid)
		}
	}
	at := min(lo, to)
	if before := max(from, e.w.before(at)); x-e.across(from, before) < e.across(from, at)-x {
		return before
	}
	return at
}

func startsRune(s string, i int) bool { return i >= len(s) || s[i]&0xC0 != 0x80 }
