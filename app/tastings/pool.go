package tastings

import (
	"errors"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/blind"
	"twinloaf/journal/blind/verdict"
	"twinloaf/journal/measure"
)

// pooled is the verdict over every tasting that asked the same question of the
// same two breads.
type pooled struct {
	tastings []*journal.Tasting // that are added up, the one that is shown first
	inputs   []verdict.Input
	verdict  verdict.Verdict
}

// poolOf adds up the unsealed tastings that asked what t asked: by the same
// method, of the same two bakes, or of the same two values of what a trial
// varies. t comes first, so that its loaf 1 is loaf 1 of the sum. Tastings that
// cannot be added up are left out.
func poolOf(r journal.Reader, t *journal.Tasting) (pooled, error) {
	first, err := journal.VerdictInput(r, t)
	if err != nil {
		return pooled{}, err
	}
	all, err := journal.All[journal.Tasting](r)
	if err != nil {
		return pooled{}, err
	}
	mine, err := breads(r, t, first.Opened.Setting.Plan)
	if err != nil {
		return pooled{}, err
	}
	sum, loafOne := pooled{tastings: []*journal.Tasting{t}, inputs: []verdict.Input{first}}, []bool{true}
	for _, other := range all {
		if other.ID == t.ID || !other.IsOpen() {
			continue
		}
		in, err := journal.VerdictInput(r, other)
		if errors.Is(err, blind.ErrTampered) {
			continue // its own page says so
		}
		if err != nil {
			return pooled{}, err
		}
		theirs, err := breads(r, other, in.Opened.Setting.Plan)
		if err != nil {
			return pooled{}, err
		}
		same, one := matched(mine, theirs)
		if !same {
			continue
		}
		if _, err := verdict.Pool([]verdict.Input{first, in}, []bool{true, one}); errors.Is(err, verdict.ErrPool) {
			continue // it asked something else
		}
		sum.tastings, sum.inputs, loafOne = append(sum.tastings, other), append(sum.inputs, in), append(loafOne, one)
	}
	if len(sum.tastings) > 1 {
		sum.verdict, err = verdict.Pool(sum.inputs, loafOne)
	}
	return sum, err
}

// breads names the two breads of a tasting for comparing: what its trial varies
// with the value of each, or else the bakes themselves.
func breads(r journal.Reader, t *journal.Tasting, p blind.Plan) ([2][]string, error) {
	var out [2][]string
	for i, l := range p.Loaves {
		out[i] = []string{l.ID}
	}
	if t.Trial == "" {
		return out, nil
	}
	trial, err := journal.Get[journal.Trial](r, t.Trial)
	if errors.Is(err, journal.ErrNotFound) {
		return out, nil
	}
	if err != nil {
		return out, err
	}
	for i, l := range p.Loaves {
		for _, arm := range trial.Arms {
			if string(arm.Bake) == l.ID && arm.Value != "" {
				out[i] = append(out[i], strings.ToLower(trial.Varied+"\x00"+arm.Value))
			}
		}
	}
	return out, nil
}

// matched reports whether two pairs are the same breads, and whether the first
// of one is the first of the other.
func matched(a, b [2][]string) (same, loafOne bool) {
	meet := func(x, y []string) bool {
		return slices.ContainsFunc(x, func(s string) bool { return slices.Contains(y, s) })
	}
	switch {
	case meet(a[0], b[0]) && meet(a[1], b[1]):
		return true, true
	case meet(a[0], b[1]) && meet(a[1], b[0]):
		return true, false
	}
	return false, false
}

// together shows the sum over several tastings: what it says, which they are, and
// what takes from it.
func (v *verdictSection) together(sum pooled) fyne.CanvasObject {
	u := v.p.env.Units()
	said := kit.Stack(4, leadText(u.SayAll(sum.verdict.Words)))
	if low, share, high, ok := sum.verdict.Interval(sum.inputs[0].Opened.Setting.Plan); ok {
		said.Add(newIntervalBar(low, share, high))
	}
	said.Add(v.added(sum))
	return kit.Stack(4, kit.Section(lang.L("Added up: {{.N}} tastings of this question", map[string]any{"N": len(sum.tastings)})),
		kit.NewText(kit.Span{Text: headline(sum.verdict, u), Size: look.TextTitle, Serif: true}),
		twoThirds(said, v.takesFrom(sum)))
}

// added lists the tastings that are added up.
func (v *verdictSection) added(sum pooled) fyne.CanvasObject {
	plan := sum.inputs[0].Opened.Setting.Plan
	column := kit.Stack(2, kit.Section(lang.L("What was added up")))
	for i, t := range sum.tastings {
		name := pages.TastingName(t)
		words := lang.L("Tasting {{.N}}: {{.Name}}", map[string]any{"N": i + 1, "Name": name})
		var title fyne.CanvasObject = kit.Body(words)
		if i > 0 { // the first is the one on this page
			title = kit.Row(0, kit.NewLink(words, func() { v.p.env.Go(to(t.ID, "")) }))
		}
		column.Add(kit.Stack(0.5, title, kit.Faint(partWords(t, sum.inputs[i], v.p.env.Units(), v.p.env.Now()))))
	}
	column.Add(kit.Small(lang.L("Only tastings by the same method are added up, {{.Method}} ({{.Standard}}), that asked the same of the same two breads.",
		map[string]any{"Method": lang.L(plan.Method.Title()), "Standard": lang.L(plan.Standard())})))
	return column
}

// partWords says what one of several tastings adds: who tasted, how many were
// right where there is a right answer, and when.
func partWords(t *journal.Tasting, in verdict.Input, u measure.Units, now time.Time) string {
	plan, when := in.Opened.Setting.Plan, u.When(t.Unsealed, now)
	if !plan.Method.Discriminates() {
		return lang.L("{{.Who}}, {{.Rounds}} · unsealed {{.When}}", map[string]any{
			"Who": strings.Join(plan.Tasters, ", "), "Rounds": roundsEach(plan.Rounds), "When": when})
	}
	right, of := 0, 0
	for _, r := range in.Opened.Rounds {
		if r.Answer.Counts() {
			of++
			if in.Opened.Right(r, r.Answer) {
				right++
			}
		}
	}
	return lang.L("{{.Who}}: {{.N}} of {{.Of}} right · unsealed {{.When}}", map[string]any{
		"Who": strings.Join(plan.Tasters, ", "), "N": right, "Of": of, "When": when})
}

// takesFrom tells what takes from the sum, replicates before all, and its figures.
func (v *verdictSection) takesFrom(sum pooled) fyne.CanvasObject {
	u := v.p.env.Units()
	column := kit.Stack(2, kit.Section(lang.L("Limits of this result")))
	addFaint(column, u.SayAll(sum.verdict.Cautions))
	column.Add(kit.Gap(1))
	column.Add(kit.Section(lang.L("The figures")))
	addFaint(column, u.SayAll(sum.verdict.Details))
	return column
}
