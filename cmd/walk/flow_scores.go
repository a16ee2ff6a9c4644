package main

import (
	"slices"
	"strconv"
	"time"
)

// given are the scores that the walk gives each sample, line by line.
var given = []int{7, 6, 5, 4, 8}

// scoreBlind scores two loaves by keys on the nine-point scale. The plug is
// pulled half-way down the lines of the first sample.
func scoreBlind(w *walk) {
	p, folder := w.program()
	at := time.Date(2026, 3, 4, 15, 30, 0, 0, time.Local)
	bakePair(folder, at.Add(-6*time.Hour))
	p.setClock(at)
	p.start()
	seal := p.sealTrial(1, p.pressing("How does each score?"), p.seeing("Lines to score"))
	p.steps(
		p.seeing("Now taste"), p.tellingNothing, p.scoring(given[:3]), p.picture("half-way"),
		func() { p.crash("0 of 1", inHand) },
		p.picture("went-on"), p.scoring(given[3:]), p.picture("scored"),
		p.pressing("Done, and rinse"), p.skipRinse,
		p.seeing("Now taste"), p.tellingNothing, p.scoring(given), p.picture("second"),
		p.pressing("Done"), p.seeing("In your own words"), p.tellingNothing, p.picture("answer"), p.keys("Return"),
		p.unseal,
	)
	p.quit()
	checkScores(folder, seal)
}

// scoring gives scores to the line that has the focus and to those after it.
func (p *program) scoring(scores []int) gesture {
	return func() {
		for i, n := range scores {
			if i > 0 {
				p.key("Tab")
			}
			p.key(strconv.Itoa(n))
		}
	}
}

// checkScores looks that both samples were kept with the scores that were given.
func checkScores(folder, seal string) {
	opened := unsealed(folder, seal)
	for _, plate := range opened.Rounds[0].Plates {
		var kept []int
		for _, line := range opened.Setting.Plan.Attributes {
			kept = append(kept, opened.Rounds[0].Answer.Scores[plate.Label][line.Name])
		}
		failIf(!slices.Equal(kept, given), "sample %s is kept with the scores %v", plate.Label, kept)
	}
}
