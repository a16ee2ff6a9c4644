package kit

import (
	"image/color"
	"slices"
	"strings"
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"twinloaf/app/look"
)

// ChoiceField is one of several words, read like text. A tap, Enter or Space opens
// the list; the arrows go through it, and a letter goes to the next word that begins
// with it.
type ChoiceField struct {
	widget.BaseWidget
	Pressable
	OnChanged func(index int)

	label, hint string
	options     []string
	groups      []string // of each option; nil without groups
	chosen      int
	byHand      bool
}

// NewChoiceField makes a field with nothing chosen; hint is shown until then.
func NewChoiceField(label, hint string, options []string, changed func(index int)) *ChoiceField {
	c := &ChoiceField{label: label, hint: hint, options: options, chosen: -1, OnChanged: changed}
	c.Pressable = Pressable{self: c, press: c.Open}
	c.ExtendBaseWidget(c)
	return c
}

// SetOptions replaces the words; the choice is kept if the same word is still there.
func (c *ChoiceField) SetOptions(options []string) {
	c.chosen = slices.Index(options, c.Word())
	c.options = options
	c.Refresh()
}

// SetChosen chooses by index without telling OnChanged; another choice than that made by
// hand is none made by hand. -1 chooses nothing.
func (c *ChoiceField) SetChosen(i int) {
	if i < -1 || i >= len(c.options) {
		i = -1
	}
	c.byHand = c.byHand && i == c.chosen
	c.chosen = i
	c.Refresh()
}

// Chosen gives the index of the choice, or -1.
func (c *ChoiceField) Chosen() int { return c.chosen }

// Word gives the chosen word, or nothing.
func (c *ChoiceField) Word() string {
	if c.chosen < 0 || c.chosen >= len(c.options) {
		return ""
	}
	return c.options[c.chosen]
}

func (c *ChoiceField) choose(i int) {
	if i < 0 || i >= len(c.options) || i == c.chosen {
		return
	}
	c.chosen, c.byHand = i, true
	c.Refresh()
	tell(c.OnChanged, i)
}

// ByHand says whether a word was chosen in the field.
func (c *ChoiceField) ByHand() bool { return c.byHand }

// Open shows the list of words under the field.
func (c *ChoiceField) Open() {
	cv := canvasOf(c)
	if cv == nil || len(c.options) == 0 {
		return
	}
	items := make([]*fyne.MenuItem, len(c.options))
	for i, o := range c.options {
		items[i] = fyne.NewMenuItem(o, func() { c.choose(i) })
		items[i].Checked = i == c.chosen
	}
	pos := fyne.CurrentApp().Driver().AbsolutePositionForObject(c)
	showMenu(cv, pos.Add(fyne.NewPos(0, c.Size().Height)), c.grouped(items)...)
}

// grouped puts items that belong together behind one of their group's name, where there
// are groups: a long list fits then.
func (c *ChoiceField) grouped(items []*fyne.MenuItem) []*fyne.MenuItem {
	if len(c.groups) != len(items) {
		return items
	}
	var out []*fyne.MenuItem
	at := map[string]*fyne.MenuItem{}
	for i, item := range items {
		name := c.groups[i]
		if name == "" {
			out = append(out, item)
			continue
		}
		group, ok := at[name]
		if !ok {
			group = fyne.NewMenuItem(name, nil)
			group.ChildMenu = fyne.NewMenu("")
			at[name] = group
			out = append(out, group)
		}
		group.ChildMenu.Items = append(group.ChildMenu.Items, item)
		group.Checked = group.Checked || item.Checked
	}
	return out
}

// SetGroups puts each option into a group of the menu; an empty name leaves it on top.
func (c *ChoiceField) SetGroups(groups []string) { c.groups = groups }

// Tapped opens the list. It leaves the keyboard where it was: who chooses with the
// mouse goes on with the keys of the page.
func (c *ChoiceField) Tapped(*fyne.PointEvent) { c.Open() }

// TypedKey goes through the words.
func (c *ChoiceField) TypedKey(ev *fyne.KeyEvent) {
	switch ev.Name {
	case fyne.KeyDown, fyne.KeyRight:
		c.choose(c.chosen + 1)
	case fyne.KeyUp, fyne.KeyLeft:
		c.choose(c.chosen - 1)
	default:
		c.Pressable.TypedKey(ev)
	}
}

