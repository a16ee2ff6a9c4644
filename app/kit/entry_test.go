package kit

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
)

// Whatever is typed, deleted or pasted anywhere, the rows are those of the text broken
// as a whole, they hold all of it, and all of it can be taken back.
func TestRowsFollowEveryChange(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 9))
	e := newEntry(true, Span{})
	test.NewTempWindow(t, e)
	e.Resize(fyne.NewSize(240, 300))
	e.SetText(strings.Repeat("slack after the second turn; ", 40) + "\n\n" + strings.Repeat("x", 300))
	begun := e.text()
	pieces := []string{"a", " ", "\n", "ß", "long ", strings.Repeat("w", 90), "two words\nand a line", "  ", "\u0301"}
	for i := range 600 {
		from := rng.IntN(len(e.text()) + 1)
		for !startsRune(e.text(), from) {
			from--
		}
		to := from
		if rng.IntN(3) == 0 {
			to = e.w.after(min(len(e.text()), from+rng.IntN(40)))
			for !startsRune(e.text(), to) {
				to++
			}
		}
		with := ""
		if rng.IntN(4) > 0 {
			with = pieces[rng.IntN(len(pieces))]
		}
		e.put(from, max(from, to), with)
		if want := wrapRows(e.text(), e.adv, e.wrapRoom()); !slices.Equal(e.rows, want) {
			t.Fatalf("after change %d (%d to %d, %q) the rows are %v, want %v", i, from, to, with, e.rows, want)
		}
	}
	for i, r := range e.rows {
		if r.start > r.end || i > 0 && r.start-e.rows[i-1].end > 1 {
			t.Fatalf("row %d is %v after %v", i, r, e.rows[max(0, i-1)])
		}
	}
	ended := e.text()
	for len(e.w.done) > 0 {
		e.TypedShortcut(&fyne.ShortcutUndo{})
	}
	if e.text() != begun || !slices.Equal(e.rows, wrapRows(begun, e.adv, e.wrapRoom())) {
		t.Error("taking everything back does not lead to the beginning")
	}
	for len(e.w.undone) > 0 {
		e.TypedShortcut(&fyne.ShortcutRedo{})
	}
	if e.text() != ended {
		t.Error("making everything again does not lead to the end")
	}
}

func TestUndoGoesWordByWord(t *testing.T) {
	e := newEntry(true, Span{})
	test.NewTempWindow(t, e)
	for _, r := range "one two three" {
		e.TypedRune(r)
	}
	for _, want := range []string{"one two ", "one ", "", ""} {
		e.TypedShortcut(&fyne.ShortcutUndo{})
		if e.text() != want {
			t.Errorf("taken back: %q, want %q", e.text(), want)
		}
	}
}

