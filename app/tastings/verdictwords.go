package tastings

import (
	"context"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/blind"
	"twinloaf/journal/blind/verdict"
	"twinloaf/journal/measure"
)

// verdictOf works out the verdict of an unsealed tasting. It takes its time.
func verdictOf(r journal.Reader, t *journal.Tasting) (verdict.Verdict, verdict.Input, error) {
	in, err := journal.VerdictInput(r, t)
	if err != nil {
		return verdict.Verdict{}, in, err
	}
	v, err := verdict.Of(in)
	return v, in, err
}

// verdictLater works out a verdict away from the main goroutine, and shows its headline and
// what was counted as dots.
func verdictLater(env *pages.Env, t *journal.Tasting, words *kit.Text, dots *fyne.Container) {
	var in verdict.Input
	pages.Fetch(env, func(ctx context.Context) (v verdict.Verdict, err error) {
		v, in, err = verdictOf(env.Journal.Until(ctx), t)
		return v, err
	}, func(v verdict.Verdict, err error) {
		if err != nil {
			words.SetText(env.Units().ErrorText(err))
			return
		}
		words.SetText(headline(v, env.Units()))
		kit.SetOnly(dots, counted(in.Opened.Setting.Plan.Method, v.Tally, env.Units()))
	})
}

// headline is a verdict without the point at its end, as headings are.
func headline(v verdict.Verdict, u measure.Units) string {
	return strings.TrimSuffix(u.Say(v.Headline), ".")
}

// eyebrowOf says what was tasted, by whom, and when it was unsealed.
func eyebrowOf(t *journal.Tasting, p blind.Plan, u measure.Units, now time.Time) string {
	who := lang.L("{{.Who}}, {{.Rounds}}", map[string]any{"Who": tastersOf(p), "Rounds": roundsEach(p.Rounds)})
	if len(p.Tasters) == 1 {
		who = lang.L("{{.Who}}, {{.Rounds}}", map[string]any{"Who": p.Tasters[0], "Rounds": lang.N("{{.N}} rounds", p.Rounds, map[string]any{"N": p.Rounds})})
	}
	return lang.L("{{.Name}} · {{.Who}} · unsealed {{.When}}", map[string]any{
		"Name": pages.TastingName(t), "Who": who, "When": u.When(t.Unsealed, now)})
}

// figuresOf names the method and how it was counted.
func figuresOf(in verdict.Input, v verdict.Verdict, u measure.Units) []string {
	plan := in.Opened.Setting.Plan
	words := []string{lang.L("{{.Method}} ({{.Standard}}), {{.N}} of {{.Of}} planned answers counted, risk of a false alarm {{.Risk}} %.", map[string]any{
		"Method": lang.L(plan.Method.Title()), "Standard": lang.L(plan.Standard()), "N": v.Tally.Counted, "Of": v.Tally.Planned, "Risk": int(plan.Risk()*100 + 0.5)})}
	if v.Critical > 0 {
		words = append(words, lang.L("{{.N}} or more right answers would have shown a difference.", map[string]any{"N": v.Critical}))
	}
	if plan.Method == blind.Scaling {
		words = append(words, lang.N("Exact signed-rank test of each line, with Holm's correction over {{.N}} lines.", len(plan.Attributes), map[string]any{"N": len(plan.Attributes)}))
	}
	return append(words, u.SayAll(v.Details)...)
}

// codesOf lists the codes that a loaf went by, in the order of tasting; alone,
// those of its slips.
func codesOf(o blind.Opened, loaf int) []string {
	var codes []string
	for _, r := range o.Rounds {
		for _, p := range r.Plates {
			code := p.Label
			if p.Slip != "" {
				code = p.Slip
			}
			if p.Loaf == loaf && code != blind.ReferenceLabel && !slices.Contains(codes, code) {
				codes = append(codes, code)
			}
		}
	}
	return codes
}
