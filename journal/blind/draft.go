package blind

import (
	"fmt"
	"io"
	"slices"

	"twinloaf/journal/blind/draw"
)

// Draft is a tasting that has been drawn and not yet sealed: the short while in
// which the helper reads the card. It is kept in memory only; a draft that was
// never sealed is thrown away and drawn afresh, codes and all. Like Sealed it
// shows nothing however it is printed. It is not for use by several goroutines
// at once.
type Draft struct {
	veiled
	state func() *draftState
}

type draftState struct {
	hidden    func() (Setting, secret)
	cardGiven bool
	sealed    bool
}

// Draw draws a tasting: codes, serving orders and which loaf is which, from the
// random bytes of reader. It returns an error wrapping ErrPlan when the plan
// cannot be served, and the reader's own error when it fails.
//
// Which of the two loaves takes which part (in a 3-AFC, which place each sample
// has) hangs on one bit, the lowest of the first byte read, and nothing else
// hangs on it. Two readers that differ in that bit alone
// make two tastings that differ in the assignment and the commitment and are
// the same in everything else: with these a test can show that nothing leaks.
func Draw(plan Plan, reader io.Reader) (*Draft, error) {
	if err := plan.Check(); err != nil {
		return nil, err
	}
	plan = clonePlan(plan)
	setting, s, err := drawAll(plan, draw.From(reader))
	if err != nil {
		return nil, fmt.Errorf("draw the tasting: %w", err)
	}
	state := &draftState{hidden: func() (Setting, secret) { return setting, s }}
	return &Draft{state: func() *draftState { return state }}, nil
}

// Card gives out the plating card, once. It can be read until Seal.
func (d *Draft) Card() (Card, error) {
	state := d.state()
	switch {
	case state.sealed:
		return Card{}, ErrSealed
	case state.cardGiven:
		return Card{}, ErrCardGiven
	}
	state.cardGiven = true
	return Card{
		lines: func() []CardLine {
			if state.sealed {
				return nil
			}
			return cardLines(state.hidden())
		},
		code: func() string {
			if state.sealed {
				return ""
			}
			_, s := state.hidden()
			return s.code
		},
	}, nil
}

// Seal closes the draft for good and blanks the card. The Sealed is for the
// journal's store alone; the Setting is for everybody.
func (d *Draft) Seal() (Sealed, Setting, error) {
	state := d.state()
	if state.sealed {
		return Sealed{}, Setting{}, ErrSealed
	}
	setting, s := state.hidden()
	state.sealed = true
	state.hidden = nil
	return seal(setting, s), cloneSetting(setting), nil
}

func drawAll(plan Plan, source *draw.Source) (Setting, secret, error) {
	none := func(err error) (Setting, secret, error) { return Setting{}, secret{}, err }
	swapped, err := source.Coin()
	if err != nil {
		return none(err)
	}
	salt, err := source.Bytes(saltSize)
	if err != nil {
		return none(err)
	}
	codes, err := drawCodes(source, plan.plates())
	if err != nil {
		return none(err)
	}
	setting, sides := Setting{Version: settingVersion, Plan: plan}, []side(nil)
	if plan.Mode == Alone {
		setting.Servings, sides, err = drawSlips(plan, source, codes)
	} else {
		setting.Servings, sides, err = drawServings(plan, source, codes)
	}
	if err != nil {
		return none(err)
	}
	s := secret{loaves: loavesOf(plan, sides, swapped)}
	if plan.KeyOnPaper {
		if s.code, err = drawPaperCode(source); err != nil {
			return none(err)
		}
	}
	copy(s.salt[:], salt)
	setting.Commitment = Commitment(canonicalText(setting, s))
	return setting, s, nil
}

// loavesOf says which loaf, 1 or 2, takes which part. In a 3-AFC the sample that
// stands alone is the loaf that is expected to have more, so there the bit moves
// every sample one place on instead.
func loavesOf(plan Plan, sides []side, swapped bool) []byte {
	loaves := make([]byte, len(sides))
	for i, one := range sides {
		switch {
		case plan.Method != ThreeAFC:
			loaves[i] = 1 + byte(one)
			if swapped {
				loaves[i] = 2 - byte(one)
			}
		default:
			if n := plan.Method.Samples(); swapped {
				one = sides[i/n*n+(i+1)%n]
			}
			loaves[i] = byte(3 - plan.Expected)
			if one == 1 {
				loaves[i] = byte(plan.Expected)
			}
		}
	}
	return loaves
}

// drawServings draws the rounds for a helper to plate.
func drawServings(plan Plan, source *draw.Source, codes []string) ([]Serving, []side, error) {
	drawn, err := drawOrders(plan, source)
	if err != nil {
		return nil, nil, err
	}
	samples := plan.Method.Samples()
	var servings []Serving
	var sides []side
	for taster := range plan.Tasters {
		for round := range plan.Rounds {
			servings = append(servings, Serving{Taster: taster, Round: round, Samples: codes[:samples:samples]})
			sides = append(sides, drawn[taster][round]...)
			codes = codes[samples:]
		}
	}
	return servings, sides, nil
}

// drawOrders draws the order of each round of each taster.
//
// Where everybody tastes once the orders are served in balance over the
// tasters, as ISO 4120, 5495 and 10399 ask. Where somebody tastes several
// rounds each round is drawn by itself: in a balanced set a taster who names
// each place equally often, which is a common habit, would be all right or all
// wrong far more often than guessing allows (one time in ten instead of one in
// thirty-two, with six rounds of a pair), and the tabled critical counts, which
// suppose rounds that know nothing of one another, would not hold.
func drawOrders(plan Plan, source *draw.Source) ([][]order, error) {
	orders := servingOrders(plan.Method)
	drawn, err := drawWhich(plan, source, len(orders))
	if err != nil {
		return nil, err
	}
	rounds := make([][]order, len(drawn))
	for taster, row := range drawn {
		for _, which := range row {
			rounds[taster] = append(rounds[taster], orders[which])
		}
	}
	return rounds, nil
}

// drawWhich draws which of m orders each taster gets in each round.
func drawWhich(plan Plan, source *draw.Source, m int) ([][]int, error) {
	if plan.Rounds == 1 {
		return balanced(source, len(plan.Tasters), 1, m)
	}
	drawn := make([][]int, len(plan.Tasters))
	for taster := range drawn {
		drawn[taster] = make([]int, plan.Rounds)
		for round := range drawn[taster] {
			which, err := source.Below(m)
			if err != nil {
				return nil, err
			}
			drawn[taster][round] = which
		}
	}
	return drawn, nil
}

func clonePlan(p Plan) Plan {
	p.Tasters = slices.Clone(p.Tasters)
	p.Attributes = slices.Clone(p.Attributes)
	for i := range p.Loaves {
		p.Loaves[i].Allergens = slices.Clone(p.Loaves[i].Allergens)
	}
	return p
}

func cloneSetting(s Setting) Setting {
	s.Plan = clonePlan(s.Plan)
	s.Servings = slices.Clone(s.Servings)
	for i := range s.Servings {
		s.Servings[i].Samples = slices.Clone(s.Servings[i].Samples)
		s.Servings[i].Slips = slices.Clone(s.Servings[i].Slips)
	}
	return s
}
