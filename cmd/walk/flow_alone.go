package main

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"twinloaf/app/outline"
	"twinloaf/journal/blind"
)

// tasteAlone tastes two loaves without a helper: with folded slips under the
// plates, which are turned over after the last score. The plug is pulled before
// that.
func tasteAlone(w *walk) {
	p, folder := w.program()
	at := time.Date(2026, 3, 4, 15, 30, 0, 0, time.Local)
	bakePair(folder, at.Add(-6*time.Hour))
	p.steps(
		p.startingAt(at),
		p.keys("ctrl+4"), p.seeing("Two cultures"), p.keys("t"),
		p.seeing("Which two loaves?"),
		p.pressing("the name of a bake"), p.typing("harb"), p.seeing("Ferry loaf, Harbour"), p.picture("offered"),
		p.keys("Down", "Return", "Tab"),
		p.typing("gorse"), p.seeing("Ferry loaf, Gorse"), p.keys("Down", "Return"),
		p.picture("two-loaves"), p.pressing("Plan the tasting"),
		p.seeing("What this plan can find"),
		p.pressing("what you will call it"), p.typing(galley),
		p.pressing("the taster, alone"),
		p.pressing("a name"), p.typing("Ines"), p.keys("Return"),
		p.missing("nobody yet"), p.fillingIn("How many rounds each?"), p.keys("ctrl+a"), p.typing("1"), p.keys("Tab"),
		p.missing("Nobody tastes"), p.missing("6 rounds will show"),
		p.picture("plan"), p.pressing("Plate it"),
		p.seeing("1 round each"), p.seeing("Plate it alone"), p.tellingNothing, p.picture("how"),
		p.pressing("Generate the codes"), p.seeing("Write the slips"), p.picture("slips"),
		p.pressing("Seal"), p.seeing("Seal the tasting?"), p.keys("Return"),
		p.seeing("This is the fingerprint"), p.tellingNothing,
	)
	seal := p.fingerprint()
	p.steps(
		p.pressing("Begin tasting"), p.seeing("Before the first bite"), p.seeing("sesame"), p.tellingNothing, p.keys("Return"),
		p.seeing("Step 1 of"), p.tellingNothing, p.picture("laying-out"), p.layOut,
	)
	for sample := range 3 {
		if sample > 0 {
			p.skipRinse()
		}
		p.steps(p.seeing("Now taste"), p.seeing("sesame"), p.tellingNothing, p.picture(fmt.Sprintf("sample-%d", sample+1)), p.keys("Return"))
	}
	p.steps(
		p.seeing("Which one differs?"), p.keys("1"), p.picture("answer"), p.keys("Return"),
		p.seeing("Turn over the slips of round 1"), p.tellingNothing,
		func() { p.tasteAgain("turn over the slips") },
		p.seeing("Turn over the slips of round 1"), p.turnEach(3), p.tellingNothing, p.picture("slips-turned"), p.keys("Return"),
		p.unseal, p.undoEverything,
	)
	p.quit()
	checkAlone(folder, seal)
}

// layOut goes through the steps of laying out the plates.
func (p *program) layOut() {
	for {
		things := p.things()
		if _, tasting := outline.Find(things, "Now taste"); tasting {
			return
		}
		step, ok := outline.Find(things, "Step ")
		failIf(!ok, "neither a step nor a sample is shown: %q", outline.Texts(things))
		p.steps(p.keys("Return"), p.missing(step.Text))
	}
}

// checkAlone looks that the slips were kept as they were turned over, and that
// what was found is told from them.
func checkAlone(folder, seal string) {
	opened := unsealed(folder, seal)
	failIf(opened.Setting.Plan.Mode != blind.Alone || len(opened.Rounds) != 1, "the tasting was planned as %+v", opened.Setting.Plan)
	r := opened.Rounds[0]
	slips := slices.Sorted(slices.Values(opened.Setting.Servings[0].Slips))
	for i, plate := range r.Plates {
		failIf(plate.Slip != slips[i] || plate.Loaf == 0 || !strings.Contains(opened.Text, fmt.Sprintf("%s=%d", plate.Slip, plate.Loaf)),
			"plate %d is kept as %+v; sealed was %q", i+1, plate, opened.Text)
	}
	failIf(len(r.Answer.Picks) != 1 || r.Answer.Picks[0] != r.Plates[0].Label, "the answer was kept as %+v", r.Answer)
}