func TestEntryMovesAndSelects(t *testing.T) {
	e := newEntry(true, Span{})
	w := test.NewTempWindow(t, e)
	e.Resize(fyne.NewSize(400, 300))
	w.Canvas().Focus(e)
	e.SetText("first line here\nsecond\nthird ½ cup")
	press := func(keys ...fyne.KeyName) {
		for _, k := range keys {
			e.TypedKey(&fyne.KeyEvent{Name: k})
		}
	}
	ctrl := func(k fyne.KeyName, more fyne.KeyModifier) {
		e.TypedShortcut(&desktop.CustomShortcut{KeyName: k, Modifier: fyne.KeyModifierShortcutDefault | more})
	}
	at := func(what string, want int) {
		t.Helper()
		if e.w.caret != want {
			t.Errorf("%s: the caret is at %d, want %d", what, e.w.caret, want)
		}
	}
	ctrl(fyne.KeyHome, 0)
	at("Ctrl+Home", 0)
	press(fyne.KeyEnd)
	at("End", 15)
	press(fyne.KeyDown)
	at("Down from beyond a shorter line", 22)
	press(fyne.KeyDown, fyne.KeyUp, fyne.KeyUp)
	at("back up it comes to its old place", 15)
	ctrl(fyne.KeyLeft, 0)
	at("a word to the left", 11)
	ctrl(fyne.KeyLeft, fyne.KeyModifierShift)
	if got := e.w.selection(); got != "line " {
		t.Errorf("Ctrl+Shift+Left selects %q", got)
	}
	e.TypedRune('ñ')
	if want := "first ñhere\nsecond\nthird ½ cup"; e.text() != want {
		t.Errorf("typed over: %q, want %q", e.text(), want)
	}
	ctrl(fyne.KeyEnd, 0)
	press(fyne.KeyHome, fyne.KeyBackspace)
	ctrl(fyne.KeyBackspace, 0)
	if want := "first ñhere\nthird ½ cup"; e.text() != want {
		t.Errorf("deleted: %q, want %q", e.text(), want)
	}
	e.KeyDown(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
	press(fyne.KeyRight, fyne.KeyRight)
	e.KeyUp(&fyne.KeyEvent{Name: desktop.KeyShiftLeft})
	board := test.NewClipboard()
	e.TypedShortcut(&fyne.ShortcutCut{Clipboard: board})
	e.TypedShortcut(&fyne.ShortcutPaste{Clipboard: board})
	e.TypedShortcut(&fyne.ShortcutPaste{Clipboard: board})
	if want := "first ñhere\nththird ½ cup"; board.Content() != "th" || e.text() != want {
		t.Errorf("cut %q and pasted twice: %q, want %q", board.Content(), e.text(), want)
	}
	e.DoubleTapped(&fyne.PointEvent{Position: fyne.NewPos(entryInset+3, e.top()+3)})
	if got := e.w.selection(); got != "first" {
		t.Errorf("a double click selects %q", got)
	}
}

// The toolkit tells of a tap only once no second one has come: what was typed since the
// click stays, and the keyboard where it has gone.
func TestTapComesLate(t *testing.T) {
	e, next := newEntry(false, Span{}), newEntry(false, Span{})
	e.selectAll = true
	e.SetText("old")
	w := test.NewTempWindow(t, container.NewVBox(e, next))
	w.Resize(fyne.NewSize(200, 80))
	click := &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(entryInset+3, e.top()+3)}, Button: desktop.MouseButtonPrimary}
	e.MouseDown(click)
	e.MouseUp(click)
	e.TypedRune('7')
	e.TypedRune('0')
	e.Tapped(&click.PointEvent)
	e.TypedRune('0')
	if e.text() != "700" {
		t.Errorf("typed 700 over %q: %q", "old", e.text())
	}
	w.Canvas().Unfocus()
	e.MouseDown(click)
	e.MouseUp(click)
	w.Canvas().FocusNext()
	e.Tapped(&click.PointEvent)
	if w.Canvas().Focused() != next {
		t.Error("a tap that is told late takes the keyboard back from the next field")
	}
	e.Tapped(&click.PointEvent) // a finger's, with no button before it
	if got := e.w.selection(); w.Canvas().Focused() != e || got != "700" {
		t.Errorf("a touch selects %q", got)
	}
	w.Canvas().Unfocus()
	e.SetText("strong white flour")
	e.MouseDown(click)
	e.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(entryInset+40, e.top()+3)}})
	e.MouseUp(click)
	if got := e.w.selection(); got == "" || got == e.text() {
		t.Errorf("dragged over a part of it: %q is selected", got)
	}
}

// What is pasted becomes valid text, and one line in a field of one line.
func TestPasteIsMadeValid(t *testing.T) {
	one, many := newEntry(false, Span{}), newEntry(true, Span{})
	test.NewTempWindow(t, one)
	test.NewTempWindow(t, many)
	board := test.NewClipboard()
	board.SetContent("a\r\nb\x00\xff\rc")
	one.TypedShortcut(&fyne.ShortcutPaste{Clipboard: board})
	many.TypedShortcut(&fyne.ShortcutPaste{Clipboard: board})
	if one.text() != "a b\uFFFD c" || many.text() != "a\nb\uFFFD\nc" {
		t.Errorf("pasted as %q and %q", one.text(), many.text())
	}
}

