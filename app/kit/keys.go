package kit

import (
	"slices"
	"strings"
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// Key is one thing the keyboard does, declared as data by a page or the window.
//
// A plain key ("D", "?", "Esc") works while no text is being typed; one with a
// modifier ("Ctrl+Z") works always, except under an open dialog unless Always is set.
type Key struct {
	Name   string // as it is written: "D", "Ctrl+Z", "Shift+Ctrl+Z", "Alt+Left", "F1", "Esc"
	Doc    string // what it does, in a few words, already in the user's language
	Do     func()
	Always bool // also while a dialog is open
	Hidden bool // works, but is not listed
}

// Keyboard hands keys to the sets that were put on it: one per name, so that a page
// replaces the page before it. Make one per window, on the main goroutine.
type Keyboard struct {
	canvas fyne.Canvas
	order  []string
	sets   map[string][]Key
	bound  map[string]fyne.Shortcut
}

// NewKeyboard takes over the keys of a canvas that no widget wants.
func NewKeyboard(c fyne.Canvas) *Keyboard {
	k := &Keyboard{canvas: c, sets: map[string][]Key{}, bound: map[string]fyne.Shortcut{}}
	c.SetOnTypedKey(func(ev *fyne.KeyEvent) { k.typedKey(ev) })
	c.SetOnTypedRune(func(r rune) { k.typedRune(r) })
	return k
}

// Set gives a set of keys a name and puts it in force. Of two sets that name the
// same key, the one set later (by first use of its name) wins. No keys: the set is
// removed.
func (k *Keyboard) Set(name string, keys []Key) {
	if _, known := k.sets[name]; !known {
		k.order = append(k.order, name)
	}
	k.sets[name] = keys
	k.bind()
}

// Groups gives the keys in force, by set, in the order the sets were made.
func (k *Keyboard) Groups() []KeyGroup {
	var out []KeyGroup
	for _, name := range k.order {
		g := KeyGroup{Name: name, Keys: slices.DeleteFunc(slices.Clone(k.sets[name]), func(key Key) bool { return key.Hidden })}
		if len(g.Keys) > 0 {
			out = append(out, g)
		}
	}
	return out
}

// find looks for the key written as name; the newest set comes first.
func (k *Keyboard) find(name string) (Key, bool) {
	for i := len(k.order) - 1; i >= 0; i-- {
		for _, key := range k.sets[k.order[i]] {
			if sameKey(key.Name, name) {
				return key, true
			}
		}
	}
	return Key{}, false
}

// Press does what the key written as name does; false when nothing is bound to it.
func (k *Keyboard) Press(name string) bool {
	key, ok := k.find(name)
	if !ok || key.Do == nil {
		return false
	}
	if k.canvas.Overlays().Top() != nil && !key.Always {
		return false
	}
	byKey(k.canvas, key.Do)
	return true
}

func (k *Keyboard) typedRune(r rune) { k.Press(strings.ToUpper(string(r))) }

// typedKey handles keys that are no characters: those come as runes.
func (k *Keyboard) typedKey(ev *fyne.KeyEvent) {
	if name, ok := keyWords[ev.Name]; ok {
		k.Press(name)
	}
}

// bind keeps the canvas shortcuts in step with the sets.
func (k *Keyboard) bind() {
	for _, s := range k.bound {
		k.canvas.RemoveShortcut(s)
	}
	clear(k.bound)
	for _, set := range k.sets {
		for _, key := range set {
			s, ok := ParseShortcut(key.Name)
			if !ok {
				continue
			}
			name := key.Name
			k.bound[s.ShortcutName()] = s
			k.canvas.AddShortcut(s, func(fyne.Shortcut) { k.Press(name) })
		}
	}
}

// ParseShortcut reads "Ctrl+Shift+Z" into what Fyne binds; false without a modifier
// other than Shift. Undo, redo and the like become Fyne's own shortcuts, which is
// what reaches a canvas when those keys are pressed.
func ParseShortcut(name string) (fyne.Shortcut, bool) {
	var mod fyne.KeyModifier
	parts := strings.Split(name, "+")
	if len(parts) < 2 || parts[len(parts)-1] == "" {
		return nil, false
	}
	for _, p := range parts[:len(parts)-1] {
		switch strings.ToLower(p) {
		case "ctrl":
			mod |= fyne.KeyModifierShortcutDefault
		case "shift":
			mod |= fyne.KeyModifierShift
		case "alt":
			mod |= fyne.KeyModifierAlt
		default:
			return nil, false
		}
	}
	if mod&^fyne.KeyModifierShift == 0 {
		return nil, false
	}
	last := parts[len(parts)-1]
	key := fyne.KeyName(strings.ToUpper(last))
	if k, ok := signWords[strings.ToLower(last)]; ok {
		key = k
	}
	for k, word := range keyWords {
		if strings.EqualFold(word, last) && k != fyne.KeyEnter { // the one of the keypad
			key = k
		}
	}
	if mod == fyne.KeyModifierShortcutDefault {
		if s, ok := ownShortcuts[key]; ok {
			return s, true
		}
	}
	return &desktop.CustomShortcut{KeyName: key, Modifier: mod}, true
}

// ownShortcuts are the combinations that Fyne's desktop driver turns into events of
// its own before a canvas sees them.
var ownShortcuts = map[fyne.KeyName]fyne.Shortcut{
	fyne.KeyZ: &fyne.ShortcutUndo{},
	fyne.KeyY: &fyne.ShortcutRedo{},
	fyne.KeyV: &fyne.ShortcutPaste{},
	fyne.KeyC: &fyne.ShortcutCopy{},
	fyne.KeyX: &fyne.ShortcutCut{},
	fyne.KeyA: &fyne.ShortcutSelectAll{},
}

// signWords are the signs that cannot stand for themselves where "+" parts keys.
var signWords = map[string]fyne.KeyName{"plus": fyne.KeyPlus, "minus": fyne.KeyMinus, "equal": fyne.KeyEqual}

// keyWords says how keys without a character are written.
var keyWords = map[fyne.KeyName]string{
	fyne.KeyEscape: "Esc", fyne.KeyReturn: "Enter", fyne.KeyEnter: "Enter", fyne.KeyDelete: "Delete",
	fyne.KeyBackspace: "Backspace", fyne.KeyLeft: "Left", fyne.KeyRight: "Right", fyne.KeyUp: "Up",
	fyne.KeyDown: "Down", fyne.KeyHome: "Home", fyne.KeyEnd: "End", fyne.KeyPageUp: "Page up",
	fyne.KeyPageDown: "Page down", fyne.KeyF1: "F1", fyne.KeyF2: "F2", fyne.KeyF3: "F3", fyne.KeyF4: "F4",
	fyne.KeyF5: "F5", fyne.KeyF6: "F6", fyne.KeyF7: "F7", fyne.KeyF8: "F8", fyne.KeyF9: "F9",
	fyne.KeyF10: "F10", fyne.KeyF11: "F11", fyne.KeyF12: "F12",
}

func sameKey(a, b string) bool {
	return strings.EqualFold(strings.TrimSpace(a), strings.TrimSpace(b)) ||
		(strings.EqualFold(a, "Space") && b == " ")
}

// PassRune hands on a character that a focused button or picture has no use for, so
// that the keys of a page work wherever the focus is.
func PassRune(o fyne.CanvasObject, r rune) {
	if unicode.IsSpace(r) {
		return
	}
	if c := canvasOf(o); c != nil && c.OnTypedRune() != nil {
		c.OnTypedRune()(r)
	}
}

// PassKey hands on a key without a character, as [PassRune] does.
func PassKey(o fyne.CanvasObject, ev *fyne.KeyEvent) {
	if c := canvasOf(o); c != nil && c.OnTypedKey() != nil {
		c.OnTypedKey()(ev)
	}
}

func canvasOf(o fyne.CanvasObject) fyne.Canvas {
	return fyne.CurrentApp().Driver().CanvasForObject(o)
}

// focusOn gives a thing the keys. What was put up just now is not drawn yet and knows
// no canvas: it is looked for in every window.
func focusOn(o fyne.Focusable) {
	if c := canvasOf(o.(fyne.CanvasObject)); c != nil {
		c.Focus(o)
		return
	}
	for _, w := range fyne.CurrentApp().Driver().AllWindows() {
		w.Canvas().Focus(o)
	}
}
