package blind

import "twinloaf/journal/say"

// ErrCardGiven is returned when the plating card is asked for a second time.
var ErrCardGiven = say.NewError("the plating card was given out already")

// Card is the plating card: for the helper's eyes, or, alone, the list of slips
// to write. It is given out once, before sealing, and is blank afterwards.
// Printing it shows nothing; Lines does.
type Card struct {
	veiled
	lines func() []CardLine
	code  func() string
}

// CardLine is one round of one taster on the card.
type CardLine struct {
	Taster     int
	TasterName string
	Round      int // from 0
	Plates     []CardPlate
}

// CardPlate is one plate, or one slip, and the loaf that belongs to it.
type CardPlate struct {
	Label    string // a code, or R for a duo-trio's reference
	Loaf     int    // 1 or 2
	LoafName string
}

// Lines reads the card, by taster and round, plates in serving order (slips in
// no order). After sealing it returns ErrSealed.
func (c Card) Lines() ([]CardLine, error) {
	if c.lines == nil {
		return nil, ErrSealed
	}
	lines := c.lines()
	if lines == nil {
		return nil, ErrSealed
	}
	return lines, nil
}

// Code is what unseals the tasting, where its key lies on the helper's paper; empty
// elsewhere, and after sealing.
func (c Card) Code() string {
	if c.code == nil {
		return ""
	}
	return c.code()
}

// cardLines lays the secret out for the helper.
func cardLines(s Setting, secret secret) []CardLine {
	lines := make([]CardLine, 0, len(s.Servings))
	at := 0
	for _, serving := range s.Servings {
		line := CardLine{Taster: serving.Taster, TasterName: s.Plan.Tasters[serving.Taster], Round: serving.Round}
		plate := func(label string, loaf int) {
			line.Plates = append(line.Plates, CardPlate{Label: label, Loaf: loaf, LoafName: s.Plan.Loaves[loaf-1].Name})
		}
		if serving.OpenReference != 0 {
			plate(ReferenceLabel, serving.OpenReference)
		}
		for _, label := range s.sealedLabels(serving) {
			plate(label, int(secret.loaves[at]))
			at++
		}
		lines = append(lines, line)
	}
	return lines
}
