package kit

import (
	"strings"

	"twinloaf/app/look"
)

// TextField is one line of words, read first and edited in place. Esc leaves it as it
// was typed, Enter goes to the next field (in a dialog it does what the button says), Ctrl+Z in it takes typing back.
type TextField struct {
	field
	// OnChanged is called at each change by typing.
	OnChanged func(text string)
	// OnDone is called when the cursor leaves the field.
	OnDone func(text string)

	style Span
	hint  string
}

// NewTextField makes a field with a label above (may be empty) and a hint shown
// while there are no words.
func NewTextField(label, hint string) *TextField {
	t := &TextField{hint: hint}
	t.build(label, false)
	return t
}

// NewHeadingField is a text field set as a page's subheading: the name of a bake.
func NewHeadingField(hint string) *TextField {
	t := &TextField{hint: hint, style: Span{Size: look.TextTitle, Serif: true}}
	t.build("", false)
	return t
}

// NewNoteField makes a field of many lines that grows with its words.
func NewNoteField(label, hint string) *TextField {
	t := &TextField{hint: hint}
	t.build(label, true)
	return t
}

func (t *TextField) build(label string, multi bool) {
	t.field.init(t, label, t.style, multi)
	t.entry.PlaceHolder = t.hint
	t.spans = t.words
	t.changed = func(s string) { tell(t.OnChanged, s) }
	t.left = func() { tell(t.OnDone, t.entry.text()) }
	t.Refresh()
}

func (t *TextField) words() []Span {
	s := t.style
	s.Text = t.entry.text()
	if strings.TrimSpace(s.Text) == "" {
		s.Text, s.Color = t.hint, look.ColorFaint
	}
	return []Span{s}
}

// SelectWhole has the whole text selected whenever the cursor comes into the field, as
// in a field of a figure: what is typed then takes its place.
func (t *TextField) SelectWhole() { t.entry.selectAll = true }

// Empty takes the words away, while the field is edited, too: they were handed on.
func (t *TextField) Empty() {
	t.setText("")
	t.SetProblem("")
}

// SetText shows other words. While the field is edited it changes nothing, so that
// a record that was just saved does not move the cursor; nor does it while what was
// typed is not understood and s is what the field was last given.
func (t *TextField) SetText(s string) {
	same := t.shown == s && t.entry.text() == s
	if t.keeps(s) || same && !t.refused {
		return // a remark about it stays
	}
	t.setText(s)
	t.SetProblem("")
}
