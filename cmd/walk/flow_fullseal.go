package main

import (
	"errors"
	"path/filepath"
	"time"

	"twinloaf/journal"
)

// sealWhenFull seals a tasting, and unseals it, while something typed waits for room on
// a small disk: either is refused with a sentence and leaves all as it was, and goes well
// once there is room.
func sealWhenFull(w *walk, small string) {
	folder := filepath.Join(small, "tasting")
	at := time.Date(2026, 3, 4, 15, 30, 0, 0, time.Local)
	bakePair(folder, at.Add(-6*time.Hour))
	changeJournal(folder, func(tx *journal.Tx) error {
		return errors.Join(journal.Put(tx, &journal.Bake{Name: "Spare loaf", At: at}), journal.Put(tx, &journal.Bake{Name: "Second spare", At: at}))
	})
	p := newProgram(w.screen, w.exe, w.dir, folder)
	p.steps(
		p.startingAt(at),
		p.keys("ctrl+4"), p.seeing("Two cultures"), p.pressing("Two cultures"),
		p.seeing("Move to the bin"), p.keys("t"), p.seeing("What this plan can find"),
		p.pressing("what you will call it"), p.typing(galley),
		p.pressing("a name"), p.typing("Ines"), p.keys("Return"),
		p.missing("nobody yet"), p.fillingIn("How many rounds each?"), p.keys("ctrl+a"), p.typing("1"), p.keys("Tab"),
		p.missing("Nobody tastes"), p.missing("6 rounds will show"),
		p.typingInVain(w, small, "Spare loaf"),
		p.keys("ctrl+4"), p.pressing(galley), p.pressing("Plate it"),
		p.seeing("1 taster · 1 round"), p.seeing("Tasters, look away"), p.pressing("Nobody is looking"),
		p.seeing("For the helper alone"), p.pressing("Seal"), p.seeing("Seal the tasting?"), p.keys("Return"),
		p.missing("Seal the tasting?"), p.saying("The disk is full."), p.seeing("For the helper alone"), p.picture("seal-refused"),
		func() { makeRoom(small) }, p.saying("saved again"),
		p.pressing("Seal"), p.seeing("Seal the tasting?"), p.keys("Return"), p.seeing("This is the fingerprint"),
	)
	seal := p.fingerprint()
	p.steps(p.pressing("Begin tasting"), p.seeing("Before the first bite"), p.keys("Return"))
	for sample := range 3 {
		if sample > 0 {
			p.skipRinse()
		}
		p.steps(p.seeing("Now taste"), p.keys("Return"))
	}
	p.steps(
		p.seeing("Which one differs?"), p.keys("2"), p.keys("Return"), p.missing("Which one differs?"),
		p.seeing("Every score is in"), p.keys("Return"), p.seeing("sealed still"),
		p.typingInVain(w, small, "Second spare"),
		p.keys("ctrl+4"), p.pressing(galley), p.seeing("sealed still"),
		p.keys("u"), p.seeing("Unseal the tasting?"), p.keys("Return"),
		p.missing("Unseal the tasting?"), p.saying("The disk is full."), p.seeing("sealed still"), p.tellingNothing, p.picture("unseal-refused"),
		func() { makeRoom(small) }, p.saying("saved again"),
		p.keys("u"), p.seeing("Unseal the tasting?"), p.keys("Return"), p.seeing("Was it a fair pair?"), p.seeing("Gorse"),
	)
	p.quit()
	unsealed(folder, seal)
}

// typingInVain fills the disk and writes more about a bake than it has room for.
func (p *program) typingInVain(w *walk, small, bake string) gesture {
	return p.all(
		func() { fill(small) },
		func() { w.clip(longText(bake)) },
		p.keys("ctrl+3"), p.pressing(bake), p.pressing("how it came out"), p.keys("ctrl+v"),
		p.saying("The disk is full."), p.keys("Escape"),
	)
}
