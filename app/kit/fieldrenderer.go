package kit

import (
	"image/color"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"twinloaf/app/look"
)

// entryInset is how far the rim of an entry lies outside its words: Fyne's inner
// padding and border.
const entryInset = 9

type fieldRenderer struct {
	f    *field
	line *canvas.Rectangle
	room float32 // that the words have on their line while they are read
}

func (r *fieldRenderer) Destroy() {}

func (r *fieldRenderer) Objects() []fyne.CanvasObject {
	f := r.f
	out := []fyne.CanvasObject{f.face, r.line, f.entry, f.aside}
	if f.tail != nil {
		out = append(out, f.tail)
	}
	return append(out, f.label, f.problem) // over the ring of the entry
}

// LineHeight is how high a field without a label is: what stands beside one on its
// line, such as a sign to take the line out, is set in the middle of that.
func LineHeight() float32 {
	text, _ := Span{}.measure("M")
	return max(look.Space(8), text.Height+2*theme.InnerPadding()-look.Space(1))
}

// rowHeight is the height of the line that is read or edited: the same for both, so that
// nothing has to make room when the cursor comes. The entry's rim may reach a little
// beyond the line.
func (r *fieldRenderer) rowHeight() float32 {
	f := r.f
	return max(look.Space(8), f.face.MinSize().Height+look.Space(1), f.entry.MinSize().Height-look.Space(1))
}

func (r *fieldRenderer) MinSize() fyne.Size {
	f := r.f
	row := fyne.NewSize(look.Space(12), r.rowHeight())
	if f.numeric {
		row.Width = r.figureWidth()
		if f.tail != nil && f.aside.String() != "" {
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
	if f.problem.Visible() {
		row.Height += f.problem.MinSize().Height
		row.Width = max(row.Width, look.Space(40))
	}
	return row
}

// clipped is as much of a text as can be seen in one line.
func clipped(s string) string {
	const most = 400
	if len(s) <= most {
		return s
	}
	return strings.ToValidUTF8(s[:most], "")
}

// figureWidth is the room a figure takes, read or edited: its own, some for typing, and
// that of the unit beside it, which an empty field with a hint shows only while it is edited.
func (r *fieldRenderer) figureWidth() float32 {
	f := r.f
	w := r.written() + look.Space(4)
	if f.tail == nil && f.beside != "" {
		beside, _ := f.aside.spans[0].measure(f.beside)
		w = r.written() + look.Space(1.5) + beside.Width
	}
	return max(w+r.before(), look.Space(12))
}

// before is the room before a figure that is to end at its place.
func (r *fieldRenderer) before() float32 {
	if r.f.ends == 0 {
		return 0
	}
	return max(0, r.f.ends-r.written())
}

// written is how wide the figure is that is read or typed; without one, its hint, or the
// blank that waits for it.
func (r *fieldRenderer) written() float32 {
	f := r.f
	if text := f.entry.text(); text != "" {
		return min(f.entry.adv.width(clipped(text)), look.Space(120))
	}
	if f.entry.PlaceHolder == "" {
		return look.Space(8)
	}
	return f.face.MinSize().Width
}

func (r *fieldRenderer) Layout(size fyne.Size) {
	f := r.f
	y := float32(0)
	if f.label.Visible() {
		y = FitHeight(f.label, size.Width)
	}
	if f.entry.MultiLine {
		f.face.Resize(fyne.NewSize(size.Width, f.face.MinSize().Height))
	}
	h := r.rowHeight()
	width := size.Width
	if f.tail != nil {
		m := f.tail.MinSize()
		width -= m.Width + look.Space(1)
		Put(f.tail, fyne.NewPos(width+look.Space(1), y+(h-m.Height)/2), m)
	}
	shown := width
	if f.numeric {
		shown = min(width, r.figureWidth())
		if f.tail != nil {
			f.tail.Move(fyne.NewPos(shown+look.Space(3), f.tail.Position().Y))
		}
	}
	r.layoutRow(y, h, shown)
	y += h
	if f.problem.Visible() {
		f.problem.Move(fyne.NewPos(0, y))
		FitHeight(f.problem, size.Width)
	}
}

// layoutRow places the face and the entry over one another, so that the words stay
// where they are when the editing begins: the entry is moved out by its own inset.
func (r *fieldRenderer) layoutRow(y, h, shown float32) {
	f := r.f
	if r.room != shown {
		r.room = shown
		r.face()
	}
	m, from := f.face.MinSize(), r.before()
	faceWidth := shown
	if !f.entry.MultiLine {
		faceWidth = m.Width
	}
	Put(f.face, fyne.NewPos(from, y+(h-m.Height)/2), fyne.NewSize(faceWidth, m.Height))
	const inset = entryInset
	e := f.entry.MinSize()
	entryHeight := e.Height
	if f.entry.MultiLine {
		entryHeight = max(e.Height, h)
	}
	entryWidth := shown - from + 2*inset
	if f.numeric {
		entryWidth = max(entryWidth, look.Space(14))
	}
	Put(f.entry, fyne.NewPos(from-inset, y+(h-entryHeight)/2), fyne.NewSize(entryWidth, entryHeight))
	a := f.aside.MinSize()
	f.aside.Resize(a)
	x := from + entryWidth - inset + look.Space(1.5)
	if f.numeric && f.tail == nil { // the unit stands within, behind the figure
		x = from + r.written() + look.Space(1.5)
	} else if f.numeric {
		x += f.tail.MinSize().Width + look.Space(2)
	}
	f.aside.Move(fyne.NewPos(x, y+(h-a.Height)/2+(m.Height-a.Height)/4))
	if f.numeric {
		faceWidth = r.written()
	}
	line := max(faceWidth, look.Space(6))
	if f.ends > 0 { // else it would run into the unit
		from = max(0, from+faceWidth-line)
	}
	Put(r.line, fyne.NewPos(from, y+(h+m.Height)/2), fyne.NewSize(line, 1))
}

func (r *fieldRenderer) Refresh() {
	r.update()
	canvas.Refresh(r.f)
}

// face writes what is read. Words of one line that are longer than their room end in "…".
func (r *fieldRenderer) face() {
	f := r.f
	if f.spans == nil || f.entry.MultiLine && f.entry.editing { // it is hidden meanwhile
		return
	}
	spans := f.spans()
	if !f.entry.MultiLine && !f.numeric && len(spans) == 1 && r.room > 0 {
		spans[0].Text = Fit(spans[0], r.room)
	}
	f.face.SetSpans(spans...)
}

func (r *fieldRenderer) update() {
	f := r.f
	r.face()
	SetVisible(f.face, !f.entry.editing)
	switch {
	case f.entry.editing:
		r.line.FillColor = color.Transparent
	case f.hovered:
		r.line.FillColor = theme.Color(look.ColorInk)
	default: // what can be edited shows it
		r.line.FillColor = theme.Color(look.ColorEdge)
	}
	r.line.Refresh()
	f.label.Refresh()
	f.aside.Refresh()
	f.problem.Refresh()
	r.Layout(f.Size())
}
