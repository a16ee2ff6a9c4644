package kit

import (
	"image/color"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/lang"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
	"twinloaf/journal/measure"
)

// Overdue says whether what was to be done by a time is overdue: by a whole minute. The
// zero time is none. Whatever shows that something is overdue asks here.
func Overdue(by, now time.Time) bool { return !by.IsZero() && now.Sub(by) >= time.Minute }

// OverdueWords say by how much something is overdue; empty when it is not.
func OverdueWords(by, now time.Time, u measure.Units) string {
	if !Overdue(by, now) {
		return ""
	}
	return lang.L("overdue by {{.Time}}", map[string]any{"Time": u.Span(now.Sub(by).Truncate(time.Minute))})
}

// Due says what is due when. Once it is overdue it begins with by how much, in paper on
// ember, with round ends: that is what overdue looks like wherever it is shown.
type Due struct {
	widget.BaseWidget
	bed   *canvas.Rectangle // of the tag
	tag   *Text
	words *Text
	size  float32
}

// NewDue makes a line that says nothing yet, in a size of text; 0 is that of the body.
func NewDue(size float32) *Due {
	d := &Due{bed: canvas.NewRectangle(color.Transparent), tag: NewLine(), words: NewText(), size: size}
	d.tag.Hide()
	d.ExtendBaseWidget(d)
	return d
}

// Set says what is due by a time.
func (d *Due) Set(words string, by, now time.Time, u measure.Units) {
	d.say(OverdueWords(by, now, u), words)
}

// say says by how much something is overdue, if it is, and what is due.
func (d *Due) say(late, words string) {
	if late == d.tag.String() && words == d.words.String() && d.tag.Visible() == (late != "") && d.words.Visible() == (words != "") {
		return // asked each second: the window is not to be drawn anew at each of them
	}
	d.tag.SetSpans(Span{Text: late, Size: d.size, Bold: true, Color: look.ColorPaper})
	SetVisible(d.tag, late != "")
	d.words.SetSpans(Span{Text: words, Size: d.size})
	SetVisible(d.words, words != "")
	d.Refresh()
}

// SetSize changes the size of the text.
func (d *Due) SetSize(size float32) {
	if size == d.size {
		return
	}
	d.size = size
	for _, t := range []*Text{d.tag, d.words} {
		if len(t.spans) > 0 {
			span := t.spans[0]
			span.Size = size
			t.SetSpans(span)
		}
	}
	d.Refresh()
}

// Late says that it is shown as overdue.
func (d *Due) Late() bool { return d.tag.Visible() }

// String gives everything that it says.
func (d *Due) String() string {
	if !d.Late() {
		return d.words.String()
	}
	return d.tag.String() + " " + d.words.String()
}

func (d *Due) CreateRenderer() fyne.WidgetRenderer {
	r := &Drawing{Of: d, Things: []fyne.CanvasObject{d.bed, d.tag, d.words}, Least: d.least, Lay: d.lay, Paint: d.paint}
	return r.Painted()
}

// tagSize is that of the ember under the words that say by how much it is overdue.
func (d *Due) tagSize() fyne.Size {
	if !d.Late() {
		return fyne.Size{}
	}
	m := d.tag.MinSize()
	return fyne.NewSize(m.Width+m.Height*0.8, m.Height+look.Space(0.5))
}

func (d *Due) left() float32 {
	if w := d.tagSize().Width; w > 0 {
		return w + look.Space(2)
	}
	return 0
}

// under says that the words stand beneath by how much it is overdue: that on a line of
// its own they have room, or that beside it not even their longest has.
func (d *Due) under() bool {
	width, words := d.Size().Width, d.words
	room := width - d.left()
	if d.left() == 0 || width <= 0 || !words.Visible() || words.natural <= room {
		return false
	}
	return words.natural <= width || words.MinSize().Width > room
}

func (d *Due) least() fyne.Size {
	tag, words := d.tagSize(), fyne.Size{}
	if d.words.Visible() {
		words = d.words.MinSize()
	}
	if d.under() {
		return fyne.NewSize(max(tag.Width, words.Width), tag.Height+dueGap+words.Height)
	}
	return fyne.NewSize(d.left()+words.Width, max(tag.Height, words.Height))
}

// dueGap is between by how much it is overdue and the words beneath.
const dueGap = 2

func (d *Due) lay(size fyne.Size) {
	tag, m := d.tagSize(), d.tag.MinSize()
	d.bed.Resize(tag)
	d.bed.CornerRadius = tag.Height / 2
	Put(d.tag, fyne.NewPos((tag.Width-m.Width)/2, (tag.Height-m.Height)/2), m)
	switch {
	case tag.Height == 0:
		d.words.Move(fyne.NewPos(0, 0))
		FitHeight(d.words, size.Width)
	case d.under():
		d.words.Move(fyne.NewPos(0, tag.Height+dueGap))
		FitHeight(d.words, size.Width)
	default:
		d.words.Move(fyne.NewPos(d.left(), (tag.Height-m.Height)/2))
		FitHeight(d.words, max(0, size.Width-d.left()))
	}
}

func (d *Due) paint() {
	d.bed.FillColor = theme.Color(look.ColorEmber)
	SetVisible(d.bed, d.Late())
	d.tag.Refresh()
	d.words.Refresh()
}