// TypedRune goes to the next word that begins with the letter; one that begins none is
// a key of the page.
func (c *ChoiceField) TypedRune(r rune) {
	n := len(c.options)
	for k := 1; k <= n; k++ {
		i := (c.chosen + k + n) % n
		if strings.HasPrefix(strings.ToLower(c.options[i]), string(unicode.ToLower(r))) {
			c.choose(i)
			return
		}
	}
	c.Pressable.TypedRune(r)
}

func (c *ChoiceField) CreateRenderer() fyne.WidgetRenderer {
	label := NewLine(Span{Text: c.label, Size: look.TextSmall, Color: look.ColorFaint})
	word := NewLine()
	mark := NewLine(Span{Text: "▾", Size: look.TextSmall, Color: look.ColorFaint})
	line := canvas.NewRectangle(color.Transparent)
	ring := NewFocusRing(0)
	SetVisible(label, c.label != "")
	d := &Drawing{Of: c, Things: []fyne.CanvasObject{ring.Object(), label, word, mark, line}}
	d.Least = func() fyne.Size {
		w := word.MinSize()
		s := fyne.NewSize(w.Width+look.Space(1.5)+mark.MinSize().Width, max(LineHeight(), w.Height))
		if label.Visible() {
			l := label.MinSize()
			s.Width, s.Height = max(s.Width, l.Width), s.Height+l.Height
		}
		return s
	}
	d.Lay = func(size fyne.Size) {
		y := float32(0)
		if label.Visible() {
			y = FitHeight(label, size.Width)
		}
		h := max(LineHeight(), word.MinSize().Height)
		w, m := word.MinSize(), mark.MinSize()
		Put(word, fyne.NewPos(0, y+(h-w.Height)/2), w)
		Put(mark, fyne.NewPos(w.Width+look.Space(1.5), y+(h-m.Height)/2), m)
		line.Move(fyne.NewPos(0, y+(h+w.Height)/2))
		whole := w.Width + look.Space(1.5) + m.Width
		line.Resize(fyne.NewSize(whole, 1))
		ring.around(fyne.NewPos(0, y+(h-w.Height)/2), fyne.NewSize(whole, w.Height))
	}
	d.Paint = func() {
		s := Span{Text: c.Word()}
		if s.Text == "" {
			s = Span{Text: c.hint, Color: look.ColorFaint}
		}
		word.SetSpans(s)
		line.FillColor = theme.Color(look.ColorEdge)
		if c.hovered {
			line.FillColor = theme.Color(look.ColorInk)
		}
		ring.Show(c, c.focused)
		label.Refresh()
		mark.Refresh()
	}
	return d.Painted()
}

// Segments shows a few words side by side of which one is chosen, with a label at
// the left (may be empty).
type Segments struct {
	widget.BaseWidget
	OnChanged func(index int)

	row    *fyne.Container
	pills  []*Pill
	chosen int
	byHand bool
}

// NewSegments makes the row.
func NewSegments(label string, words []string, chosen int, changed func(index int)) *Segments {
	s := &Segments{OnChanged: changed, row: Flow(1.5), chosen: chosen}
	if label != "" {
		s.row.Add(NewLine(Span{Text: label, Color: look.ColorFaint}))
	}
	for i, w := range words {
		p := NewChoicePill(w, i == chosen, func() { s.choose(i) })
		s.pills = append(s.pills, p)
		s.row.Add(p)
	}
	s.ExtendBaseWidget(s)
	return s
}

func (s *Segments) choose(i int) {
	if i == s.chosen {
		return
	}
	s.byHand = true
	s.SetChosen(i)
	tell(s.OnChanged, i)
}

// SetChosen chooses without telling OnChanged; -1 chooses nothing.
func (s *Segments) SetChosen(i int) {
	s.chosen = i
	for k, p := range s.pills {
		p.SetChosen(k == i)
	}
}

// Chosen gives the index of the choice, or -1.
func (s *Segments) Chosen() int { return s.chosen }

// ByHand says whether a word was chosen in the row.
func (s *Segments) ByHand() bool { return s.byHand }

func (s *Segments) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(s.row) }
