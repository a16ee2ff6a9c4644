package kit_test

import (
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
	"twinloaf/journal/measure"
)

// guarded is a dialog with a figure and a name, and how often it was saved.
func guarded(t *testing.T) (win fyne.Window, s *kit.Dialog, figure *kit.QuantityField, name *kit.TextField, save *kit.Button, saved *int) {
	t.Helper()
	saved = new(int)
	figure = kit.NewQuantityField(kit.QuantityOptions{Label: "Weight", Measure: measure.Units{}.Weight()})
	name = kit.NewTextField("Name", "")
	done := func() { *saved++ }
	name.OnEnter(done)
	save = kit.PrimaryButton("Save", done)
	win = window(t, kit.Body(""), 500, 400)
	s = kit.ShowDialog(win, kit.DialogOptions{Title: "A sheet", OnEnter: done, Buttons: []fyne.CanvasObject{save},
		Content: container.NewVScroll(kit.Stack(2, figure, kit.Row(1, name)))})
	return win, s, figure, name, save, saved
}

func TestSheetIsNotSavedWithAFigureThatIsNotUnderstood(t *testing.T) {
	win, s, figure, name, save, saved := guarded(t)
	typeInto(t, win, figure.Entry(), "a handful")
	for how, do := range map[string]func(){
		"the button":       func() { test.Tap(save) },
		"Enter":            func() { win.Canvas().Unfocus(); win.Canvas().OnTypedKey()(key(fyne.KeyReturn)) },
		"Enter in a field": func() { win.Canvas().Focus(name.Entry()); name.Entry().TypedKey(key(fyne.KeyReturn)) },
	} {
		do()
		if *saved != 0 || !s.Open() || figure.Text() != "a handful" || !figure.Editing() {
			t.Errorf("%s: saved %d times, open %v, text %q, cursor there %v", how, *saved, s.Open(), figure.Text(), figure.Editing())
		}
		if !shows(win, "Not saved yet: look at “Weight”.") {
			t.Errorf("%s: the sheet does not say which field", how)
		}
	}
	typeInto(t, win, figure.Entry(), "")
	figure.Focus()
	more(figure.Entry(), "12")
	test.Tap(save)
	if *saved != 1 || shows(win, "Not saved yet: look at “Weight”.") {
		t.Errorf("with a good figure it is saved %d times", *saved)
	}
}

func TestSheetAsksBeforeItLosesWhatWasTyped(t *testing.T) {
	win, s, figure, name, _, _ := guarded(t)
	escape := func() {
		if f := win.Canvas().Focused(); f != nil {
			f.TypedKey(key(fyne.KeyEscape))
			return
		}
		win.Canvas().OnTypedKey()(key(fyne.KeyEscape))
	}
	typeInto(t, win, name.Entry(), "Gorse")
	typeInto(t, win, figure.Entry(), "much")
	escape()
	if !s.Open() || figure.Editing() {
		t.Fatal("the first Esc does more than leaving the field")
	}
	escape()
	if !s.Open() || !shows(win, "Close without saving?") || !shows(win, "“Weight” is not understood, and nothing typed here is saved.") {
		t.Fatal("the second Esc does not ask")
	}
	escape()
	if !s.Open() || name.Text() != "Gorse" || figure.Text() != "much" {
		t.Error("going back loses what was typed")
	}
	escape()
	for _, b := range buttons(win) {
		if b.Label() == "Close without saving" {
			test.Tap(b)
		}
	}
	if s.Open() || win.Canvas().Overlays().Top() != nil {
		t.Error("it is still open after the answer")
	}
}

func TestSheetWithoutAWordOfOnesOwnClosesAtOnce(t *testing.T) {
	win, s, figure, _, _, _ := guarded(t)
	figure.SetValue(12)
	win.Canvas().OnTypedKey()(key(fyne.KeyEscape))
	if s.Open() {
		t.Error("a sheet in which nothing was typed asks")
	}
}

func TestFocusSelectsTheWholeLine(t *testing.T) {
	f := kit.NewTextField("as a ratio", "1:2:2")
	window(t, f, 300, 80)
	f.SetText("1:1.52:1.52")
	f.Focus()
	more(f.Entry(), "1:1:1")
	if f.Text() != "1:1:1" {
		t.Errorf("a key that goes to a field leaves %q", f.Text())
	}
}

// Whoever has only a mouse can leave every sheet: one with fields, and one to be read, has a
// button for what Esc does; what only asks for an OK, and a work under way, has its own.
func TestASheetIsLeftByMouse(t *testing.T) {
	win, s, _, name, _, _ := guarded(t)
	typeInto(t, win, name.Entry(), "Gorse")
	tapOn(t, win, "Cancel")
	if !s.Open() || !shows(win, "Close without saving?") {
		t.Errorf("Cancel loses what was typed")
	}
	tapOn(t, win, "Close without saving")
	if s.Open() {
		t.Error("it stays")
	}
	altered := kit.ShowDialog(win, kit.DialogOptions{Title: "Altered", Content: kit.NewTextField("Name", ""),
		Buttons: []fyne.CanvasObject{kit.QuietButton("Delete", nil), kit.PrimaryButton("Save", nil)}})
	tapOn(t, win, "Cancel")
	if altered.Open() {
		t.Error("what may be deleted cannot be left as it is by mouse")
	}
	read := kit.ShowDialog(win, kit.DialogOptions{Title: "To read", Content: kit.Body("words")})
	tapOn(t, win, "Close")
	if read.Open() {
		t.Error("what is read cannot be closed by mouse")
	}
	told := kit.ShowDialog(win, kit.DialogOptions{Title: "Told", Content: kit.Body("words"), Buttons: []fyne.CanvasObject{kit.PrimaryButton("OK", nil)}})
	if shows(win, "Cancel") {
		t.Error("what is only told can be cancelled")
	}
	told.Close()
}

// tapOn taps the uppermost button that says words.
func tapOn(t *testing.T, win fyne.Window, words string) {
	t.Helper()
	for _, b := range slices.Backward(buttons(win)) {
		if b.Label() == words {
			test.Tap(b)
			return
		}
	}
	t.Fatalf("no button says %q", words)
}

// One dialog takes another's place only when nothing typed is lost by it.
func TestADialogIsLeftForAnother(t *testing.T) {
	win, s, _, name, _, _ := guarded(t)
	typeInto(t, win, name.Entry(), "Gorse")
	gone := 0
	leave := func() { s.Leave(func() { gone++ }) }
	leave()
	tapOn(t, win, "Keep writing")
	if gone != 0 || !s.Open() {
		t.Errorf("left %d times while it is written in", gone)
	}
	leave()
	tapOn(t, win, "Close without saving")
	if gone != 1 || s.Open() {
		t.Errorf("left %d times, open %v", gone, s.Open())
	}
}
