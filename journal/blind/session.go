package blind

import (
	"fmt"
	"slices"

	"twinloaf/journal/say"
)

// Errors of a scoring session.
var (
	// ErrStep: the step does not come now.
	ErrStep = say.NewError("that is not the next step")
	// ErrHandedIn: the round was handed in, and stands.
	ErrHandedIn = say.NewError("the round is handed in and cannot be changed before the end")
	// ErrAnswer: the answer is not one that this method takes.
	ErrAnswer = say.NewError("that is not an answer to this question")
	// ErrIncomplete: planned scores are still missing.
	ErrIncomplete = say.NewError("planned scores are still missing")
	// ErrEnded: scoring is over.
	ErrEnded = say.NewError("scoring is over")
	// ErrProgress: kept progress does not fit the setting.
	ErrProgress = say.NewError("the kept progress does not fit this tasting")
)

// refuse gives an error of a kind the sentence that says what was wrong.
func refuse(kind error, why say.Line) error { return &say.Error{Said: why, Err: kind} }

// Session walks tasters through their rounds, one sample at a time. There is no
// way back into a round once it is handed in. It knows nothing of which loaf is
// which. Not for use by several goroutines at once.
type Session struct {
	setting  Setting
	progress Progress
}

// Begin starts a session at the first step of every taster.
func Begin(setting Setting) *Session {
	s := &Session{setting: cloneSetting(setting)}
	s.progress.Sheets = make([]ScoreSheet, len(setting.Plan.Tasters))
	for i := range s.progress.Sheets {
		s.progress.Sheets[i].Phase = PhaseAllergens
	}
	if setting.Plan.Mode == Alone {
		s.progress.Slips = make([][]string, setting.Plan.Rounds)
	}
	return s
}

// Resume goes on from kept progress, at the same sample. The error wraps
// ErrProgress when the progress does not fit the setting.
func Resume(setting Setting, progress Progress) (*Session, error) {
	s := &Session{setting: cloneSetting(setting), progress: progress.clone()}
	if err := s.check(); err != nil {
		return nil, fmt.Errorf("resume scoring: %w", err)
	}
	return s, nil
}

// Progress is what to keep after every step.
func (s *Session) Progress() Progress { return s.progress.clone() }

// Setting is what the session goes by.
func (s *Session) Setting() Setting { return cloneSetting(s.setting) }

// Turn is what a taster does now.
type Turn struct {
	Taster  int
	Round   int // from 0
	Phase   Phase
	Serving Serving
	// Label is the sample in hand, or the one that the rinse comes before.
	Label string
	// Sample of Samples, from 0, the reference counted.
	Sample, Samples int
	// Current is the answer so far.
	Current Answer
}

// At tells what a taster does now.
func (s *Session) At(taster int) (Turn, error) {
	sheet, err := s.sheet(taster)
	if err != nil {
		return Turn{}, err
	}
	step := Turn{Taster: taster, Round: sheet.Round, Phase: sheet.Phase, Sample: sheet.Sample, Current: sheet.Current.clone()}
	serving, ok := s.setting.Serving(taster, sheet.Round)
	if !ok || sheet.Over() {
		return step, nil
	}
	tasted := s.setting.Tasted(serving)
	step.Serving, step.Samples = serving, len(tasted)
	if sheet.Phase == PhaseSample || sheet.Phase == PhaseRinse {
		step.Label = tasted[sheet.Sample]
	}
	return step, nil
}

// AllergensShown notes that the taster has seen the allergens of both loaves.
func (s *Session) AllergensShown(taster int) error {
	sheet, err := s.in(taster, PhaseAllergens)
	if err != nil {
		return err
	}
	sheet.Phase = PhaseSample
	return nil
}