// A line longer than its field shows where the caret is, in few letters.
func TestLongLineShowsItsCaret(t *testing.T) {
	e := newEntry(false, Span{})
	w := test.NewTempWindow(t, e)
	w.Resize(fyne.NewSize(300, 60))
	w.Canvas().Focus(e)
	e.SetText(strings.Repeat("abcdefghij", 500))
	for _, at := range []int{5000, 2500, 0} {
		e.w.moveTo(at, false)
		e.follow()
		x := e.across(e.first, e.w.caret)
		if e.first > at || x < 0 || x > e.Size().Width-2*entryInset+1 {
			t.Errorf("at %d: it shows from %d, with the caret at %v of %v", at, e.first, x, e.Size().Width)
		}
		for _, o := range test.WidgetRenderer(e).(*entryRenderer).texts {
			if len(o.Text) > 200 {
				t.Errorf("it draws %d letters", len(o.Text))
			}
		}
	}
}

// A line that is longer than its field is typed over: what was scrolled out of sight is gone, too.
func TestALongLineIsTypedOver(t *testing.T) {
	e := newEntry(false, Span{})
	w := test.NewTempWindow(t, e)
	w.Resize(fyne.NewSize(200, 60))
	w.Canvas().Focus(e)
	for _, shorter := range []func(){
		func() { e.TypedRune('x') },
		func() { e.TypedKey(&fyne.KeyEvent{Name: fyne.KeyBackspace}) },
	} {
		e.SetText(strings.Repeat("a name of many words ", 10))
		e.toEnd()
		if e.first == 0 {
			t.Fatal("the line fits its field")
		}
		e.TypedShortcut(&fyne.ShortcutSelectAll{})
		shorter()
		if len(e.text()) > 1 || e.first != 0 {
			t.Errorf("it holds %q, seen from %d", e.text(), e.first)
		}
	}
	e.TypedShortcut(&fyne.ShortcutUndo{})
	if e.first > e.w.caret {
		t.Errorf("taken back, it is seen from %d with the caret at %d", e.first, e.w.caret)
	}
}

// BenchmarkTyping is one key in the middle of a field of many lines: words in one
// paragraph, or letters without a space. One frame has 16 ms.
func BenchmarkTyping(b *testing.B) {
	for name, text := range map[string]string{
		"words 1 kB": paragraph(1000), "words 10 kB": paragraph(10000), "words 100 kB": paragraph(100000), "words 1 MB": paragraph(1000000),
		"letters 5 kB": strings.Repeat("abcdefgh", 625), "letters 100 kB": strings.Repeat("abcdefgh", 12500),
	} {
		b.Run(name, func(b *testing.B) {
			f := NewNoteField("Notes", "")
			told := 0
			f.OnChanged = func(string) { told++ }
			w := test.NewTempWindow(b, f)
			w.Resize(fyne.NewSize(640, 700))
			f.SetText(text)
			w.Canvas().Focus(f.Entry())
			f.entry.w.moveTo(len(text)/2, false)
			b.ReportAllocs()
			b.ResetTimer()
			var worst time.Duration
			for b.Loop() {
				began := time.Now()
				f.entry.TypedRune('e')
				worst = max(worst, time.Since(began))
			}
			b.ReportMetric(float64(worst.Microseconds())/1000, "ms/worst")
		})
	}
}

// BenchmarkPaste is 100 kB pasted, and the field left, which shows them as a page does.
func BenchmarkPaste(b *testing.B) {
	for b.Loop() {
		f := NewNoteField("Notes", "")
		w := test.NewTempWindow(b, f)
		w.Resize(fyne.NewSize(640, 700))
		w.Canvas().Focus(f.Entry())
		f.entry.insert(paragraph(100000))
		w.Canvas().Unfocus()
	}
}

// paragraph is a paragraph of words, some never seen before.
func paragraph(n int) string {
	rng := rand.New(rand.NewPCG(1, 2))
	var s strings.Builder
	for s.Len() < n {
		for range 1 + rng.IntN(9) {
			s.WriteByte(byte('a' + rng.IntN(26)))
		}
		s.WriteByte(' ')
	}
	return s.String()
}

// A field leaves to the page what the clipboard gives as text and is none: a picture's bytes
// and the names of files.
func TestPicturesAreNoWords(t *testing.T) {
	for text, words := range map[string]bool{
		"\x89PNG\r\n\x1a\n": false, "\xff\xd8\xff\xe0": false, "file:///home/ines/loaf.jpg\r\n": false, "": false,
		"800 g flour": true, "PNG": true, "see file:///home": true, "/home/ines/loaf.jpg": true,
	} {
		if isWords(text) != words {
			t.Errorf("%q: %v", text, !words)
		}
	}
}
