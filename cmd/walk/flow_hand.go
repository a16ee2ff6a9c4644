package main

import (
	"fmt"
	"os"
	"path/filepath"
	"time"

	"twinloaf/app/outline"
	"twinloaf/journal/photo/phototest"
)

// byKeysAlone goes through the four flows without the mouse, from an empty journal, with
// a picture of where the keyboard is at each stop, and counts what a person has to do. The
// counts are written as a table beside the pictures.
func byKeysAlone(w *walk) {
	p, folder := w.program()
	picture := filepath.Join(w.dir, "crumb.png")
	check(os.WriteFile(picture, phototest.PNG(phototest.Scene(640, 480)), 0o644))
	begin := time.Date(2026, 3, 4, 8, 0, 0, 0, time.Local)
	p.setClock(begin)
	p.start()
	var c counts
	for _, t := range []task{
		{"a culture with four feedings and their readings", effort{15, 88}, func(p *program) { p.keyCulture(begin) }},
		{"a formula and its bake day", effort{6, 35}, (*program).keyFormula},
		{"the record of a bake with two photos", effort{10, 18}, func(p *program) { p.keyRecord(picture) }},
	} {
		c.count(p, t)
	}
	later := begin.AddDate(0, 0, 5)
	tastings := task{"two tastings, from the plan to the verdict", effort{21, 58}, func(p *program) { p.keyTastings(later) }}
	p.steps(p.quit, func() { bakePair(folder, begin) }, p.start, c.counting(p, tastings), p.keyLists, p.quit)
	// The same two tastings with the mouse at hand, in a journal that has not seen them.
	folder = filepath.Join(w.dir, "with-the-mouse")
	withMouse := newProgram(w.screen, w.exe, w.dir, folder)
	tastings = task{"the same, with the mouse at hand", effort{21, 58}, func(p *program) { p.mouseTastings(later) }}
	withMouse.steps(func() { bakePair(folder, begin) }, withMouse.start, c.counting(withMouse, tastings), withMouse.quit,
		func() { c.browse(w) })
	c.write(filepath.Join(w.shots, "clicks-and-keys.md"))
}

// focus keeps a picture, and wants the keyboard to be somewhere that is seen.
func (p *program) focus(name string) gesture {
	return func() {
		p.wait("the keyboard to be in sight", func(things []outline.Thing) bool {
			for _, t := range things {
				if t.Focused && !t.Clipped {
					return true
				}
			}
			return false
		})
		p.picture("focus-" + name)()
	}
}

// keyCulture begins a culture, feeds it four times and reads it after each.
func (p *program) keyCulture(begin time.Time) {
	p.steps(p.keys("ctrl+2"), p.seeing("A culture is flour and water kept alive"),
		p.keys("n"), p.seeing("what you call it"), p.focus("new-culture"), p.typing("Gorse"), p.keys("Return"), p.seeing("Gorse, day 1"), p.focus("culture"))
	for day := 1; day <= 4; day++ {
		at := begin.AddDate(0, 0, day)
		p.steps(
			func() { p.setClock(at) }, p.keys("g"), p.seeing("Fed Gorse"),
			func() { p.setClock(at.Add(5 * time.Hour)) },
			p.keys("r"), p.seeing("Never taste a culture"), p.keys("h"), p.focus("reading"), p.typing("1.8"), p.keys("Return"),
			p.missing("Never taste a culture"),
		)
	}
}

// keyFormula makes a formula, plans a day of it and starts it.
func (p *program) keyFormula() {
	p.steps(
		p.keys("ctrl+3"), p.seeing("Bakes"), p.keys("f"), p.seeing("New formula"), p.keys("n"), p.seeing("not baked yet"),
		p.focus("formula"), p.typing("Rye"), p.keys("Escape"),
		p.keys("g"), p.seeing("Rye: ready"), p.focus("plan"), p.keys("g"), p.seeing("10 min later"), p.focus("day-begun"),
	)
}

// keyRecord writes down a bake with two pictures from the clipboard.
func (p *program) keyRecord(picture string) {
	p.steps(
		p.keys("ctrl+3"), p.seeing("Bakes"), p.keys("n"), p.seeing("What it comes to"), p.focus("record"), p.typing("Deck"),
		func() { p.clipPicture(picture) }, p.keys("ctrl+v"), p.counting("a caption", 1),
		p.keys("ctrl+v"), p.counting("a caption", 2), p.focus("record-pasted"),
	)
}

