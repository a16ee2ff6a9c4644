package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/lang"
	"fyne.io/fyne/v2/theme"
)

// Cursor shows that there is text to write.
func (e *entry) Cursor() desktop.Cursor { return desktop.TextCursor }

// MouseDown sets the caret, and begins the editing.
func (e *entry) MouseDown(ev *desktop.MouseEvent) {
	fresh := !e.editing
	if fresh {
		e.byMouse = true
		focusOn(e)
	}
	e.byMouse, e.pressed = fresh, true
	if ev.Button == desktop.MouseButtonPrimary {
		e.w.moveTo(e.offsetAt(ev.Position), e.shift || ev.Modifier&fyne.KeyModifierShift != 0)
		e.goal = -1
		e.Refresh()
	}
}

// MouseUp ends a click.
func (e *entry) MouseUp(*desktop.MouseEvent) { e.clicked() }

// clicked takes the whole text of a field that is replaced rather than written on, when
// the click began the editing and selected nothing itself.
func (e *entry) clicked() {
	if from, to := e.w.selected(); e.byMouse && e.selectAll && from == to {
		e.w.selectAll()
		e.Refresh()
	}
	e.byMouse = false
}

// Tapped is a finger's touch. Of a click it is told only once no second one has come:
// something may have been typed by then, or the keyboard gone on to the next field, and
// the buttons have said all there is.
func (e *entry) Tapped(*fyne.PointEvent) {
	if e.pressed {
		e.pressed = false
		return
	}
	if !e.editing {
		e.byMouse = true
		focusOn(e)
	}
	e.clicked()
	e.Refresh()
}

// DoubleTapped selects a word.
func (e *entry) DoubleTapped(ev *fyne.PointEvent) {
	e.pressed = false
	at := e.offsetAt(ev.Position)
	end := wordAfter(e.w.text, at)
	e.w.moveTo(wordBefore(e.w.text, end), false)
	e.w.moveTo(end, true)
	e.Refresh()
}

func (e *entry) Dragged(ev *fyne.DragEvent) {
	e.pressed = false // what is dragged is not tapped
	if e.editing {
		e.w.moveTo(e.offsetAt(ev.Position), true)
		e.follow()
	}
}

func (e *entry) DragEnd() {}

// TappedSecondary offers what a clipboard is for.
func (e *entry) TappedSecondary(ev *fyne.PointEvent) {
	c := canvasOf(e)
	if c == nil {
		return
	}
	board := fyne.CurrentApp().Clipboard()
	do := func(s fyne.Shortcut) func() {
		return func() { focusOn(e); e.TypedShortcut(s) }
	}
	showMenu(c, ev.AbsolutePosition,
		fyne.NewMenuItem(lang.L("Cut"), do(&fyne.ShortcutCut{Clipboard: board})),
		fyne.NewMenuItem(lang.L("Copy"), do(&fyne.ShortcutCopy{Clipboard: board})),
		fyne.NewMenuItem(lang.L("Paste"), do(&fyne.ShortcutPaste{Clipboard: board})),
		fyne.NewMenuItem(lang.L("Select all"), do(&fyne.ShortcutSelectAll{})),
	)
}

// offsetAt is the offset nearest to a place in the widget.
func (e *entry) offsetAt(p fyne.Position) int {
	x := p.X - entryInset
	if !e.MultiLine {
		return e.near(e.first, len(e.w.text), x)
	}
	row := int((p.Y - e.top() + e.scrolled) / e.rowHeight())
	return e.inRow(max(0, min(row, len(e.rows)-1)), x)
}

// top is where the first row is drawn.
func (e *entry) top() float32 { return theme.InnerPadding() }

// follow keeps the caret in sight, in the entry and on the page, and draws.
func (e *entry) follow() {
	e.keepInSight()
	e.Refresh()
	if e.MultiLine && e.editing && !e.byMouse {
		e.revealCaret()
	}
}

// revealCaret scrolls the page just as far as brings the caret into sight.
func (e *entry) revealCaret() {
	c := canvasOf(e)
	if c == nil || c.Overlays().Top() != nil || len(e.rows) == 0 {
		return
	}
	if f := frameOf(e); f != nil {
		if p := pageIn(f.content); p != nil && !p.fixed {
			p.revealPart(e, e.top()+float32(rowAt(e.rows, e.w.caret))*e.rowHeight()-e.scrolled, e.rowHeight())
		}
	}
}

func (e *entry) keepInSight() {
	if e.MultiLine {
		e.keepRowInSight()
		return
	}
	room := e.room - 2
	if room <= 0 || e.w.caret < e.first || e.first > len(e.w.text) {
		e.first = min(e.first, e.w.caret)
	}
	if room <= 0 {
		return
	}
	if e.first > 0 && e.across(0, len(e.w.text)) <= room {
		e.first = 0
	}
	if over := e.across(e.first, e.w.caret) - room; over > 0 {
		e.first += e.adv.fit(e.w.text[e.first:], over)
		e.first = min(e.w.after(e.first), e.w.caret)
	}
}

func (e *entry) keepRowInSight() {
	h, seen := e.rowHeight(), e.Size().Height-2*e.top()
	if seen <= 0 || len(e.rows) == 0 {
		return
	}
	y := float32(rowAt(e.rows, e.w.caret)) * h
	e.scrolled = min(e.scrolled, y)
	e.scrolled = max(e.scrolled, y+h-seen)
	e.scrollTo(e.scrolled)
}

// scrollTo shows the rows from a height on.
func (e *entry) scrollTo(y float32) {
	seen := e.Size().Height - 2*e.top()
	e.scrolled = max(0, min(y, float32(len(e.rows))*e.rowHeight()-seen))
}