// Tasted ends the sample in hand. In scaling every attribute of it must have
// its score. Before the next sample comes a rinse; after the last the answer.
func (s *Session) Tasted(taster int) error {
	sheet, err := s.in(taster, PhaseSample)
	if err != nil {
		return err
	}
	tasted := s.tasted(taster, sheet)
	for _, a := range s.setting.Plan.Attributes {
		if sheet.Current.Scores[tasted[sheet.Sample]][a.Name] == 0 {
			return refuse(ErrIncomplete, say.Of("sample {{.Code}} has no score for {{.Attribute}} yet", say.With{"Code": tasted[sheet.Sample], "Attribute": a.Name}))
		}
	}
	sheet.Sample++
	sheet.Phase = PhaseRinse
	if sheet.Sample == len(tasted) {
		sheet.Sample, sheet.Phase = 0, PhaseAnswer
	}
	return nil
}

// Rinsed ends the pause; skipped says that it was cut short, which is noted.
func (s *Session) Rinsed(taster int, skipped bool) error {
	sheet, err := s.in(taster, PhaseRinse)
	if err != nil {
		return err
	}
	if skipped {
		sheet.Current.SkippedRinses++
	}
	sheet.Phase = PhaseSample
	return nil
}

// Score gives the sample in hand a score from 1 to 9. It may be given anew
// until the sample is ended.
func (s *Session) Score(taster int, attribute string, score int) error {
	sheet, err := s.in(taster, PhaseSample)
	if err != nil {
		return err
	}
	label := s.tasted(taster, sheet)[sheet.Sample]
	if !slices.ContainsFunc(s.setting.Plan.Attributes, func(a Attribute) bool { return a.Name == attribute }) || score < LowestScore || score > HighestScore {
		return fmt.Errorf("score %d for %q of sample %s: %w", score, attribute, label, ErrAnswer)
	}
	if sheet.Current.Scores == nil {
		sheet.Current.Scores = map[string]map[string]int{}
	}
	if sheet.Current.Scores[label] == nil {
		sheet.Current.Scores[label] = map[string]int{}
	}
	sheet.Current.Scores[label][attribute] = score
	return nil
}

// Choose makes or changes the answer of the round, by labels.
func (s *Session) Choose(taster int, labels ...string) error {
	return s.answer(taster, func(a *Answer) { a.Picks, a.Tie = slices.Clone(labels), false })
}

// ChooseTie answers "no preference", where the plan allows it.
func (s *Session) ChooseTie(taster int) error {
	return s.answer(taster, func(a *Answer) { a.Picks, a.Tie = nil, true })
}

// Remark notes a taster's own words with the current round, at any time before
// it is handed in.
func (s *Session) Remark(taster int, words string) error {
	sheet, err := s.sheet(taster)
	if err != nil {
		return err
	}
	if s.progress.Ended || sheet.Over() {
		return ErrHandedIn
	}
	sheet.Current.Remark = words
	return nil
}

func (s *Session) answer(taster int, change func(*Answer)) error {
	sheet, err := s.in(taster, PhaseAnswer)
	if err != nil {
		return err
	}
	changed := sheet.Current.clone()
	change(&changed)
	serving, _ := s.setting.Serving(taster, sheet.Round)
	if err := s.setting.CheckAnswer(serving, changed); err != nil {
		return err
	}
	sheet.Current = changed
	return nil
}

func (s *Session) tasted(taster int, sheet *ScoreSheet) []string {
	serving, _ := s.setting.Serving(taster, sheet.Round)
	return s.setting.Tasted(serving)
}

func (s *Session) sheet(taster int) (*ScoreSheet, error) {
	if taster < 0 || taster >= len(s.progress.Sheets) {
		return nil, fmt.Errorf("there is no taster %d in this tasting", taster+1)
	}
	return &s.progress.Sheets[taster], nil
}

// in gives a taster's sheet when it stands in the phase that a step belongs to.
func (s *Session) in(taster int, phase Phase) (*ScoreSheet, error) {
	sheet, err := s.sheet(taster)
	switch {
	case err != nil:
		return nil, err
	case s.progress.Ended:
		return nil, ErrEnded
	case sheet.Over():
		return nil, ErrHandedIn
	case sheet.Phase != phase:
		return nil, fmt.Errorf("taster %d is at %q, not at %q: %w", taster+1, sheet.Phase, phase, ErrStep)
	}
	return sheet, nil
}
