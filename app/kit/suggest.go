package kit

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// suggestMost is how many words are offered at a time.
const suggestMost = 6

// SuggestField is a text field that offers words beneath while it is edited, over what
// stands there. Down and Up go through them, Enter takes the marked one, a tap takes any.
// What is typed is kept even when no word fits it.
type SuggestField struct {
	TextField
	// OnTaken is called when an offered word is taken, after OnChanged.
	OnTaken func(word string)

	suggest func(text string) []string
	offers  []string
	marked  int // -1: none
	row     *fyne.Container
}

// NewSuggestField makes a field; suggest gives the words for a text, best first, and
// is called on the main goroutine, so it must answer at once.
func NewSuggestField(label, hint string, suggest func(text string) []string) *SuggestField {
	return newSuggestField(label, hint, Span{}, suggest)
}

// NewSuggestHeading is a suggest field whose words are set large: what matters most where it
// stands.
func NewSuggestHeading(label, hint string, suggest func(text string) []string) *SuggestField {
	return newSuggestField(label, hint, Span{Size: look.TextTitle, Serif: true}, suggest)
}

func newSuggestField(label, hint string, style Span, suggest func(text string) []string) *SuggestField {
	s := &SuggestField{suggest: suggest, marked: -1, row: Flow(1)}
	s.hint, s.style = hint, style
	s.field.init(s, label, style, false)
	s.entry.PlaceHolder = hint
	s.spans = s.words
	s.entry.onKey = s.key
	s.changed = func(text string) {
		s.offer(text)
		tell(s.OnChanged, text)
	}
	s.left = func() {
		s.hide()
		tell(s.OnDone, s.entry.text())
	}
	began := s.entry.onFocus
	s.entry.onFocus = func(has bool) {
		began(has)
		if has {
			s.offer(s.entry.text())
		}
	}
	s.Refresh()
	return s
}

// Offers gives the words offered now.
func (s *SuggestField) Offers() []string { return s.offers }

func (s *SuggestField) offer(text string) {
	s.offers = s.suggest(text)
	if len(s.offers) > suggestMost {
		s.offers = s.offers[:suggestMost]
	}
	if len(s.offers) == 1 && s.offers[0] == text {
		s.offers = nil
	}
	s.marked = -1
	s.show()
}

func (s *SuggestField) hide() {
	s.offers, s.marked = nil, -1
	s.show()
}

func (s *SuggestField) show() {
	s.row.Objects = s.row.Objects[:0]
	for i, word := range s.offers {
		s.row.Add(newOffer(word, i == s.marked, func() { s.take(word) }))
	}
	over := floatOver(s.entry)
	switch {
	case over == nil:
	case len(s.offers) > 0:
		over.show(s, s.row)
	default:
		over.hide(s.row)
	}
	s.Refresh()
}

func (s *SuggestField) key(ev *fyne.KeyEvent) bool {
	n := len(s.offers)
	switch {
	case n == 0:
		return false
	case ev.Name == fyne.KeyDown:
		s.marked = (s.marked + 1) % n
	case ev.Name == fyne.KeyUp:
		s.marked = (s.marked + n) % (n + 1)
		if s.marked == n {
			s.marked = -1
		}
	case s.marked >= 0 && (ev.Name == fyne.KeyReturn || ev.Name == fyne.KeyEnter):
		s.take(s.offers[s.marked])
		return true
	default:
		return false
	}
	s.show()
	return true
}

// take puts a word in the field.
func (s *SuggestField) take(word string) {
	s.setText(word)
	s.entry.toEnd()
	s.hide()
	tell(s.OnChanged, word)
	tell(s.OnTaken, word)
}

// offer is one word of the row. It acts when the button goes down: the field loses
// the cursor in that moment, and the row with it.
type offer struct {
	widget.BaseWidget
	word   string
	marked bool
	take   func()
}

func newOffer(word string, marked bool, take func()) *offer {
	o := &offer{word: word, marked: marked, take: take}
	o.ExtendBaseWidget(o)
	return o
}

func (o *offer) MouseDown(*desktop.MouseEvent) { o.take() }
func (o *offer) MouseUp(*desktop.MouseEvent)   {}
func (o *offer) Cursor() desktop.Cursor        { return desktop.PointerCursor }

func (o *offer) CreateRenderer() fyne.WidgetRenderer {
	box := canvas.NewRectangle(color.Transparent)
	box.CornerRadius = look.Radius
	text := NewLine(Span{Text: o.word, Size: look.TextSmall, Color: look.ColorInk})
	d := &Drawing{Of: o, Things: []fyne.CanvasObject{box, text}}
	d.Least = func() fyne.Size { return text.MinSize().Add(fyne.NewSize(look.Space(4), look.Space(1.5))) }
	d.Lay = func(size fyne.Size) {
		box.Resize(size)
		m := text.MinSize()
		Put(text, fyne.NewPos((size.Width-m.Width)/2, (size.Height-m.Height)/2), m)
	}
	d.Paint = func() {
		box.FillColor = theme.Color(look.ColorWash)
		box.StrokeWidth = 0
		if o.marked {
			box.StrokeWidth, box.StrokeColor = 2, theme.Color(look.ColorCrust)
		}
		text.Refresh()
	}
	return d.Painted()
}
