package kit

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// TypedShortcut keeps what edits text and hands every other shortcut to the window,
// which would otherwise not see it while a field is edited. Where nothing was typed
// since the field got its text, undo and redo are the window's: what a baker wants back
// in an empty field is what was kept last.
func (e *entry) TypedShortcut(s fyne.Shortcut) {
	switch s := s.(type) {
	case *fyne.ShortcutUndo:
		if e.w.untouched() {
			e.toWindow(s)
			return
		}
		e.takeBack(e.w.undo())
	case *fyne.ShortcutRedo:
		e.takeBack(e.w.redo())
	case *fyne.ShortcutSelectAll:
		e.w.selectAll()
		e.Refresh()
	case *fyne.ShortcutCopy:
		e.copyTo(s.Clipboard)
	case *fyne.ShortcutCut:
		e.copyTo(s.Clipboard)
		from, to := e.w.selected()
		e.put(from, to, "")
	case *fyne.ShortcutPaste:
		text := s.Clipboard.Content()
		switch {
		case !isWords(text): // a picture, perhaps, or files: that is for the page
			e.toWindow(s)
		case e.onPaste == nil || !e.onPaste(text):
			e.insert(e.pasted(text))
		}
	case *desktop.CustomShortcut:
		if !e.ctrl(s) {
			e.toWindow(s)
		}
	}
}

// toWindow hands a shortcut on to the window's keys.
func (e *entry) toWindow(s fyne.Shortcut) {
	if c, ok := canvasOf(e).(fyne.Shortcutable); ok {
		c.TypedShortcut(s)
	}
}

func (e *entry) takeBack(s stroke, did bool) {
	if did {
		e.changed(s)
	}
}

func (e *entry) copyTo(c fyne.Clipboard) {
	if s := e.w.selection(); s != "" {
		c.SetContent(s)
	}
}

// isWords says whether what the clipboard gives as text is to be read: not the bytes of a
// picture, which some programs give where they are asked for text, nor the names of files.
func isWords(text string) bool {
	for _, no := range []string{"\x89PNG", "\xff\xd8\xff", "file://"} {
		if strings.HasPrefix(text, no) {
			return false
		}
	}
	return text != ""
}

// pasted is what is put in for a text from elsewhere: valid, and in one line where there
// is only one.
func (e *entry) pasted(s string) string {
	s = strings.ToValidUTF8(s, "\uFFFD")
	s = strings.NewReplacer("\r\n", "\n", "\r", "\n", "\x00", "").Replace(s)
	if !e.MultiLine {
		s = strings.ReplaceAll(s, "\n", " ")
	}
	return s
}

// ctrl does what a key with Ctrl does to text, if anything.
func (e *entry) ctrl(s *desktop.CustomShortcut) bool {
	const ctrl = fyne.KeyModifierShortcutDefault
	if s.Modifier&^fyne.KeyModifierShift != ctrl {
		return false
	}
	switch s.KeyName {
	case fyne.KeyZ:
		if s.Modifier == ctrl || e.w.untouched() {
			return false
		}
		e.takeBack(e.w.redo())
	case fyne.KeyLeft, fyne.KeyRight, fyne.KeyHome, fyne.KeyEnd:
		was := e.shift
		e.shift = s.Modifier != ctrl
		e.move(s.KeyName, true)
		e.shift = was
	case fyne.KeyBackspace, fyne.KeyDelete:
		from, to := e.w.selected()
		switch {
		case from != to:
		case s.KeyName == fyne.KeyBackspace:
			from = wordBefore(e.w.text, to)
		default:
			to = wordAfter(e.w.text, from)
		}
		e.put(from, to, "")
	default:
		return false
	}
	return true
}