// clipPicture puts a picture on the clipboard as a program that edits pictures does.
func (p *program) clipPicture(path string) {
	c := p.command("xclip", "-selection", "clipboard", "-t", "image/png", "-in", path)
	if err := c.Run(); err != nil { // it stays behind to answer, and would hold a pipe open
		panic(fmt.Errorf("filling the clipboard: %w", err))
	}
}

// keyTastings plans a tasting of a pair, plates, seals, tastes and unseals it, and then a
// second one with the same people, all by keys.
func (p *program) keyTastings(at time.Time) {
	p.steps(
		func() { p.setClock(at) },
		p.keys("ctrl+4"), p.seeing("Two cultures"), p.focus("tastings"), p.keys("Return"),
		p.seeing("Move to the bin"), p.focus("trial"), p.keys("t"), p.seeing("What this plan can find"), p.focus("names"),
		p.typing("Ines"), p.keys("Return"), p.focus("next-name"), p.keys("Tab"), p.focus("rounds"), p.keys("1"), p.missing("6 rounds will show"),
		p.keys("Escape"),
		func() { p.keyTasted(&at, "first") },
		p.keys("n"), p.seeing("What this plan can find"),
		func() { p.keyTasted(&at, "second") },
	)
}

// mouseTastings is keyTastings with the mouse for whatever has a button in sight.
func (p *program) mouseTastings(at time.Time) {
	p.steps(
		func() { p.setClock(at) },
		p.pressing("Tastings"), p.pressing("Two cultures"), p.seeing("Move to the bin"), p.pressing("Plan a tasting"),
		p.seeing("What this plan can find"), p.typing("Ines"), p.keys("Return"), p.missing("nobody yet"),
		p.fillingIn("How many rounds each?"), p.keys("ctrl+a"), p.typing("1"), p.pressing("Plate it"),
		p.seeing("Tasters, look away"), p.pressing("Nobody is looking"), p.seeing("For the helper alone"),
		p.pressing("Seal"), p.seeing("Seal the tasting?"), p.keys("Return"), p.seeing("This is the fingerprint"), p.tellingNothing,
		p.pressing("Begin tasting"), p.seeing("Before the first bite"),
		func() { p.keyRound(&at, "mouse-first", p.picture) },
		p.pressing("Unseal"), p.seeing("Unseal the tasting?"), p.keys("Return"), p.seeing("Was it a fair pair?"),
		p.keys("n"), p.seeing("What this plan can find"),
		func() { p.keyTasted(&at, "mouse-second") },
	)
}

// keyTasted takes a plan of one round of a triangle to its verdict.
func (p *program) keyTasted(at *time.Time, which string) {
	p.steps(
		p.keys("p"), p.seeing("Tasters, look away"), p.focus(which+"-before"), p.keys("g"), p.seeing("For the helper alone"), p.focus(which+"-card"),
		p.keys("g"), p.seeing("Seal the tasting?"), p.focus(which+"-seal"), p.keys("Return"), p.seeing("This is the fingerprint"), p.tellingNothing,
		p.focus(which+"-sealed"), p.keys("g"), p.seeing("Before the first bite"),
		func() { p.keyRound(at, which, p.focus) },
		p.keys("u"), p.seeing("Unseal the tasting?"), p.focus(which+"-unseal"), p.keys("Return"),
		p.seeing("Was it a fair pair?"), p.focus(which+"-verdict"),
	)
}

// keyRound tastes the one round of a triangle, from what is said before the first bite on.
// The pauses are waited out; stop keeps a picture of each stop.
func (p *program) keyRound(at *time.Time, which string, stop func(string) gesture) {
	rinse := func() {
		*at = at.Add(2 * time.Minute)
		p.see("Rinse")
		p.setClock(*at)
		p.gone("Skip the pause")
		p.see("Now taste")
	}
	p.steps(
		stop(which+"-allergens"),
		p.keys("Return"), p.seeing("Now taste"), stop(which+"-sample"), p.keys("Return"), rinse, p.keys("Return"), rinse, p.keys("Return"),
		p.seeing("Which one differs?"), stop(which+"-choice"), p.keys("2"), stop(which+"-answer"), p.keys("Return"), p.seeing("Every score is in"), stop(which+"-over"),
	)
}
