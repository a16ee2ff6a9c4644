package kit_test

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
)

func TestButtonIsPressedByTapAndKeys(t *testing.T) {
	n := 0
	b := kit.PrimaryButton("Done now", func() { n++ })
	win := window(t, b, 200, 60)
	test.Tap(b)
	if win.Canvas().Focused() != fyne.Focusable(b) {
		t.Error("a tapped button has no focus")
	}
	b.TypedKey(key(fyne.KeyReturn))
	b.TypedKey(key(fyne.KeySpace))
	b.TypedKey(key(fyne.KeyA))
	if n != 3 {
		t.Errorf("pressed %d times, want 3", n)
	}
	b.Disable()
	test.Tap(b)
	b.TypedKey(key(fyne.KeyReturn))
	if n != 3 {
		t.Error("a disabled button was pressed")
	}
}

func TestPillIsRemovedByTapAndDelete(t *testing.T) {
	n := 0
	p := kit.NewPill("spelt ≥ 15 %", func() { n++ })
	window(t, p, 200, 60)
	test.Tap(p)
	p.TypedKey(key(fyne.KeyDelete))
	if n != 2 {
		t.Errorf("removed %d times, want 2", n)
	}
}

func TestSegmentsChooseOne(t *testing.T) {
	var got []int
	s := kit.NewSegments("Show", []string{"table", "page"}, 0, func(i int) { got = append(got, i) })
	window(t, s, 300, 60)
	s.SetChosen(1)
	if len(got) != 0 || s.Chosen() != 1 {
		t.Errorf("setting told %v and chose %d", got, s.Chosen())
	}
}

func TestKeyboardFindsTheNewestSet(t *testing.T) {
	win := window(t, kit.Body("x"), 100, 100)
	k := kit.NewKeyboard(win.Canvas())
	var did []string
	note := func(s string) func() { return func() { did = append(did, s) } }
	k.Set("Window", []kit.Key{{Name: "D", Doc: "window", Do: note("window")}, {Name: "Ctrl+K", Doc: "find", Do: note("find")},
		{Name: "Esc", Do: note("esc"), Hidden: true}})
	k.Set("Page", []kit.Key{{Name: "D", Doc: "done", Do: note("page")}})
	test.TypeOnCanvas(win.Canvas(), "d")
	win.Canvas().OnTypedKey()(key(fyne.KeyEscape))
	shortcut := &desktop.CustomShortcut{KeyName: fyne.KeyK, Modifier: fyne.KeyModifierShortcutDefault}
	win.Canvas().(interface{ TypedShortcut(fyne.Shortcut) }).TypedShortcut(shortcut)
	k.Set("Page", nil)
	test.TypeOnCanvas(win.Canvas(), "D")
	want := []string{"page", "esc", "find", "window"}
	if len(did) != len(want) {
		t.Fatalf("did %v, want %v", did, want)
	}
	for i := range want {
		if did[i] != want[i] {
			t.Fatalf("did %v, want %v", did, want)
		}
	}
	if g := k.Groups(); len(g) != 1 || len(g[0].Keys) != 2 {
		t.Errorf("listed %v: hidden keys and empty sets should not be", g)
	}
}

func TestPlainKeysOfAPageReachItThroughAFocusedButton(t *testing.T) {
	b := kit.NewButton("Later", nil)
	win := window(t, b, 100, 60)
	done := false
	kit.NewKeyboard(win.Canvas()).Set("Page", []kit.Key{{Name: "D", Do: func() { done = true }}})
	typeInto(t, win, b, "d")
	if !done {
		t.Error("the key was lost in the button")
	}
}

func TestKeysRestUnderASheet(t *testing.T) {
	win := window(t, kit.Body("x"), 600, 400)
	k := kit.NewKeyboard(win.Canvas())
	n := 0
	k.Set("Page", []kit.Key{{Name: "Ctrl+D", Do: func() { n++ }}, {Name: "Ctrl+Q", Do: func() { n += 10 }, Always: true}})
	s := kit.ShowDialog(win, kit.DialogOptions{Title: "Over it"})
	k.Press("Ctrl+D")
	k.Press("Ctrl+Q")
	s.Close()
	k.Press("Ctrl+D")
	if n != 11 {
		t.Errorf("counted %d, want 11", n)
	}
}

func TestParseShortcut(t *testing.T) {
	cases := []struct{ name, want string }{
		{"Ctrl+Z", "Undo"},
		{"Ctrl+Y", "Redo"},
		{"Ctrl+V", "Paste"},
		{"Ctrl+K", "CustomDesktop:Control+K"},
		{"Ctrl+Shift+Z", "CustomDesktop:Shift+Control+Z"},
		{"Alt+Left", "CustomDesktop:Alt+Left"},
	}
	for _, c := range cases {
		s, ok := kit.ParseShortcut(c.name)
		if !ok || s.ShortcutName() != c.want {
			t.Errorf("%q gives %v, want %s", c.name, s, c.want)
		}
	}
	for _, plain := range []string{"D", "Shift+D", "+", "Ctrl+", "Hyper+A"} {
		if s, ok := kit.ParseShortcut(plain); ok {
			t.Errorf("%q gives the shortcut %v", plain, s)
		}
	}
}
