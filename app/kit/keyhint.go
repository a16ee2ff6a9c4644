package kit

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/lang"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// KeyHint is a boxed key with what it does written beside it.
type KeyHint struct {
	widget.BaseWidget
	key, word string
}

// NewKeyHint makes a hint; word may be empty.
func NewKeyHint(key, word string) *KeyHint {
	h := &KeyHint{key: key, word: word}
	h.ExtendBaseWidget(h)
	return h
}

// KeyText writes the name of a key, or of some pressed together, as the keyboards of the
// baker's language have it: "Strg+Z".
func KeyText(name string) string {
	if len(name) < 2 {
		return name
	}
	words := map[string]string{
		"Ctrl": lang.L("Ctrl"), "Shift": lang.L("Shift"), "Alt": lang.L("Alt"), "Enter": lang.L("Enter"), "Esc": lang.L("Esc"),
		"Plus": "+", "Minus": "−",
		"Space": lang.L("Space"), "Tab": lang.L("Tab"), "Delete": lang.L("Del"), "Backspace": lang.L("Backspace"),
		"Left": lang.L("Left"), "Right": lang.L("Right"), "Up": lang.L("Up"), "Down": lang.L("Down"),
		"Home": lang.L("Home"), "End": lang.L("End"), "Page up": lang.L("Page up"), "Page down": lang.L("Page down"),
	}
	parts := strings.Split(name, "+")
	for i, p := range parts {
		if word, ok := words[p]; ok {
			parts[i] = word
		}
	}
	return strings.Join(parts, "+")
}

func (h *KeyHint) CreateRenderer() fyne.WidgetRenderer {
	box := canvas.NewRectangle(theme.Color(look.ColorRaised))
	box.CornerRadius = 4
	box.StrokeWidth = 1
	r := &keyHintRenderer{hint: h, box: box,
		key:  NewLine(Span{Text: KeyText(h.key), Size: look.TextSmall, Bold: true, Color: look.ColorFaint}),
		word: NewLine(Span{Text: h.word, Size: look.TextSmall, Color: look.ColorFaint}),
	}
	r.Refresh()
	return r
}

type keyHintRenderer struct {
	hint      *KeyHint
	box       *canvas.Rectangle
	key, word *Text
}

func (r *keyHintRenderer) Destroy() {}
func (r *keyHintRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.box, r.key, r.word}
}

func (r *keyHintRenderer) boxSize() fyne.Size {
	m := r.key.MinSize()
	return fyne.NewSize(max(look.Space(5), m.Width+look.Space(3)), look.Space(5))
}

func (r *keyHintRenderer) MinSize() fyne.Size {
	s := r.boxSize()
	if r.hint.word != "" {
		s.Width += look.Space(1) + r.word.MinSize().Width
	}
	return s
}

func (r *keyHintRenderer) Layout(size fyne.Size) {
	b := r.boxSize()
	mid := size.Height / 2
	Put(r.box, fyne.NewPos(0, mid-b.Height/2), b)
	k, w := r.key.MinSize(), r.word.MinSize()
	Put(r.key, fyne.NewPos((b.Width-k.Width)/2, mid-k.Height/2), k)
	Put(r.word, fyne.NewPos(b.Width+look.Space(1), mid-w.Height/2), w)
}

func (r *keyHintRenderer) Refresh() {
	r.box.FillColor = theme.Color(look.ColorRaised)
	r.box.StrokeColor = theme.Color(look.ColorEdge)
	r.box.Refresh()
	r.key.SetText(KeyText(r.hint.key))
	r.word.SetText(r.hint.word)
	r.key.Refresh()
	r.word.Refresh()
	r.Layout(r.hint.Size())
}
