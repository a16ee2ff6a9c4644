package findings

import (
	"fmt"
	"slices"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/pages"
	"twinloaf/app/past"
	"twinloaf/journal"
	"twinloaf/journal/blind"
	"twinloaf/journal/blind/verdict"
	"twinloaf/journal/measure"
	"twinloaf/journal/shelf"
	"twinloaf/journal/shelf/finding"
)

// proposal is the trial that would settle a question.
type proposal struct {
	varied   string // as the journal enters it
	values   []string
	cultures []journal.ID
	words    string // what it would be, in a sentence
	tasting  blind.Plan
	takes    string // what the tasting takes to tell, in a sentence
}

// propose gives the trial that would settle a question; false when none would, as
// with the season or the crumb.
func propose(r *past.BakeIndex, a answer, tasters []string, u measure.Units) (proposal, bool) {
	var p proposal
	if a.factor.Key.IsCrumb() {
		return p, false // nobody can give a dough its crumb
	}
	switch a.factor.Key {
	case bySeason, byTrial, shelf.CultureAge, shelf.RoomTemp:
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
		low, high := finding.Settle(only(a.x, a.rows), a.factor.Step)
		p.varied, p.values = a.factor.Name, []string{a.factor.Write(low), a.factor.Write(high)}
		switch a.factor.Key {
		case shelf.Salt:
			p.varied = journal.VarySalt
		case shelf.ColdHours:
			p.varied = journal.VaryColdRest
		}
	}
	p.words = lang.L("Two doughs on one day, alike except for {{.Factor}}: {{.A}} against {{.B}}, assigned at random, baked side by side and tasted blind.",
		map[string]any{"Factor": a.factor.Name, "A": p.values[0], "B": p.values[1]})
	p.tasting = tastingOf(a, p, tasters)
	p.takes = takes(p.tasting, u)
	return p, true
}

// tastingOf carries the question of a finding into a tasting of the two breads: a
// score of something that a tongue can compare asks which has more of it, in the
// direction that the record points; everything else first asks whether they can
// be told apart. It has as many rounds as it takes to show, eight times in ten,
// what is noticed half of the time, as far as people can taste so much.
func tastingOf(a answer, p proposal, tasters []string) blind.Plan {
	plan := blind.Plan{Method: blind.Triangle, Mode: blind.WithHelper, Tasters: tasters, Rounds: 1,
		Loaves: [2]blind.Loaf{{ID: "1", Name: p.values[0]}, {ID: "2", Name: p.values[1]}}}
	if what, ok := comparable(a.outcome.Key); ok {
		plan.Method, plan.Attribute = blind.Paired, what
		switch {
		case !told(a):
		case a.trend != nil && a.trend.Slope > 0, a.groups != nil && a.groups.Test.Superiority < 0.5:
			plan.Expected = 2
		default:
			plan.Expected = 1
		}
	}
	if len(plan.Tasters) == 0 {
		plan.Tasters = []string{lang.L("the taster")}
	}
	const mostRounds = 6 // more than six rounds tire a palate: common practice, no source
	needed := verdict.Foresee(plan).Needed
	plan.Rounds = min(mostRounds, max(1, (needed+len(plan.Tasters)-1)/len(plan.Tasters)))
	plan.Tasters = tasters
	return plan
}

// comparable gives the word by which two breads can be compared for an outcome.
func comparable(of shelf.Metric) (string, bool) {
	switch of {
	case shelf.ScoreOf("sourness"):
		return lang.L("sour"), true
	case shelf.ScoreOf("chew"):
		return lang.L("chewy"), true
	case shelf.ScoreOf("openness"):
		return lang.L("open"), true
	}
	return "", false
}

// takes says how many answers it takes, and who would give them.
func takes(plan blind.Plan, u measure.Units) string {
	asked := plan
	if len(asked.Tasters) == 0 {
		asked.Tasters = []string{"1", "2"} // several answers, whoever gives them
	}
	needed := verdict.Foresee(asked).Needed
	if needed == 0 {
		return ""
	}
	data := map[string]any{"N": u.FormatNumber(float64(needed), 0), "Rounds": plan.Rounds, "Who": u.FormatNumber(float64(len(plan.Tasters)), 0)}
	if len(plan.Tasters) > 0 {
		return lang.L("The tasting is planned with it. {{.N}} answers or more show a difference that is noticed half of the time at least eight times in ten; it is planned for {{.Who}} who tasted last, {{.Rounds}} rounds each.", data)
	}
	return lang.L("The tasting is planned with it. {{.N}} answers or more show a difference that is noticed half of the time at least eight times in ten: add tasters and rounds until there are so many.", data)
}

// lastTasters are those who tasted last.
func lastTasters(r journal.Reader) ([]string, error) {
	all, err := journal.All[journal.Tasting](r)
	if err != nil {
		return nil, err
	}
	var last time.Time
	var names []string
	for _, t := range all {
		s, err := t.Setting()
		if err != nil {
			return nil, err
		}
		if !t.Sealed.IsZero() && t.At.After(last) {
			last, names = t.At, s.Plan.Tasters
		}
	}
	return names, nil
}

// newTrial makes the trial of a proposal, and its tasting: both bakes repeat the
// newest one that the answer rests on.
func newTrial(env *pages.Env, r *past.BakeIndex, a answer, p proposal) (journal.ID, error) {
	if len(a.rows) == 0 {
		return "", fmt.Errorf("planning a trial: there is no bake to repeat")
	}
	model := r.Bakes[slices.Min(a.rows)].ID // rows are newest first
	plan := journal.TrialPlan{
		From:     journal.Ref{Kind: journal.KindBake, ID: model},
		Name:     lang.L("{{.One}} against {{.Other}}", map[string]any{"One": p.values[0], "Other": p.values[1]}),
		Question: lang.L("Does {{.Factor}} change {{.Outcome}}?", map[string]any{"Factor": a.factor.Name, "Outcome": a.outcome.Name}),
		Varied:   p.varied, Values: p.values, Cultures: p.cultures, Marks: pages.BowlMarks(),
		At: tomorrow(env.Now()),
	}
	var id journal.ID
	err := env.Journal.Do(lang.L("planning a trial"), func(tx *journal.Tx) error {
		t, err := journal.NewTrial(tx, plan)
		if err != nil {
			return err
		}
		id = t.ID
		_, err = journal.NewTasting(tx, journal.TastingPlan{
			Name: plan.Question, At: plan.At.AddDate(0, 0, 1), Trial: id,
			Bakes: [2]journal.ID{t.Arms[0].Bake, t.Arms[1].Bake}, Plan: p.tasting,
		})
		return err
	})
	return id, err
}

// tomorrow is eight in the morning of the day after.
func tomorrow(now time.Time) time.Time {
	y, m, d := now.Date()
	return time.Date(y, m, d+1, 8, 0, 0, 0, now.Location())
}
