package blind

import (
	"fmt"
	"slices"

	"twinloaf/journal/say"
)

// Proof shows that scoring of one tasting is over: the key that Unseal asks
// for. Only a finished Session makes one.
type Proof struct {
	commitment string
	progress   Progress
}

// AllHandedIn reports whether every round that is still to be tasted is handed in:
// all of those who did not stop.
func (s *Session) AllHandedIn() bool {
	return !slices.ContainsFunc(s.progress.Sheets, func(sheet ScoreSheet) bool { return !sheet.Over() })
}

// SlipsWanted lists the rounds, from 0, whose slips are still to be turned over
// and entered; rounds handed in without an answer need none. It is empty as long as scores are still to come, and always with
// a helper.
func (s *Session) SlipsWanted() []int {
	if s.setting.Plan.Mode != Alone || !s.AllHandedIn() && s.progress.EndedEarly == "" {
		return nil
	}
	var wanted []int
	for round, answer := range s.progress.Sheets[0].Answers {
		if answer.Missing == "" && len(s.progress.Slips[round]) == 0 {
			wanted = append(wanted, round)
		}
	}
	return wanted
}

// EnterSlips enters the codes found under the plates of one round, in the order
// of its places, after the last score. A slip that was entered wrongly may be
// entered again until Finish.
func (s *Session) EnterSlips(round int, codes ...string) error {
	switch {
	case s.setting.Plan.Mode != Alone:
		return fmt.Errorf("enter slips: with a helper there are none: %w", ErrStep)
	case s.progress.Ended:
		return ErrEnded
	case !s.AllHandedIn() && s.progress.EndedEarly == "":
		return fmt.Errorf("turn over slips: %w", ErrIncomplete)
	case round < 0 || round >= len(s.progress.Sheets[0].Answers):
		return fmt.Errorf("enter slips: round %d was not tasted", round+1)
	}
	if err := s.checkSlips(round, codes); err != nil {
		return err
	}
	s.progress.Slips[round] = slices.Clone(codes)
	return nil
}

func (s *Session) checkSlips(round int, codes []string) error {
	serving, ok := s.setting.Serving(0, round)
	if !ok || len(codes) != len(serving.Samples) {
		return refuse(ErrAnswer, say.Of("round {{.Round}} has {{.Plates}} plates, and {{.Entered}} codes were entered", say.With{"Round": round + 1, "Plates": len(serving.Samples), "Entered": len(codes)}))
	}
	for i, code := range codes {
		if !slices.Contains(serving.Slips, code) {
			return refuse(ErrAnswer, say.Of("{{.Code}} is not one of the codes of round {{.Round}}", say.With{"Code": code, "Round": round + 1}))
		}
		if slices.Contains(codes[:i], code) {
			return refuse(ErrAnswer, say.Of("{{.Code}} is entered twice in round {{.Round}}", say.With{"Code": code, "Round": round + 1}))
		}
	}
	return nil
}

// EndEarly stops scoring before all planned scores are in, for a reason. It is
// noted and counts in the verdict. Answers handed in so far stand; a round
// half tasted counts for nothing. Alone, the slips of the rounds handed in are
// then entered, and Finish follows. With all scores in there is nothing to end
// early, and ErrStep is returned.
func (s *Session) EndEarly(reason string) error {
	switch {
	case s.progress.Ended:
		return ErrEnded
	case reason == "":
		return refuse(ErrAnswer, say.Of("to end early, give a reason"))
	case s.AllHandedIn():
		return refuse(ErrStep, say.Of("all scores are in: there is nothing to end early"))
	case s.progress.EndedEarly != "":
		return ErrEnded
	}
	s.link(linkEnd, 0, 0)
	s.progress.EndedEarly = reason
	return nil
}

// Finish ends scoring and gives the proof that unseals. The error wraps
// ErrIncomplete while planned scores, or slips, are missing and the host has
// not ended early. It may be called again on a finished session.
func (s *Session) Finish() (Proof, error) {
	if !s.AllHandedIn() && s.progress.EndedEarly == "" {
		return Proof{}, refuse(ErrIncomplete, say.Of("{{.In}} of {{.Planned}} rounds are handed in", say.With{"In": s.HandedIn(), "Planned": s.setting.Plan.Answers()}))
	}
	if wanted := s.SlipsWanted(); len(wanted) > 0 {
		return Proof{}, refuse(ErrIncomplete, say.N("the slips of one round are not entered", "the slips of {{.N}} rounds are not entered", len(wanted)))
	}
	for i := range s.progress.Sheets {
		// What of a round was tasted when it ended early counts for nothing, and goes.
		if sheet := &s.progress.Sheets[i]; !sheet.Over() {
			sheet.Phase, sheet.Sample, sheet.Current = PhaseRinse, 0, Answer{}
		}
	}
	s.progress.Ended = true
	return Proof{commitment: s.setting.Commitment, progress: s.progress.clone()}, nil
}

// Complete reports whether nothing is missing for unsealing.
func (s *Session) Complete() bool {
	return (s.AllHandedIn() || s.progress.EndedEarly != "") && len(s.SlipsWanted()) == 0
}

// HandedIn is how many rounds are handed in, of all tasters.
func (s *Session) HandedIn() int {
	n := 0
	for _, sheet := range s.progress.Sheets {
		n += len(sheet.Answers)
	}
	return n
}
