package blind

import (
	"maps"
	"slices"
)

// Phase is where a taster stands within a round.
type Phase string

// The phases of a round, in order.
const (
	// PhaseAllergens comes once, before the first bite: the allergens of both
	// loaves are shown and acknowledged.
	PhaseAllergens Phase = "allergens"
	// PhaseSample: one sample is being tasted (and scored, in scaling).
	PhaseSample Phase = "sample"
	// PhaseRinse: water or a plain cracker before the next sample.
	PhaseRinse Phase = "rinse"
	// PhaseAnswer: all samples of the round are tasted; the answer is chosen
	// and handed in.
	PhaseAnswer Phase = "answer"
	// PhaseDone: every round is handed in.
	PhaseDone Phase = "done"
	// PhaseStopped: the taster tastes no more.
	PhaseStopped Phase = "stopped"
)

// Progress is all that a scoring session remembers. It is plain data: keep it
// after every step, and a session resumes at the same sample.
type Progress struct {
	Sheets []ScoreSheet `json:"sheets"` // one for each taster of the plan
	// Slips are the codes found under the plates of each round, in the order of
	// the places, entered after the last score. Alone only.
	Slips [][]string `json:"slips,omitempty"`
	// Chain is everything that happened, in order, each with the fingerprint of all
	// before it. Tastings of version 1 have none.
	Chain []Link `json:"chain,omitempty"`
	// Ended is set once scoring is over.
	Ended bool `json:"ended,omitempty"`
	// EndedEarly is the host's reason for stopping before all planned scores
	// were in. It counts in the verdict.
	EndedEarly string `json:"ended_early,omitempty"`
}

// ScoreSheet is one taster's progress.
type ScoreSheet struct {
	Round int   `json:"round"` // current round, from 0
	Phase Phase `json:"phase"`
	// Sample is the place, in tasting order from 0, of the sample being tasted,
	// or of the one that the rinse comes before.
	Sample int `json:"sample"`
	// Current is the answer being made; it may still change.
	Current Answer `json:"current"`
	// Answers are handed in, one a round, and stand.
	Answers []Answer `json:"answers,omitempty"`
	// Seats are those who took the place over, in order.
	Seats []Seat `json:"seats,omitempty"`
	// Stopped is why the taster stopped, where a reason was given.
	Stopped string `json:"stopped,omitempty"`
}

// A Seat is who has a taster's place from a round on.
type Seat struct {
	Round int    `json:"round"` // from 0
	Name  string `json:"name"`
}

// Over reports whether the taster has no round left to taste.
func (s ScoreSheet) Over() bool { return s.Phase == PhaseDone || s.Phase == PhaseStopped }

// Answer is what a taster hands in for one round.
type Answer struct {
	// Picks are the labels chosen: the odd one, the one like the reference,
	// the one with more, or the two that belong together.
	Picks []string `json:"picks,omitempty"`
	// Tie is "no preference", where the plan allows it.
	Tie bool `json:"tie,omitempty"`
	// Scores are 1 to 9 by label and attribute name.
	Scores map[string]map[string]int `json:"scores,omitempty"`
	// Missing is the reason why a round was handed in without an answer.
	Missing string `json:"missing,omitempty"`
	// SkippedRinses counts pauses that were cut short.
	SkippedRinses int `json:"skipped_rinses,omitempty"`
	// OnPaper says that the answer was typed in from a printed sheet.
	OnPaper bool   `json:"on_paper,omitempty"`
	Remark  string `json:"remark,omitempty"`
}

// Counts reports whether the answer says anything: it is neither missing nor a
// tie.
func (a Answer) Counts() bool { return a.Missing == "" && !a.Tie }

func (a Answer) isZero() bool {
	return len(a.Picks) == 0 && !a.Tie && len(a.Scores) == 0 && a.Missing == "" && a.SkippedRinses == 0 && !a.OnPaper && a.Remark == ""
}

func (a Answer) clone() Answer {
	a.Picks = slices.Clone(a.Picks)
	a.Scores = maps.Clone(a.Scores)
	for label, scores := range a.Scores {
		a.Scores[label] = maps.Clone(scores)
	}
	return a
}

func (p Progress) clone() Progress {
	p.Sheets = slices.Clone(p.Sheets)
	for i := range p.Sheets {
		sheet := &p.Sheets[i]
		sheet.Current = sheet.Current.clone()
		sheet.Answers = slices.Clone(sheet.Answers)
		sheet.Seats = slices.Clone(sheet.Seats)
		for j := range sheet.Answers {
			sheet.Answers[j] = sheet.Answers[j].clone()
		}
	}
	p.Chain = slices.Clone(p.Chain)
	p.Slips = slices.Clone(p.Slips)
	for i := range p.Slips {
		p.Slips[i] = slices.Clone(p.Slips[i])
	}
	return p
}
