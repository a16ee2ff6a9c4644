package main

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"

	"twinloaf/app/outline"
	"twinloaf/journal/photo/phototest"
)

// A task is something that a baker does for the first time, with how many clicks and keys
// it may take at most: half of what it took before the keys were gone over. A task
// that took many clicks may, where it is done by keys alone, take a key for each of them.
type task struct {
	name         string
	clicks, keys int
	alone        int // keys, where it takes no click at all; 0 for keys
	do           func(p *program) error
}

// byKeysAlone goes through the four flows without the mouse, from an empty journal, with
// a picture of where the keyboard is at each stop, and counts what a person has to do. The
// counts are written as a table beside the pictures.
func byKeysAlone(w *walk) error {
	folder := filepath.Join(w.dir, "journal")
	picture := filepath.Join(w.dir, "crumb.png")
	if err := os.WriteFile(picture, phototest.PNG(phototest.Scene(640, 480)), 0o644); err != nil {
		return err
	}
	p := newProgram(w.screen, w.exe, w.dir, folder)
	defer func() { _ = p.kill() }()
	begin := time.Date(2026, 3, 4, 8, 0, 0, 0, time.Local)
	if err := errors.Join(p.setClock(begin), p.start()); err != nil {
		return err
	}
	tasks := []task{
		{"a culture with four feedings and their readings", 15 / 2, 88 / 2, 0, func(p *program) error { return p.keyCulture(begin) }},
		{"a formula and its bake day", 6 / 2, 35 / 2, 0, (*program).keyFormula},
		{"the record of a bake with two photos", 10 / 2, 18 / 2, 0, func(p *program) error { return p.keyRecord(picture) }},
	}
	table := []string{"| task | clicks | keys | at most |", "|---|---|---|---|"}
	var over []error
	count := func(t task) error {
		p.keyed, p.clicked = 0, 0
		if err := t.do(p); err != nil {
			return fmt.Errorf("%s: %w", t.name, err)
		}
		most := fmt.Sprintf("%d and %d", t.clicks, t.keys)
		if t.alone > 0 {
			most += fmt.Sprintf(", or %d keys alone", t.alone)
		}
		table = append(table, fmt.Sprintf("| %s | %d | %d | %s |", t.name, p.clicked, p.keyed, most))
		alone := p.clicked == 0 && p.keyed <= t.alone
		if !alone && (p.clicked > t.clicks || p.keyed > t.keys) {
			over = append(over, fmt.Errorf("%s takes %d clicks and %d keys, more than %s", t.name, p.clicked, p.keyed, most))
		}
		return nil
	}
	for _, t := range tasks {
		if err := count(t); err != nil {
			return err
		}
	}
	if err := errors.Join(p.quit(), bakePair(folder, begin), p.start()); err != nil {
		return err
	}
	if err := count(task{"two tastings, from the plan to the verdict", 21 / 2, 58 / 2, 21/2 + 58/2, func(p *program) error { return p.keyTastings(begin.AddDate(0, 0, 5)) }}); err != nil {
		return err
	}
	text := strings.Join(table, "\n") + "\n"
	fmt.Print(text)
	err := os.WriteFile(filepath.Join(w.shots, "clicks-and-keys.md"), []byte(text), 0o644)
	if err := errors.Join(append(over, err)...); err != nil {
		return err
	}
	if err := p.keyLists(); err != nil {
		return fmt.Errorf("the lists: %w", err)
	}
	return p.quit()
}

// focus keeps a picture, and wants the keyboard to be somewhere that is seen.
func (p *program) focus(name string) gesture {
	return func() error {
		things, err := p.wait("the keyboard to be in sight", func(things []outline.Thing) bool {
			for _, t := range things {
				if t.Focused && !t.Clipped {
					return true
				}
			}
			return false
		})
		if err != nil {
			return fmt.Errorf("%s: %w (%d things)", name, err, len(things))
		}
		return p.picture("focus-" + name)()
	}
}

// keyCulture begins a culture, feeds it four times and reads it after each.
func (p *program) keyCulture(begin time.Time) error {
	err := p.steps(p.keys("ctrl+2"), p.seeing("A culture is flour and water kept alive"),
		p.seeing("what you call it"), p.focus("new-culture"), p.typing("Gorse"), p.keys("Return"), p.seeing("Gorse, day 1"))
	if err != nil {
		return err
	}
	for day := 1; day <= 4; day++ {
		at := begin.AddDate(0, 0, day)
		err := p.steps(
			func() error { return p.setClock(at) }, p.keys("g"), p.seeing("Fed Gorse"),
			func() error { return p.setClock(at.Add(5 * time.Hour)) },
			p.keys("r"), p.seeing("Never taste a culture"), p.keys("h"), p.focus("reading"), p.typing("1.8"), p.keys("Return"),
			p.missing("Never taste a culture"),
		)
		if err != nil {
			return fmt.Errorf("day %d: %w", day, err)
		}
	}
	return nil
}

