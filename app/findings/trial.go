package findings

import (
	"fmt"
	"slices"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/past"
	"twinloaf/app/room"
	"twinloaf/journal"
	"twinloaf/journal/shelf"
	"twinloaf/journal/shelf/finding"
)

// proposal is the trial that would settle a question.
type proposal struct {
	varied   string // as the journal enters it
	values   []string
	cultures []journal.ID
	words    string // what it would be, in a sentence
}

// propose gives the trial that would settle a question; false when none would, as
// with the season or the crumb.
func propose(r *past.Record, a answer, u kit.Units) (proposal, bool) {
	var p proposal
	if past.IsCrumb(a.factor.Key) {
		return p, false // nobody can give a dough its crumb
	}
	switch a.factor.Key {
	case bySeason, byTrial, past.CultureAge, past.RoomTemp:
		return p, false // nobody can give two doughs of one day two seasons
	case byCulture:
		for _, g := range a.groups.Groups[:min(2, len(a.groups.Groups))] {
			for id, name := range r.Cultures {
				if name == g.Name {
					p.values, p.cultures = append(p.values, name), append(p.cultures, journal.ID(id))
					break
				}
			}
		}
		if len(p.values) < 2 {
			return p, false
		}
		p.varied = journal.VaryCulture
	default:
		low, high := finding.Settle(onlyNumbers(a.x, a.rows), a.factor.Step)
		p.varied, p.values = a.factor.Name, []string{a.factor.Write(low), a.factor.Write(high)}
		switch a.factor.Key {
		case shelf.Salt:
			p.varied = journal.VarySalt
		case past.ColdHours:
			p.varied = journal.VaryColdRest
		}
	}
	p.words = lang.L("Two doughs on one day, alike except for {{.Factor}}: {{.A}} against {{.B}}, assigned at random, baked side by side and tasted blind.",
		map[string]any{"Factor": a.factor.Name, "A": p.values[0], "B": p.values[1]})
	return p, true
}

// newTrial makes the trial of a proposal: both bakes repeat the newest one that the
// answer rests on.
func newTrial(env *room.Env, r *past.Record, a answer, p proposal) (journal.ID, error) {
	if len(a.rows) == 0 {
		return "", fmt.Errorf("planning a trial: there is no bake to repeat")
	}
	model := r.Cards[slices.Min(a.rows)].ID // rows are newest first
	plan := journal.TrialPlan{
		From:     journal.Ref{Kind: journal.KindBake, ID: model},
		Name:     lang.L("{{.One}} against {{.Other}}", map[string]any{"One": p.values[0], "Other": p.values[1]}),
		Question: lang.L("Does {{.Factor}} change {{.Outcome}}?", map[string]any{"Factor": a.factor.Name, "Outcome": a.outcome.Name}),
		Varied:   p.varied, Values: p.values, Cultures: p.cultures, Marks: room.BowlMarks(),
		At: tomorrow(env.Now()),
	}
	var id journal.ID
	err := env.Journal.Do(lang.L("planning a trial"), func(tx *journal.Tx) error {
		t, err := journal.NewTrial(tx, plan)
		if err == nil {
			id = t.ID
		}
		return err
	})
	return id, err
}

// tomorrow is eight in the morning of the day after.
func tomorrow(now time.Time) time.Time {
	y, m, d := now.Date()
	return time.Date(y, m, d+1, 8, 0, 0, 0, now.Location())
}
