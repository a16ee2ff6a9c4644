package kit

import (
	"image/color"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// field is what all fields share: a label, a text that is read like a page, and an
// entry that takes its place while it is edited, with a sentence beneath when what
// was typed cannot be understood.
type field struct {
	widget.BaseWidget
	label, face, aside, problem *Text
	entry                       *lineEntry
	entryBox                    fyne.CanvasObject
	tail                        fyne.CanvasObject // at the right of the entry
	under                       fyne.CanvasObject // beneath it, while editing
	derived                     string
	numeric                     bool // no wider than its figure, with the unit beside it
	hovered                     bool
	// spans writes the face from the state of the outer field.
	spans func() []Span
	// changed is told of each change of the text by typing.
	changed func(string)
	// left is told when the editing ends.
	left   func()
	before string // the text when the editing began
}

// init prepares a field; outer is the widget that embeds it.
func (f *field) init(outer fyne.Widget, label string, size float32, multi bool) {
	f.label = Small(label)
	f.face = NewText()
	if !multi {
		f.face = NewLine()
	}
	f.aside = NewLine(Span{Size: look.TextSmall, Color: look.ColorFaint})
	f.problem = NewText(Span{Size: look.TextSmall, Color: look.ColorEmber})
	f.problem.Hide()
	show(f.label, label != "")
	f.entry = newLineEntry(multi)
	f.entryBox = f.entry
	if size > look.TextLead {
		f.entryBox = container.NewThemeOverride(f.entry, sizedTheme{size})
	}
	f.entry.OnChanged = func(s string) {
		if f.changed != nil {
			f.changed(s)
		}
		if f.numeric || f.entry.MultiLine {
			f.Refresh() // its size follows the text
		}
	}
	f.entry.OnSubmitted = func(string) { f.leave(true) }
	f.entry.onEscape = f.escape
	f.entry.onFocus = f.focusChanged
	f.ExtendBaseWidget(outer)
}

func (f *field) focusChanged(has bool) {
	if has {
		f.before = f.entry.Text
		f.entryBox.Refresh() // gives a size of its own to what a hidden entry did not show
	} else if f.left != nil {
		f.left()
	}
	f.Refresh()
}

// escape takes back what was typed; a second time it leaves the field.
func (f *field) escape() {
	if f.entry.Text != f.before {
		f.entry.SetText(f.before)
		return
	}
	f.leave(false)
}

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
	if f.entry.Text == s {
		return
	}
	told := f.changed
	f.changed = nil
	f.entry.SetText(s)
	f.changed = told
	f.before = s
}

// say shows a sentence beneath; empty hides it.
func (f *field) say(sentence string) {
	f.problem.SetText(sentence)
	show(f.problem, sentence != "")
	f.Refresh()
}

// Problem gives the sentence beneath the field, or nothing.
func (f *field) Problem() string {
	if !f.problem.Visible() {
		return ""
	}
	return f.problem.String()
}

// SetProblem shows a sentence beneath the field, such as a mistake that only the
// page can see; empty takes it away.
func (f *field) SetProblem(sentence string) { f.say(sentence) }

// SetLabel changes the words above the field.
func (f *field) SetLabel(s string) {
	f.label.SetText(s)
	show(f.label, s != "")
	f.Refresh()
}

// Focus puts the cursor in the field.
func (f *field) Focus() { focusOn(f.entry) }

// Editing says whether the field has the cursor: what is being typed should not be
// replaced by a record that changed.
func (f *field) Editing() bool { return f.entry.editing }

// Entry gives the part that takes keys, for tests that type.
func (f *field) Entry() fyne.Focusable { return f.entry }

// Text gives the words in the field as they were typed.
func (f *field) Text() string { return f.entry.Text }

// MouseIn is called by Fyne.
func (f *field) MouseIn(ev *desktop.MouseEvent) {
	f.hovered = true
	if f.derived != "" {
		showTip(f.entry, f.derived)
	}
	f.Refresh()
}

// MouseMoved is called by Fyne.
func (f *field) MouseMoved(*desktop.MouseEvent) {}

// MouseOut is called by Fyne.
func (f *field) MouseOut() {
	f.hovered = false
	hideTip(f.entry)
	f.Refresh()
}

// CreateRenderer is called by Fyne.
func (f *field) CreateRenderer() fyne.WidgetRenderer {
	r := &fieldRenderer{f: f, line: canvas.NewRectangle(color.Transparent)}
	r.update()
	return r
}

type fieldRenderer struct {
	f    *field
	line *canvas.Rectangle
}

func (r *fieldRenderer) Destroy() {}

func (r *fieldRenderer) Objects() []fyne.CanvasObject {
	f := r.f
	out := []fyne.CanvasObject{f.label, f.face, f.aside, r.line, f.entryBox}
	if f.tail != nil {
		out = append(out, f.tail)
	}
	if f.under != nil {
		out = append(out, f.under)
	}
	return append(out, f.problem)
}

// rowHeight is the height of the line that is read or edited.
func (r *fieldRenderer) rowHeight() float32 {
	f := r.f
	h := max(look.Space(7), f.face.MinSize().Height+look.Space(1))
	switch {
	case !f.entry.MultiLine: // the entry's rim may reach a little beyond the line
		h = max(h, f.entryBox.MinSize().Height-look.Space(1))
	case f.entry.editing:
		h = max(h, f.entry.MinSize().Height)
	}
	return h
}

