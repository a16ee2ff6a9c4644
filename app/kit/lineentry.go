package kit

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// lineEntry is Fyne's entry, which draws itself only while it is edited: at other
// times a field shows its text as a page does. It stays in the tree, so that Tab and
// clicks find it.
type lineEntry struct {
	widget.Entry
	editing   bool
	byMouse   bool
	selectAll bool // take the whole text on focus, so that typing replaces it
	onFocus   func(bool)
	onEscape  func()
	// onKey may take a key before the entry does.
	onKey func(*fyne.KeyEvent) bool
}

func newLineEntry(multi bool) *lineEntry {
	e := &lineEntry{}
	e.MultiLine = multi
	e.Wrapping = fyne.TextWrap(fyne.TextTruncateClip)
	if multi {
		e.Wrapping = fyne.TextWrapWord
	}
	e.ExtendBaseWidget(e)
	return e
}

// AcceptsTab is false: Tab always goes on to the next field.
func (e *lineEntry) AcceptsTab() bool { return false }

func (e *lineEntry) FocusGained() {
	e.editing = true
	e.Entry.FocusGained()
	if e.onFocus != nil {
		e.onFocus(true)
	}
	if e.selectAll && !e.byMouse {
		e.Entry.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
	e.Refresh()
	// What was clicked on is in sight; moving it under the pointer would make the
	// click end on something else.
	if !e.byMouse {
		reveal(e)
	}
}

func (e *lineEntry) FocusLost() {
	e.editing = false
	e.Entry.FocusLost()
	if e.onFocus != nil {
		e.onFocus(false)
	}
	e.Refresh()
}

func (e *lineEntry) MouseDown(ev *desktop.MouseEvent) {
	fresh := !e.editing
	e.byMouse = true
	e.Entry.MouseDown(ev)
	e.byMouse = fresh
}

// Tapped ends a click. The click that began the editing takes the whole text.
func (e *lineEntry) Tapped(ev *fyne.PointEvent) {
	if !e.editing {
		focusOn(e)
	}
	e.Entry.Tapped(ev)
	if e.byMouse && e.selectAll {
		e.Entry.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
	e.byMouse = false
}

func (e *lineEntry) TypedKey(ev *fyne.KeyEvent) {
	if e.onKey != nil && e.onKey(ev) {
		return
	}
	if ev.Name == fyne.KeyEscape {
		if e.onEscape != nil {
			e.onEscape()
		}
		return
	}
	e.Entry.TypedKey(ev)
}

// TypedShortcut keeps what edits text and hands every other shortcut to the window,
// which would otherwise not see it while a field is edited.
func (e *lineEntry) TypedShortcut(s fyne.Shortcut) {
	custom, ok := s.(*desktop.CustomShortcut)
	if ok && custom.KeyName == fyne.KeyZ && custom.Modifier == fyne.KeyModifierShortcutDefault|fyne.KeyModifierShift {
		e.Redo()
		return
	}
	if !ok || textKeys[custom.KeyName] {
		e.Entry.TypedShortcut(s)
		return
	}
	if c, ok := canvasOf(e).(interface{ TypedShortcut(fyne.Shortcut) }); ok {
		c.TypedShortcut(s)
	}
}

var textKeys = map[fyne.KeyName]bool{
	fyne.KeyLeft: true, fyne.KeyRight: true, fyne.KeyHome: true, fyne.KeyEnd: true,
	fyne.KeyBackspace: true, fyne.KeyDelete: true,
}

func (e *lineEntry) CreateRenderer() fyne.WidgetRenderer {
	return &quietRenderer{WidgetRenderer: e.Entry.CreateRenderer(), e: e}
}

// quietRenderer hides an entry that is not being edited.
type quietRenderer struct {
	fyne.WidgetRenderer
	e *lineEntry
}

func (r *quietRenderer) Objects() []fyne.CanvasObject {
	if !r.e.editing {
		return nil
	}
	return r.WidgetRenderer.Objects()
}

// sizedTheme is the theme of the app with text of another size. It asks the app and
// not theme.Current, which within an override is the override itself.
type sizedTheme struct{ size float32 }

func (t sizedTheme) app() fyne.Theme { return fyne.CurrentApp().Settings().Theme() }

func (t sizedTheme) Color(n fyne.ThemeColorName, v fyne.ThemeVariant) color.Color {
	return t.app().Color(n, v)
}

func (t sizedTheme) Font(s fyne.TextStyle) fyne.Resource     { return t.app().Font(s) }
func (t sizedTheme) Icon(n fyne.ThemeIconName) fyne.Resource { return t.app().Icon(n) }

func (t sizedTheme) Size(n fyne.ThemeSizeName) float32 {
	if n == theme.SizeNameText {
		return t.size
	}
	return t.app().Size(n)
}
