package kit

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// writing is a text being written: where the caret stands, what is selected, and what
// can be taken back. Offsets count bytes.
type writing struct {
	text          string
	caret, anchor int // what lies between them is selected
	done          []stroke
	undone        []stroke
}

// A stroke is one change that is taken back in one step.
type stroke struct {
	at             int
	removed, added string
}

// strokeMost is how many bytes of typing are taken back at a time at most.
const strokeMost = 200

// set replaces the text. There is nothing to take back then.
func (w *writing) set(text string) {
	*w = writing{text: text, caret: min(w.caret, len(text))}
	for w.caret > 0 && w.caret < len(text) && !utf8.RuneStart(text[w.caret]) {
		w.caret--
	}
	w.anchor = w.caret
}

// selected is what is selected, from and to.
func (w *writing) selected() (from, to int) { return min(w.caret, w.anchor), max(w.caret, w.anchor) }

// selection is the selected text.
func (w *writing) selection() string {
	from, to := w.selected()
	return w.text[from:to]
}

func (w *writing) selectAll() { w.anchor, w.caret = 0, len(w.text) }

// moveTo sets the caret; with keep what lies between is selected.
func (w *writing) moveTo(at int, keep bool) {
	w.caret = max(0, min(at, len(w.text)))
	if !keep {
		w.anchor = w.caret
	}
}

// replace puts text in the place of what lies between two offsets, and remembers it.
func (w *writing) replace(from, to int, with string) stroke {
	s := stroke{at: from, removed: w.text[from:to], added: with}
	w.do(s)
	w.undone = nil
	if n := len(w.done); n > 0 && w.done[n-1].takes(s) {
		w.done[n-1].added += s.added
		return s
	}
	w.done = append(w.done, s)
	return s
}

// takes says whether a stroke goes on with typing where this one ended: letter by
// letter, up to the end of a word.
func (s stroke) takes(next stroke) bool {
	if s.added == "" || next.added == "" || next.removed != "" || next.at != s.at+len(s.added) || len(s.added) >= strokeMost {
		return false
	}
	if utf8.RuneCountInString(next.added) != 1 || strings.Contains(next.added, "\n") {
		return false
	}
	r, _ := utf8.DecodeRuneInString(next.added)
	before, _ := utf8.DecodeLastRuneInString(s.added)
	return unicode.IsSpace(r) || !unicode.IsSpace(before)
}

func (w *writing) do(s stroke) {
	w.text = w.text[:s.at] + s.added + w.text[s.at+len(s.removed):]
	w.caret = s.at + len(s.added)
	w.anchor = w.caret
}

// untouched says whether nothing was written since the text was set.
func (w *writing) untouched() bool { return len(w.done) == 0 && len(w.undone) == 0 }

// undo takes the last stroke back and gives what that did to the text.
func (w *writing) undo() (s stroke, did bool) {
	n := len(w.done)
	if n == 0 {
		return stroke{}, false
	}
	last := w.done[n-1]
	w.done, w.undone = w.done[:n-1], append(w.undone, last)
	s = stroke{at: last.at, removed: last.added, added: last.removed}
	w.do(s)
	return s, true
}

// redo makes the last stroke again that was taken back.
func (w *writing) redo() (s stroke, did bool) {
	n := len(w.undone)
	if n == 0 {
		return stroke{}, false
	}
	s = w.undone[n-1]
	w.undone, w.done = w.undone[:n-1], append(w.done, s)
	w.do(s)
	return s, true
}

// before and after are the offsets of the letters beside one. Marks that stand on a
// letter go with it.
func (w *writing) before(at int) int {
	for at > 0 {
		r, n := utf8.DecodeLastRuneInString(w.text[:at])
		at -= n
		if !unicode.IsMark(r) {
			break
		}
	}
	return at
}

func (w *writing) after(at int) int {
	for first := true; at < len(w.text); first = false {
		r, n := utf8.DecodeRuneInString(w.text[at:])
		if !first && !unicode.IsMark(r) {
			break
		}
		at += n
	}
	return at
}
