package main

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"twinloaf/journal"
)

// longWords is a paragraph of 100 kB that ends in a word of its own.
var longWords = strings.Repeat("slack after the second turn and sweet to smell, ", 2100) + "lastword"

// typeAndEscape leaves fields of every kind by Esc, tries to save and to close sheets in
// which something is not understood, takes typing back and brings it again, and writes
// on in a very long text. The plug is pulled at the end: what was typed must be there.
func typeAndEscape(w *walk) {
	p, folder := w.program()
	p.steps(
		p.startingAt(time.Date(2026, 3, 4, 8, 54, 0, 0, time.Local)),
		p.escapeInSheets,
		p.escapeInFields,
		func() { p.writeLong(w) },
	)
	time.Sleep(2 * time.Second) // what was typed is kept within a second
	p.kill()
	checkTyped(folder)
}

// escapeInSheets begins a culture, and feeds and reads it with what is half typed.
func (p *program) escapeInSheets() {
	const asks = "Close without saving?"
	p.steps(
		p.keys("ctrl+2"), p.seeing("A culture is flour and water kept alive"), p.keys("n"), p.seeing("what you call it"),
		p.typing("Gorse"), p.keys("Escape"), p.seeing("Gorse"), p.missing(asks),
		p.keys("Escape"), p.seeing(asks), p.picture("asks"),
		p.keys("Return"), p.missing(asks), p.seeing("Gorse"),
		p.keys("ctrl+Return"), p.seeing("Gorse, day 1"),

		p.keys("f"), p.seeing("or as a ratio"), p.keys("r"), p.typing("1:1:"), p.keys("Escape", "Return"),
		p.seeing("Not saved yet"), p.picture("half-a-ratio"),
		p.keys("Escape", "Escape"), p.seeing(asks), p.keys("Return"), p.missing(asks),
		p.keys("r"), p.typing("1:2:2"), p.keys("Escape", "Return"), p.seeing("Fed Gorse"), p.missing("or as a ratio"),

		p.keys("r"), p.seeing("Never taste a culture"), p.keys("t"), p.typing("9999"), p.keys("ctrl+Return"),
		p.seeing("Not saved yet"), p.picture("too-hot"),
		p.keys("ctrl+a"), p.typing("24.5"), p.keys("ctrl+Return"), p.missing("Never taste a culture"),
	)
}

// escapeInFields begins a bake and leaves its name, a figure and its notes by Esc.
func (p *program) escapeInFields() {
	p.steps(
		p.keys("ctrl+3"), p.seeing("Write down the first bake"), p.keys("n"), p.seeing("What went in"),
		p.typing("Walk loaf"), p.keys("Escape"), p.seeing("Walk loaf"),
		p.fillingIn("Dough weight, before baking"), p.typing("a lot"), p.keys("Escape"), p.seeing("a lot"), p.picture("red"),
		p.fillingIn("Dough weight, before baking"), p.keys("ctrl+a"), p.typing("860"), p.keys("Escape"), p.seeing("860"),
		p.fillingIn("In your own words"), p.typing("Crisp and sweet"),
		p.keys("ctrl+z"), p.missing("Crisp and sweet"), p.seeing("Crisp and"),
		p.keys("ctrl+shift+z"), p.seeing("Crisp and sweet"),
		p.keys("Escape"), p.seeing("Crisp and sweet"), p.picture("in-your-own-words"),
	)
}

// writeLong pastes a long text into the notes and writes on in its middle.
func (p *program) writeLong(w *walk) {
	p.steps(
		p.fillingIn("In your own words"), p.keys("ctrl+End"),
		func() { w.clip(" " + longWords) },
		p.keys("ctrl+v"), p.seeing("lastword"), p.picture("100-kB"),
		p.keys("ctrl+Home"),
	)
	began := time.Now()
	const typed = "written-on-here " // one word, which no row parts
	p.steps(p.keys("Page_Down", "Page_Down", "Page_Down"), p.typing(typed), p.seeing(strings.TrimSpace(typed)))
	fmt.Printf("  %d keys within 100 kB took %.1f s, with xdotool's pauses\n", len(typed), time.Since(began).Seconds())
	p.steps(p.picture("written-on"), p.keys("Escape"), p.seeing("Crisp and sweet"), p.picture("read"))
}

// checkTyped looks that the journal has what was typed.
func checkTyped(folder string) {
	b := only[journal.Bake](folder)
	feedings := records[journal.Feeding](folder)
	failIf(b.Name != "Walk loaf", "the bake is kept as %q", b.Name)
	o := b.Outcome
	failIf(o.DoughWeight == nil || *o.DoughWeight != 860, "the dough weight kept is %v", o.DoughWeight)
	failIf(!strings.HasPrefix(o.Notes, "Crisp and sweet ") || !strings.HasSuffix(o.Notes, "lastword") || !strings.Contains(o.Notes, "written-on-here "),
		"of the notes, %d bytes are kept", len(o.Notes))
	// The clock stands still, so the two came at one moment and either may be listed first.
	asTyped := func(f *journal.Feeding) bool { return f.Flour > 0 && f.Flour == 2*f.Kept && f.Water == f.Flour }
	failIf(len(feedings) != 2 || !slices.ContainsFunc(feedings, asTyped), "the feedings kept are %+v", feedings)
}
