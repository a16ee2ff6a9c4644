package main

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"time"
)

// given are the scores that the walk gives each sample, line by line.
var given = []int{7, 6, 5, 4, 8}

// scoreBlind scores two loaves by keys on the nine-point scale. The plug is
// pulled half-way down the lines of the first sample.
func scoreBlind(w *walk) error {
	p, folder := w.program()
	at := time.Date(2026, 3, 4, 15, 30, 0, 0, time.Local)
	if err := bakePair(folder, at.Add(-6*time.Hour)); err != nil {
		return fmt.Errorf("baking the pair: %w", err)
	}
	if err := errors.Join(p.setClock(at), p.start()); err != nil {
		return err
	}
	seal, err := p.sealTrial(1, p.pressing("How does each score?"), p.seeing("Lines to score"))
	if err != nil {
		return err
	}
	err = p.steps(
		p.seeing("Now taste"), p.tellingNothing, p.scoring(given[:3]), p.picture("half-way"),
		func() error { return p.crash("0 of 1", inHand) },
		p.picture("went-on"), p.scoring(given[3:]), p.picture("scored"),
		p.pressing("Done, and rinse"), p.skipRinse,
		p.seeing("Now taste"), p.tellingNothing, p.scoring(given), p.picture("second"),
		p.pressing("Done"), p.seeing("In your own words"), p.tellingNothing, p.picture("answer"), p.keys("Return"),
		p.unseal,
	)
	if err != nil {
		return fmt.Errorf("tasting: %w", err)
	}
	return errors.Join(p.quit(), checkScores(folder, seal))
}

// scoring gives scores to the line that has the focus and to those after it.
func (p *program) scoring(scores []int) gesture {
	return func() error {
		for i, n := range scores {
			if i > 0 {
				if err := p.key("Tab"); err != nil {
					return err
				}
			}
			if err := p.key(strconv.Itoa(n)); err != nil {
				return err
			}
		}
		return nil
	}
}

// checkScores looks that both samples were kept with the scores that were given.
func checkScores(folder, seal string) error {
	opened, err := unsealed(folder, seal)
	if err != nil {
		return err
	}
	for _, plate := range opened.Rounds[0].Plates {
		var kept []int
		for _, line := range opened.Setting.Plan.Attributes {
			kept = append(kept, opened.Rounds[0].Answer.Scores[plate.Label][line.Name])
		}
		if !slices.Equal(kept, given) {
			return fmt.Errorf("sample %s is kept with the scores %v", plate.Label, kept)
		}
	}
	return nil
}
