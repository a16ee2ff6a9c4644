package kit

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"
)

// A filledIn is a field as its dialog sees it.
type filledIn interface {
	fyne.CanvasObject
	Understood() bool
	Name() string
	Focus()
	settle()
}

// A handled is anything in a dialog that may hold what was typed or chosen there.
type handled interface{ ByHand() bool }

// dialogAround gives the dialog that a thing lies in, which is on top while it is used.
func dialogAround(o fyne.CanvasObject) *Dialog {
	c := canvasOf(o)
	if c == nil {
		return nil
	}
	s, _ := c.Overlays().Top().(*Dialog)
	return s
}

// Ready says whether the dialog is open and everything typed in it is understood, and
// tells the baker what is not: what a key of the page does for the dialog waits for it
// too.
func (s *Dialog) Ready() bool { return s.Open() && s.ready() }

// ready says whether everything typed in the dialog is understood. If something is not,
// it says which field, and puts the cursor there: the dialog is not saved meanwhile.
func (s *Dialog) ready() bool {
	fields := within[filledIn](s.content)
	for _, f := range fields {
		f.settle()
	}
	for _, f := range fields {
		if !f.Understood() {
			s.told.SetText(lang.L("Not saved yet: look at “{{.Field}}”.", map[string]any{"Field": f.Name()}))
			s.told.Show()
			s.Refresh()
			f.Focus()
			return false
		}
	}
	if s.told.Visible() {
		s.told.Hide()
		s.Refresh()
	}
	return true
}

// escape is what Esc does.
func (s *Dialog) escape() {
	if s.o.OnEscape != nil {
		s.o.OnEscape()
		return
	}
	s.Leave(func() {})
}

// Leave closes the dialog, after asking if something was typed or chosen in it that would be
// lost, and then does what follows; if the baker goes on writing, nothing.
func (s *Dialog) Leave(then func()) {
	if s.o.Passing || !s.holds() {
		s.Close()
		then()
		return
	}
	sentence := lang.L("What you did here is not saved.")
	for _, f := range within[filledIn](s.content) {
		if !f.Understood() {
			sentence = lang.L("“{{.Field}}” is not understood, and nothing typed here is saved.", map[string]any{"Field": f.Name()})
			break
		}
	}
	var q *Dialog
	back := func() { q.Close() }
	q = showDialog(s.canvas, DialogOptions{Title: lang.L("Close without saving?"), Content: Body(sentence), OnEnter: back,
		Buttons: []fyne.CanvasObject{
			QuietButton(lang.L("Close without saving"), func() { q.Close(); s.Close(); then() }),
			PrimaryButton(lang.L("Keep writing"), back).WithKey(lang.L("Enter")),
		}})
}

// holds says whether something in the dialog was typed or chosen by hand.
func (s *Dialog) holds() bool {
	return s.o.Holds != nil && s.o.Holds() || slices.ContainsFunc(within[handled](s.content), handled.ByHand)
}

// within lists what of a kind is visible in a thing, in order: through containers,
// scrolls, themes and segments, which is what dialogs are made of.
func within[T any](o fyne.CanvasObject) []T {
	if o == nil || !o.Visible() {
		return nil
	}
	var out []T
	if t, ok := o.(T); ok {
		return append(out, t)
	}
	switch o := o.(type) {
	case *fyne.Container:
		for _, child := range o.Objects {
			out = append(out, within[T](child)...)
		}
	case *container.Scroll:
		out = within[T](o.Content)
	case *container.ThemeOverride:
		out = within[T](o.Content)
	case *Segments:
		out = within[T](o.row)
	}
	return out
}
