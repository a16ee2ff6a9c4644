package kit

import (
	"image/color"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// KeyHint is a boxed key with what it does written beside it.
type KeyHint struct {
	widget.BaseWidget
	key, word string
	size      float32 // of its letters
}

// NewKeyHint makes a hint; word may be empty.
func NewKeyHint(key, word string) *KeyHint {
	h := &KeyHint{key: key, word: word, size: look.TextSmall}
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
	box := canvas.NewRectangle(color.Transparent)
	box.CornerRadius, box.StrokeWidth = 4, 1
	key := NewLine(Span{Size: h.size, Bold: true, Color: look.ColorFaint})
	says := Span{Text: h.word, Size: h.size, Color: look.ColorFaint}
	word, line := NewText(says), says.Extent()
	boxSize := func() fyne.Size {
		high := look.Space(5) + 2*(h.size-look.TextSmall)
		return fyne.NewSize(max(high, key.MinSize().Width+look.Space(3)), high)
	}
	d := &Drawing{Of: h, Things: []fyne.CanvasObject{box, key, word}}
	// The first line of the words is in the middle of the box.
	from := func() float32 { return (boxSize().Height - line.Height) / 2 }
	d.Least = func() fyne.Size {
		s := boxSize()
		if h.word != "" {
			s.Width += look.Space(1) + line.Width
			s.Height = max(s.Height, from()+word.MinSize().Height)
		}
		return s
	}
	d.Lay = func(size fyne.Size) {
		b, k := boxSize(), key.MinSize()
		high := max(b.Height, from()+FitHeight(word, size.Width-b.Width-look.Space(1)))
		y := (size.Height - high) / 2
		Put(box, fyne.NewPos(0, y), b)
		Put(key, fyne.NewPos((b.Width-k.Width)/2, y+(b.Height-k.Height)/2), k)
		word.Move(fyne.NewPos(b.Width+look.Space(1), y+from()))
	}
	d.Paint = func() {
		box.FillColor, box.StrokeColor = theme.Color(look.ColorRaised), theme.Color(look.ColorEdge)
		key.SetText(KeyText(h.key))
		key.Refresh()
		word.Refresh()
	}
	return d.Painted()
}

// KeyGroup is a titled list of keys.
type KeyGroup struct {
	Name string
	Keys []Key
}

// KeyList shows groups of keys one under another, each key boxed with what it does beside
// it, in as many columns as there is room for.
func KeyList(groups ...KeyGroup) fyne.CanvasObject {
	list := Stack(6)
	for _, g := range groups {
		keys := container.New(&keyColumns{})
		for _, k := range g.Keys {
			hint := NewKeyHint(k.Name, k.Doc)
			hint.size = look.TextBody
			keys.Add(hint)
		}
		list.Add(Stack(1.5, Section(g.Name), keys))
	}
	return list
}

// keyColumns sets keys down one column after another, each as wide as the widest in it; where not even
// one has room, its words go on to more lines. It remembers its width, from which its height follows.
type keyColumns struct{ width float32 }

func (l *keyColumns) MinSize(keys []fyne.CanvasObject) fyne.Size {
	_, high := l.run(keys, l.rows(keys), nil)
	return fyne.NewSize(look.Space(40), high)
}

func (l *keyColumns) Layout(keys []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	l.run(keys, l.rows(keys), func(o fyne.CanvasObject, at fyne.Position) { o.Move(at) })
}

// rows is how few stand in a column where all of them have room.
func (l *keyColumns) rows(keys []fyne.CanvasObject) int {
	for n := 1; n < len(keys); n++ {
		if wide, _ := l.run(keys, n, nil); wide <= l.width {
			return n
		}
	}
	return len(keys)
}

// run walks columns of so many rows and gives the room they need; place may be nil.
func (l *keyColumns) run(keys []fyne.CanvasObject, rows int, place func(fyne.CanvasObject, fyne.Position)) (wide, high float32) {
	x, y := float32(0), float32(0)
	for i, o := range keys {
		if i%rows == 0 && i > 0 {
			x, y = wide+look.Space(6), 0
		}
		w := o.MinSize().Width
		if rows == len(keys) && l.width > 0 {
			w = min(w, l.width)
		}
		h := FitHeight(o, w)
		if place != nil {
			place(o, fyne.NewPos(x, y))
		}
		wide, high = max(wide, x+w), max(high, y+h)
		y += h + look.Space(1.5)
	}
	return wide, high
}
