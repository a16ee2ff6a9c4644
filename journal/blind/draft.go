package blind

import (
	"fmt"
	"io"
	"log/slog"
	"slices"

	"twinloaf/journal/blind/draw"
)

// Draft is a tasting that has been drawn and not yet sealed: the short while in
// which the helper reads the card. It is kept in memory only; a draft that was
// never sealed is thrown away and drawn afresh, codes and all. Like Sealed it
// shows nothing however it is printed. It is not for use by several goroutines
// at once.
type Draft struct{ state func() *draftState }

type draftState struct {
	hidden    func() (Setting, secret)
	cardGiven bool
	sealed    bool
}

// Draw draws a tasting: codes, serving orders and which loaf is which, from the
// random bytes of reader. It returns an error wrapping ErrPlan when the plan
// cannot be served, and the reader's own error when it fails.
//
// Which of the two loaves takes which part hangs on one bit, the lowest of the
// first byte read, and nothing else hangs on it. Two readers that differ in that bit alone
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
	return &Draft{func() *draftState { return state }}, nil
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
	return Card{lines: func() []CardLine {
		if state.sealed {
			return nil
		}
		return cardLines(state.hidden())
	}}, nil
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

const draftWords = "drawn tasting, not yet sealed"

// String says what it is.
func (Draft) String() string { return draftWords }

// GoString says what it is.
func (Draft) GoString() string { return draftWords }

// Format says what it is, whatever the verb.
func (Draft) Format(f fmt.State, _ rune) { _, _ = io.WriteString(f, draftWords) }

// LogValue says what it is.
func (Draft) LogValue() slog.Value { return slog.StringValue(draftWords) }

// MarshalJSON says what it is.
func (Draft) MarshalJSON() ([]byte, error) { return []byte(`"` + draftWords + `"`), nil }

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
	setting, sides := Setting{Plan: plan}, []side(nil)
	if plan.Mode == Alone {
		setting.Servings, sides, err = drawSlips(plan, source, codes)
	} else {
		setting.Servings, sides, err = drawServings(plan, source, codes)
	}
	if err != nil {
		return none(err)
	}
	s := secret{loaves: make([]byte, len(sides))}
	copy(s.salt[:], salt)
	for i, one := range sides {
		s.loaves[i] = 1 + byte(one)
		if swapped {
			s.loaves[i] = 2 - byte(one)
		}
	}
	setting.Commitment = Commitment(canonicalText(setting, s))
	return setting, s, nil
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

// drawOrders draws the order of each round of each taster, in balance.
func drawOrders(plan Plan, source *draw.Source) ([][]order, error) {
	orders := servingOrders(plan.Method)
	drawn, err := balanced(source, len(plan.Tasters), plan.Rounds, len(orders))
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
