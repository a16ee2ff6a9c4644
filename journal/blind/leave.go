package blind

import (
	"fmt"
	"strings"

	"twinloaf/journal/say"
)

// Nobody has to taste, and nobody has to say why.

// Stop ends the tasting for one taster, before the first bite or in the middle,
// with or without a reason. What was handed in stands; the round in hand counts
// for nothing; the others go on. It is no early end of the tasting.
func (s *Session) Stop(taster int, reason string) error {
	sheet, err := s.leaving(taster)
	if err != nil {
		return err
	}
	s.link(linkStop, taster, sheet.Round)
	sheet.Phase, sheet.Stopped = PhaseStopped, strings.TrimSpace(reason)
	sheet.Sample, sheet.Current = 0, Answer{}
	return nil
}

// HandOver gives a taster's place to somebody else, who begins the round in hand
// anew, after the allergens were shown. Alone there is nobody to hand over to.
func (s *Session) HandOver(taster int, name string) error {
	sheet, err := s.leaving(taster)
	name = strings.TrimSpace(name)
	switch {
	case err != nil:
		return err
	case s.setting.Plan.Mode == Alone:
		return refuse(ErrStep, say.Of("a tasting alone cannot be handed over: whoever laid out the plates shuffled them"))
	case name == "":
		return refuse(ErrAnswer, say.Of("to hand over, give a name"))
	case name == s.progress.Name(s.setting.Plan, taster, sheet.Round):
		return refuse(ErrAnswer, say.Of("{{.Name}} has this place already", say.With{"Name": name}))
	}
	s.link(linkHandOver, taster, sheet.Round)
	sheet.Seats = append(sheet.Seats, Seat{Round: sheet.Round, Name: name})
	sheet.Phase, sheet.Sample, sheet.Current = PhaseAllergens, 0, Answer{}
	return nil
}

func (s *Session) leaving(taster int) (*ScoreSheet, error) {
	sheet, err := s.sheet(taster)
	switch {
	case err != nil:
		return nil, err
	case s.progress.Ended || s.progress.EndedEarly != "":
		return nil, ErrEnded
	case sheet.Over():
		return nil, fmt.Errorf("taster %d has no round left: %w", taster+1, ErrStep)
	}
	return sheet, nil
}