func (r *fieldRenderer) MinSize() fyne.Size {
	f := r.f
	row := fyne.NewSize(look.Space(12), r.rowHeight())
	if f.numeric {
		row.Width = r.figureWidth()
		if f.aside.String() != "" {
			row.Width += look.Space(1.5) + f.aside.MinSize().Width
		}
	}
	if f.tail != nil {
		row.Width += f.tail.MinSize().Width + look.Space(1)
	}
	if f.label.Visible() {
		m := f.label.MinSize()
		row.Height += m.Height
		row.Width = max(row.Width, m.Width)
	}
	if f.under != nil && f.under.Visible() {
		row.Height += f.under.MinSize().Height + look.Space(2)
	}
	if f.problem.Visible() {
		row.Height += f.problem.MinSize().Height
		row.Width = max(row.Width, look.Space(40))
	}
	return row
}

// figureWidth is the room a figure takes: its own, and some for typing.
func (r *fieldRenderer) figureWidth() float32 {
	f := r.f
	w := f.face.MinSize().Width
	if f.entry.editing {
		s := Span{Text: f.entry.Text}
		if f.entryBox != fyne.CanvasObject(f.entry) {
			s.Size = look.TextTitle
		}
		size, _ := s.measure(s.Text)
		w = max(w, size.Width+look.Space(4), look.Space(12))
	}
	return w
}

func (r *fieldRenderer) Layout(size fyne.Size) {
	f := r.f
	y := float32(0)
	if f.label.Visible() {
		y = fitHeight(f.label, size.Width)
	}
	if f.entry.MultiLine {
		f.face.Resize(fyne.NewSize(size.Width, f.face.MinSize().Height))
	}
	h := r.rowHeight()
	width := size.Width
	if f.tail != nil {
		m := f.tail.MinSize()
		width -= m.Width + look.Space(1)
		f.tail.Resize(m)
		f.tail.Move(fyne.NewPos(width+look.Space(1), y+(h-m.Height)/2))
	}
	shown := width
	if f.numeric {
		shown = min(width, r.figureWidth())
		if f.tail != nil {
			f.tail.Move(fyne.NewPos(shown+look.Space(3), f.tail.Position().Y))
		}
	}
	r.layoutRow(y, h, width, shown)
	y += h
	if f.under != nil && f.under.Visible() {
		f.under.Move(fyne.NewPos(0, y+look.Space(1)))
		y += fitHeight(f.under, size.Width) + look.Space(2)
	}
	if f.problem.Visible() {
		f.problem.Move(fyne.NewPos(0, y))
		fitHeight(f.problem, size.Width)
	}
}

// layoutRow places the face and the entry over one another, so that the words stay
// where they are when the editing begins: the entry is moved out by its own inset.
func (r *fieldRenderer) layoutRow(y, h, width, shown float32) {
	f := r.f
	m := f.face.MinSize()
	faceWidth := shown
	if !f.entry.MultiLine {
		faceWidth = m.Width
	}
	f.face.Resize(fyne.NewSize(faceWidth, m.Height))
	f.face.Move(fyne.NewPos(0, y+(h-m.Height)/2))
	const inset = 9 // Fyne's inner padding and border
	e := f.entry.MinSize()
	entryHeight := e.Height
	if f.entry.MultiLine {
		entryHeight = max(e.Height, h)
	}
	entryWidth := shown + 2*inset
	if f.numeric {
		entryWidth = max(entryWidth, look.Space(14))
	}
	f.entryBox.Resize(fyne.NewSize(entryWidth, entryHeight))
	f.entryBox.Move(fyne.NewPos(-inset, y+(h-entryHeight)/2))
	a := f.aside.MinSize()
	f.aside.Resize(a)
	x := faceWidth + look.Space(1.5)
	if f.entry.editing {
		x = entryWidth - inset + look.Space(1.5)
	}
	if f.tail != nil && f.numeric {
		x += f.tail.MinSize().Width + look.Space(2)
	}
	f.aside.Move(fyne.NewPos(x, y+(h-a.Height)/2+(m.Height-a.Height)/4))
	r.line.Move(fyne.NewPos(0, y+(h+m.Height)/2))
	r.line.Resize(fyne.NewSize(max(faceWidth, look.Space(6)), 1))
}

func (r *fieldRenderer) Refresh() {
	r.update()
	canvas.Refresh(r.f)
}

func (r *fieldRenderer) update() {
	f := r.f
	if f.spans != nil {
		f.face.SetSpans(f.spans()...)
	}
	show(f.face, !f.entry.editing)
	if f.entry.MultiLine {
		rows := 2 + strings.Count(f.entry.Text, "\n")
		if f.Size().Width > 0 {
			lines, _ := breakText([]Span{{Text: f.entry.Text}}, f.Size().Width)
			rows = max(rows, len(lines)+1)
		}
		f.entry.SetMinRowsVisible(min(rows, 16))
	}
	r.line.FillColor = color.Transparent
	if f.hovered && !f.entry.editing {
		r.line.FillColor = theme.Color(look.ColorEdge)
	}
	r.line.Refresh()
	f.label.Refresh()
	f.aside.Refresh()
	f.problem.Refresh()
	if f.under != nil {
		f.under.Refresh()
	}
	r.Layout(f.Size())
}