// keyFormula makes a formula, plans a day of it and starts it.
func (p *program) keyFormula() error {
	return p.steps(
		p.keys("ctrl+3"), p.seeing("Bakes"), p.keys("f"), p.seeing("New formula"), p.keys("n"), p.seeing("not baked yet"),
		p.keys("e"), p.focus("formula"), p.keys("ctrl+a"), p.typing("Rye"), p.keys("Escape"),
		p.keys("g"), p.seeing("Rye: ready"), p.keys("g"), p.seeing("10 min later"), p.picture("day-begun"),
	)
}

// keyRecord writes down a bake with two pictures from the clipboard.
func (p *program) keyRecord(picture string) error {
	return p.steps(
		p.keys("ctrl+3"), p.seeing("Bakes"), p.keys("n"), p.seeing("What it comes to"), p.focus("record"), p.typing("Deck"),
		func() error { return p.clipPicture(picture) }, p.keys("ctrl+v"), p.counting("a caption", 1),
		p.keys("ctrl+v"), p.counting("a caption", 2), p.picture("record-pasted"),
	)
}

// clipPicture puts a picture on the clipboard as a program that edits pictures does.
func (p *program) clipPicture(path string) error {
	c := exec.Command("xclip", "-selection", "clipboard", "-t", "image/png", "-in", path)
	c.Env = p.env()
	if err := c.Run(); err != nil { // it stays behind to answer, and would hold a pipe open
		return fmt.Errorf("filling the clipboard: %w", err)
	}
	return nil
}

// keyTastings plans a tasting of a pair, plates, seals, tastes and unseals it, and then a
// second one with the same people, all by keys. The pauses are waited out.
func (p *program) keyTastings(at time.Time) error {
	return p.steps(
		func() error { return p.setClock(at) },
		p.keys("ctrl+4"), p.seeing("Two cultures"), p.focus("tastings"), p.keys("Return"),
		p.seeing("Drawn by lot"), p.keys("t"), p.seeing("What this plan can find"), p.focus("names"),
		p.typing("Ines"), p.keys("Return"), p.focus("next-name"), p.keys("Tab"), p.focus("rounds"), p.keys("1"), p.missing("6 rounds will show"),
		p.keys("Escape"),
		func() error { return p.keyTasted(&at, "first") },
		p.keys("n"), p.seeing("What this plan can find"),
		func() error { return p.keyTasted(&at, "second") },
	)
}

// keyTasted takes a plan of one round of a triangle to its verdict.
func (p *program) keyTasted(at *time.Time, which string) error {
	rinse := func() error {
		*at = at.Add(2 * time.Minute)
		return errors.Join(p.see("Rinse"), p.setClock(*at), p.gone("Skip the pause"), p.see("Now taste"))
	}
	return p.steps(
		p.keys("p"), p.seeing("Tasters, look away"), p.keys("g"), p.seeing("For the helper alone"),
		p.keys("g"), p.seeing("Seal the tasting?"), p.keys("Return"), p.seeing("This is the fingerprint"), p.tellingNothing,
		p.keys("g"), p.seeing("Before the first bite"), p.picture(which+"-allergens"),
		p.keys("Return"), p.seeing("Now taste"), p.keys("Return"), rinse, p.keys("Return"), rinse, p.keys("Return"),
		p.seeing("Which one differs?"), p.keys("2"), p.picture(which+"-answer"), p.keys("Return"),
		p.seeing("Every score is in"), p.keys("u"), p.seeing("Unseal the tasting?"), p.keys("Return"),
		p.seeing("Was it a fair pair?"), p.picture(which+"-verdict"),
	)
}

// keyLists goes through the lists with the arrows.
func (p *program) keyLists() error {
	return p.steps(
		p.keys("ctrl+2"), p.seeing("Gorse"), p.focus("cultures"), p.keys("Down"), p.focus("next-culture"),
		p.keys("ctrl+3"), p.focus("bakes"), p.keys("ctrl+5"), p.seeing("on the shelf"), p.focus("shelf"),
		p.keys("space", "Right", "space"), p.seeing("2 selected"), p.picture("selected"), p.keys("c"), p.seeing("differ"),
		p.keys("ctrl+plus"), p.seeing("Text size 110 %"), p.picture("larger"), p.keys("ctrl+0"), p.seeing("Text size 100 %"),
	)
}
