package verdict

import (
	"twinloaf/journal/blind"
)

// Correction is an addition made after unsealing: the answer that should have
// been noted, and why. The score as handed in stays what it was.
type Correction struct {
	Taster int          `json:"taster"`
	Round  int          `json:"round"`
	Answer blind.Answer `json:"answer"`
	Reason string       `json:"reason"`
}

// Tally counts the answers of a tasting.
type Tally struct {
	Planned int // answers planned
	Missing int // handed in without an answer
	Never   int // never handed in
	// Stopped are those who tasted no more, by choice.
	Stopped []Stopped
	Ties    int // no preference
	// Counted is what the test is made of.
	Counted int
	// Agreeing is, of Counted: the right answers; in a paired comparison those
	// that name the expected loaf, or where none is expected loaf 1.
	Agreeing int

	SkippedRinses int
	OnPaper       int
	// PerTaster has the same counts for each person who had a place, in the plan's
	// order, those who took over after those they took over from.
	PerTaster []Share
}

// Stopped is somebody who tasted no more, after so many rounds.
type Stopped struct {
	Taster string
	After  int
}

// Votes counts tasters instead of answers: each counts once, for the loaf that
// was named more often.
type Votes struct {
	// Counted named one loaf more often than the other; Agreeing of them named the
	// loaf that [Tally.Agreeing] counts. Even named both equally often.
	Counted, Agreeing, Even int
}

// votes counts each taster once.
func (t Tally) votes() Votes {
	var v Votes
	for _, s := range t.PerTaster {
		switch {
		case s.Counted == 0:
		case 2*s.Agreeing == s.Counted:
			v.Even++
		default:
			v.Counted++
			if 2*s.Agreeing > s.Counted {
				v.Agreeing++
			}
		}
	}
	return v
}

// people is how many tasters gave an answer that counts.
func (t Tally) people() int {
	n := 0
	for _, s := range t.PerTaster {
		if s.Counted > 0 {
			n++
		}
	}
	return n
}

// Share is one taster's part.
type Share struct {
	Taster            string
	Counted, Agreeing int
}

// tally counts; corrected says whether corrections take the place of the
// answers they correct.
func tally(o blind.Opened, corrections []Correction) Tally {
	plan := o.Setting.Plan
	t := Tally{Planned: plan.Answers()}
	at := map[string]int{}
	for i, name := range o.Progress.People(plan) {
		at[name] = i
		t.PerTaster = append(t.PerTaster, Share{Taster: name})
	}
	for i, sheet := range o.Progress.Sheets {
		if sheet.Phase == blind.PhaseStopped {
			t.Stopped = append(t.Stopped, Stopped{o.Progress.Name(plan, i, sheet.Round), sheet.Round})
		}
	}
	for _, r := range o.Rounds {
		answer := answerOf(r, corrections)
		t.SkippedRinses += answer.SkippedRinses
		if answer.OnPaper && answer.Missing == "" {
			t.OnPaper++
		}
		switch {
		case answer.Missing != "":
			t.Missing++
			continue
		case answer.Tie:
			t.Ties++
			continue
		}
		t.Counted++
		mine := &t.PerTaster[at[o.Who(r)]]
		mine.Counted++
		if agrees(o, r, answer) {
			t.Agreeing++
			mine.Agreeing++
		}
	}
	t.Never = t.Planned - len(o.Rounds)
	return t
}

func answerOf(r blind.Round, corrections []Correction) blind.Answer {
	answer := r.Answer
	for _, c := range corrections {
		if c.Taster == r.Taster && c.Round == r.Round {
			answer = c.Answer
		}
	}
	return answer
}

func agrees(o blind.Opened, r blind.Round, a blind.Answer) bool {
	plan := o.Setting.Plan
	if plan.Method != blind.Paired {
		return o.Right(r, a)
	}
	return r.Loaf(a.Picks[0]) == max(1, plan.Expected)
}
