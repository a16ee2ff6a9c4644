package blind

import (
	"fmt"

	"twinloaf/journal/say"
)

// HandIn hands in the round with its answer. After it there is no way back.
func (s *Session) HandIn(taster int) error {
	sheet, err := s.in(taster, PhaseAnswer)
	if err != nil {
		return err
	}
	serving, _ := s.setting.Serving(taster, sheet.Round)
	if err := s.setting.CheckAnswer(serving, sheet.Current); err != nil {
		return err
	}
	s.turn(taster, sheet)
	return nil
}

// HandInMissing hands in the round without an answer, at any step of it, for a
// reason such as "a plate was dropped". It is noted and counts for nothing.
func (s *Session) HandInMissing(taster int, reason string) error {
	sheet, err := s.sheet(taster)
	switch {
	case err != nil:
		return err
	case s.progress.Ended:
		return ErrEnded
	case sheet.Over() || sheet.Phase == PhaseAllergens:
		return fmt.Errorf("hand in nothing for taster %d: %w", taster+1, ErrStep)
	case reason == "":
		return refuse(ErrAnswer, say.Of("to hand in nothing, give a reason"))
	}
	sheet.Current = Answer{Missing: reason, SkippedRinses: sheet.Current.SkippedRinses, Remark: sheet.Current.Remark}
	s.turn(taster, sheet)
	return nil
}

// TypeIn hands in the next round of a taster from a printed sheet. It is
// refused in the middle of a round that is being tasted on screen.
func (s *Session) TypeIn(taster int, answer Answer) error {
	sheet, err := s.sheet(taster)
	switch {
	case err != nil:
		return err
	case s.progress.Ended:
		return ErrEnded
	case sheet.Over(), sheet.Sample != 0, sheet.Phase == PhaseAnswer:
		return fmt.Errorf("type in round %d of taster %d: %w", sheet.Round+1, taster+1, ErrStep)
	}
	serving, _ := s.setting.Serving(taster, sheet.Round)
	answer = answer.clone()
	answer.OnPaper = true
	if err := s.setting.CheckAnswer(serving, answer); err != nil {
		return err
	}
	sheet.Current = answer
	unseen := sheet.Phase == PhaseAllergens
	s.turn(taster, sheet)
	if unseen && sheet.Phase != PhaseDone {
		// Going on at the screen, the allergens still come first.
		sheet.Phase = PhaseAllergens
	}
	return nil
}

// turn hands in the current answer and goes on to the next round.
func (s *Session) turn(taster int, sheet *ScoreSheet) {
	s.link(linkAnswer, taster, sheet.Round)
	sheet.Answers = append(sheet.Answers, sheet.Current)
	sheet.Current = Answer{}
	sheet.Round++
	sheet.Sample = 0
	sheet.Phase = PhaseRinse // before the next round's first sample
	if sheet.Round == s.setting.Plan.Rounds {
		sheet.Phase = PhaseDone
	}
}
