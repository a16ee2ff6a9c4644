package kit

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// field is what all fields share: a label, a text that is read like a page, and an
// entry that takes its place while it is edited, with a sentence beneath when what
// was typed cannot be understood.
type field struct {
	widget.BaseWidget
	label, face, aside, problem *Text
	entry                       *entry
	tail                        fyne.CanvasObject // at the right of the entry
	derived                     string
	beside                      string  // what stands beside a figure while it is edited
	numeric                     bool    // no wider than its figure, with the unit beside it
	ends                        float32 // where the figure ends; 0: it begins at the left
	hovered                     bool
	refused                     bool   // the text is not understood: nothing may be made of it
	byHand                      bool   // something was typed in it
	setting                     bool   // the text is being set, not typed
	shown                       string // the text that was last set: what the record says
	// spans writes the face from the state of the outer field.
	spans func() []Span
	// changed is told of each change of the text by typing.
	changed func(string)
	// left is told when the editing ends.
	left func()
	// onEnter is what Enter does instead of going to the next field.
	onEnter func()
	// onEscape is what Esc does instead of leaving the field.
	onEscape func()
}

// faceRows is how many rows of a long text are shown while it is not edited; the
// others are reached by going into the field.
const faceRows = 60

// init prepares a field; outer is the widget that embeds it.
func (f *field) init(outer fyne.Widget, label string, style Span, multi bool) {
	f.label = Small(label)
	f.face = NewText()
	f.face.most = faceRows
	if !multi {
		f.face = NewLine()
	}
	f.aside = NewLine(Span{Size: look.TextSmall, Color: look.ColorFaint})
	f.problem = NewText(Span{Size: look.TextSmall, Color: look.ColorEmber})
	f.problem.Hide()
	SetVisible(f.label, label != "")
	f.entry = newEntry(multi, style)
	f.entry.OnChanged = func(s string) {
		if !f.setting {
			f.byHand = true
		}
		if f.changed != nil && !f.setting {
			f.changed(s)
		}
		if f.numeric || f.entry.MultiLine {
			f.Refresh() // its size follows the text
		}
	}
	f.entry.OnSubmitted = func(string) { f.enter() }
	f.entry.onEscape = f.escape
	f.entry.onFocus = f.focusChanged
	f.ExtendBaseWidget(outer)
}

func (f *field) focusChanged(has bool) {
	if !has && f.left != nil {
		f.left()
	}
	f.Refresh()
}

// escape leaves the field as it was typed.
func (f *field) escape() {
	if f.onEscape != nil {
		f.onEscape()
		return
	}
	f.leave(false)
}

// enter is what Enter does: what OnEnter says, else what the main button of the dialog
// around the field does, unless something there is not understood; on a page it goes to
// the next field.
func (f *field) enter() {
	s := dialogAround(f.entry)
	switch {
	case f.onEnter != nil:
		if s == nil || s.ready() {
			f.onEnter()
		}
	case s == nil || !s.submit():
		f.leave(true)
	}
}

// OnEnter gives Enter in the field another use, such as adding what was typed to a list.
func (f *field) OnEnter(do func()) { f.onEnter = do }

// OnPaste is asked first what to do with a text from the clipboard; false leaves it to
// the field.
func (f *field) OnPaste(take func(text string) bool) { f.entry.onPaste = take }

// OnKey may take a key of the field before it does: what offers answers beneath it moves
// along them so.
func (f *field) OnKey(take func(*fyne.KeyEvent) bool) { f.entry.onKey = take }

// OnEscape gives Esc in the field another use than leaving it, such as closing the
// dialog of which it is all.
func (f *field) OnEscape(do func()) { f.onEscape = do }

// leave ends the editing: to the next field, or to the page.
func (f *field) leave(next bool) {
	c := canvasOf(f.entry)
	if c == nil {
		return
	}
	if next {
		c.FocusNext()
		return
	}
	c.Unfocus()
}

// setText puts text in the entry without telling changed.
func (f *field) setText(s string) {
	f.shown = s
	if f.entry.text() == s {
		return
	}
	f.setting = true
	f.entry.SetText(s)
	f.setting = false
}

// keeps says whether the field keeps what is typed in it rather than showing another
// text: while it is edited, and while what was typed is not understood, as long as the
// record says what it said.
func (f *field) keeps(s string) bool {
	same := f.shown == s
	if f.Editing() {
		f.shown = s
		return true
	}
	return f.refused && same
}

// SetProblem shows a sentence beneath the field: why what was typed is not understood. Empty
// takes it away. Until then the dialog around the field is not saved.
func (f *field) SetProblem(sentence string) {
	f.refused = sentence != ""
	f.warn(sentence)
}

// Remark shows a sentence beneath the field about a text that stands as it is, such as
// what is missing beside it; empty takes it away.
func (f *field) Remark(sentence string) {
	f.refused = false
	f.warn(sentence)
}

func (f *field) warn(sentence string) {
	f.problem.SetText(sentence)
	SetVisible(f.problem, sentence != "")
	f.Refresh()
}

// Problem gives the sentence beneath the field, or nothing.
func (f *field) Problem() string {
	if !f.problem.Visible() {
		return ""
	}
	return f.problem.String()
}

// Understood says whether something can be made of the text.
func (f *field) Understood() bool { return !f.refused }

// ByHand says whether anything was typed in the field.
func (f *field) ByHand() bool { return f.byHand }

// labelHeight is how high the label stands over the line that is read or edited.
func (f *field) labelHeight() float32 { return heightOfLabel(f.label) }

// Name is what the field is called in a sentence: its label, or else its hint.
func (f *field) Name() string {
	if s := f.label.String(); s != "" {
		return s
	}
	return f.entry.PlaceHolder
}

// settle takes what was typed as done while the cursor stays.
func (f *field) settle() {
	if f.Editing() && f.left != nil {
		f.left()
	}
}

// Focus puts the cursor in the field. In a field of one line all of it is selected:
// what is typed then takes its place.
func (f *field) Focus() {
	focusOn(f.entry)
	if !f.entry.MultiLine {
		f.entry.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
}

// Editing says whether the field has the cursor: what is being typed should not be
// replaced by a record that changed.
func (f *field) Editing() bool { return f.entry.editing }

// Entry gives the part that takes keys, for tests that type.
func (f *field) Entry() fyne.Focusable { return f.entry }

// Tip is what pointing at the field tells: how its figure was derived.
func (f *field) Tip() string { return f.derived }

// Text gives the words in the field as they were typed.
func (f *field) Text() string { return f.entry.text() }

func (f *field) MouseIn(ev *desktop.MouseEvent) {
	f.hovered = true
	if f.derived != "" {
		showTip(f.entry, f.derived)
	}
	f.Refresh()
}

func (f *field) MouseMoved(*desktop.MouseEvent) {}

func (f *field) MouseOut() {
	f.hovered = false
	hideTip(f.entry)
	f.Refresh()
}

func (f *field) CreateRenderer() fyne.WidgetRenderer {
	r := &fieldRenderer{f: f, line: canvas.NewRectangle(color.Transparent)}
	r.update()
	return r
}
