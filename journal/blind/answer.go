package blind

import (
	"fmt"
	"slices"

	"twinloaf/journal/say"
)

// CheckAnswer says why an answer does not fit a serving, wrapping ErrAnswer, or
// nil. A missing answer with a reason fits always.
func (s Setting) CheckAnswer(serving Serving, a Answer) error {
	refuse := func(why say.Line) error {
		return fmt.Errorf("round %d of taster %d: %w", serving.Round+1, serving.Taster+1, &say.Error{Said: why, Err: ErrAnswer})
	}
	plan := s.Plan
	switch {
	case a.Missing != "":
		if len(a.Picks) > 0 || a.Tie || len(a.Scores) > 0 {
			return refuse(say.Of("the answer is both missing and given"))
		}
		return nil
	case a.Tie && !plan.AllowsTie():
		return refuse(say.Of("this method asks for a choice; a guess is part of it"))
	case a.Tie && len(a.Picks) > 0:
		return refuse(say.Of("the answer is both a choice and none"))
	case !a.Tie && len(a.Picks) != plan.Method.Picks():
		return refuse(say.Of("{{.Chosen}} chosen, {{.Asked}} asked for", say.With{"Chosen": len(a.Picks), "Asked": plan.Method.Picks()}))
	}
	for i, label := range a.Picks {
		if !slices.Contains(serving.Samples, label) {
			return refuse(say.Of("there is no sample {{.Code}}", say.With{"Code": label}))
		}
		if slices.Contains(a.Picks[:i], label) {
			return refuse(say.Of("sample {{.Code}} is named twice", say.With{"Code": label}))
		}
	}
	return s.checkScores(serving, a, refuse)
}

func (s Setting) checkScores(serving Serving, a Answer, refuse func(say.Line) error) error {
	if s.Plan.Method != Scaling {
		if len(a.Scores) > 0 {
			return refuse(say.Of("this method takes no scores"))
		}
		return nil
	}
	if len(a.Scores) != len(serving.Samples) {
		return refuse(say.Of("{{.Scored}} samples scored, {{.Served}} served", say.With{"Scored": len(a.Scores), "Served": len(serving.Samples)}))
	}
	for _, label := range serving.Samples {
		scores := a.Scores[label]
		if len(scores) != len(s.Plan.Attributes) {
			return refuse(say.Of("sample {{.Code}} has {{.Scores}} scores, {{.Asked}} asked for", say.With{"Code": label, "Scores": len(scores), "Asked": len(s.Plan.Attributes)}))
		}
		for _, attribute := range s.Plan.Attributes {
			if v := scores[attribute.Name]; v < LowestScore || v > HighestScore {
				return refuse(say.Of("{{.Attribute}} of sample {{.Code}} must be {{.Lowest}} to {{.Highest}}, not {{.Score}}",
					say.With{"Attribute": attribute.Name, "Code": label, "Lowest": LowestScore, "Highest": HighestScore, "Score": v}))
			}
		}
	}
	return nil
}

// check says why kept progress does not fit its setting.
func (s *Session) check() error {
	plan := s.setting.Plan
	if len(s.progress.Sheets) != len(plan.Tasters) {
		return fmt.Errorf("%d sheets for %d tasters: %w", len(s.progress.Sheets), len(plan.Tasters), ErrProgress)
	}
	if plan.Mode == Alone && len(s.progress.Slips) != plan.Rounds {
		return fmt.Errorf("slips of %d rounds, %d planned: %w", len(s.progress.Slips), plan.Rounds, ErrProgress)
	}
	for taster, sheet := range s.progress.Sheets {
		if err := s.checkScoreSheet(taster, sheet); err != nil {
			return fmt.Errorf("taster %d: %w", taster+1, err)
		}
	}
	for round, found := range s.progress.Slips {
		if len(found) == 0 {
			continue
		}
		if err := s.checkSlips(round, found); err != nil {
			return fmt.Errorf("%w: %w", ErrProgress, err)
		}
	}
	if s.progress.Ended && s.setting.chained() && slices.ContainsFunc(s.progress.Sheets, underWay) {
		return tampered("somebody is in the middle of a round of a finished tasting")
	}
	return s.checkChain()
}

// underWay reports whether a sheet holds more of the round in hand than a finished
// tasting leaves of it.
func underWay(sheet ScoreSheet) bool {
	return !sheet.Over() && (sheet.Phase != PhaseRinse || sheet.Sample != 0 || !sheet.Current.isZero())
}

func (s *Session) checkScoreSheet(taster int, sheet ScoreSheet) error {
	plan := s.setting.Plan
	for i, seat := range sheet.Seats {
		if seat.Name == "" || seat.Round < 0 || seat.Round > sheet.Round || i > 0 && seat.Round < sheet.Seats[i-1].Round {
			return fmt.Errorf("place taken over in round %d: %w", seat.Round+1, ErrProgress)
		}
	}
	if sheet.Round < 0 || sheet.Round > plan.Rounds || len(sheet.Answers) != sheet.Round {
		return fmt.Errorf("%d answers in round %d of %d: %w", len(sheet.Answers), sheet.Round+1, plan.Rounds, ErrProgress)
	}
	for round, answer := range sheet.Answers {
		serving, _ := s.setting.Serving(taster, round)
		if err := s.setting.CheckAnswer(serving, answer); err != nil {
			return fmt.Errorf("%w: %w", ErrProgress, err)
		}
	}
	samples := plan.Method.Samples()
	if plan.Method.HasReference() {
		samples++
	}
	fits := sheet.Sample >= 0 && sheet.Sample < samples
	switch sheet.Phase {
	case PhaseAllergens:
		fits = fits && sheet.Sample == 0 && sheet.Round < plan.Rounds
	case PhaseSample, PhaseRinse, PhaseAnswer:
		fits = fits && sheet.Round < plan.Rounds
	case PhaseDone:
		fits = sheet.Round == plan.Rounds && sheet.Sample == 0 && sheet.Current.isZero()
	case PhaseStopped:
		fits = sheet.Sample == 0 && sheet.Current.isZero()
	default:
		fits = false
	}
	if !fits {
		return fmt.Errorf("phase %q, sample %d of round %d: %w", sheet.Phase, sheet.Sample+1, sheet.Round+1, ErrProgress)
	}
	return nil
}
