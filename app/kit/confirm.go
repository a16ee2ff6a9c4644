package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"
)

// Confirm asks before something is done: a title, a sentence that says what will
// happen, the words of the button that does it, which has the keyboard. Enter does it, Esc
// does not.
func Confirm(win fyne.Window, title, sentence, yes string, do func()) *Dialog {
	return ask(win, title, sentence, PrimaryButton(yes, nil), do)
}

// ConfirmLoss asks before something is lost for good. Enter does not do it: the
// keyboard is on the other button.
func ConfirmLoss(win fyne.Window, title, sentence, yes string, do func()) *Dialog {
	return ask(win, title, sentence, EmberButton(yes, nil), do)
}

func ask(win fyne.Window, title, sentence string, yes *Button, do func()) *Dialog {
	var s *Dialog
	yes.OnTapped = func() {
		s.Close()
		do()
	}
	no := NewButton(lang.L("Cancel"), func() { s.Close() }).WithKey(lang.L("Esc"))
	begin := no
	o := DialogOptions{Title: title, Content: Body(sentence), Buttons: []fyne.CanvasObject{no, yes}}
	if yes.kind == primaryKind {
		yes.WithKey(lang.L("Enter"))
		o.OnEnter = yes.press
		begin = yes
	}
	s = ShowDialog(win, o)
	win.Canvas().Focus(begin)
	return s
}

// Message tells something that needs no answer. Enter and Esc close it.
func Message(win fyne.Window, title, sentence string) *Dialog {
	var s *Dialog
	ok := PrimaryButton(lang.L("OK"), func() { s.Close() }).WithKey(lang.L("Enter"))
	s = ShowDialog(win, DialogOptions{Title: title, Content: Body(sentence),
		Buttons: []fyne.CanvasObject{ok}, OnEnter: func() { s.Close() }})
	win.Canvas().Focus(ok)
	return s
}
