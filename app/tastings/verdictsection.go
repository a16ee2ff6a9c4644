package tastings

import (
	"context"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/blind"
	"twinloaf/journal/blind/verdict"
	"twinloaf/journal/measure"
)

// verdictSection shows what an unsealed tasting showed: in words first, then the
// loaves with their codes, then the figures.
type verdictSection struct {
	p      *tastingPage
	t      *journal.Tasting
	in     verdict.Input
	v      verdict.Verdict
	looks  [2]charts.SeriesStyle // of the two loaves
	works  bool                  // the verdict is still being worked out
	cancel func()
}

func newVerdictPart(p *tastingPage) *verdictSection { return &verdictSection{p: p, cancel: func() {}} }

func (v *verdictSection) left()                                       { v.cancel() }
func (v *verdictSection) changed(t *journal.Tasting, s blind.Setting) { v.show(t, s) }

func (v *verdictSection) show(t *journal.Tasting, s blind.Setting) {
	v.t = t
	page := v.p.page
	page.SetEyebrow(eyebrowOf(t, s.Plan, v.p.env.Units(), v.p.env.Now()))
	page.SetActions(nil)
	if v.v.Headline.IsZero() {
		v.works = true
		page.SetHeading(pages.Asked(s.Plan))
		page.SetBody(kit.Faint(lang.L("Working it out…")))
	}
	v.cancel()
	type told struct {
		v     verdict.Verdict
		in    verdict.Input
		looks [2]charts.SeriesStyle
		sum   pooled
	}
	v.cancel = pages.Fetch(v.p.env, func(ctx context.Context) (got told, err error) {
		j := v.p.env.Journal.Until(ctx)
		if got.v, got.in, err = verdictOf(j, t); err != nil {
			return got, err
		}
		loaves := got.in.Opened.Setting.Plan.Loaves
		got.looks = pages.LooksOfBakes(j, journal.ID(loaves[0].ID), journal.ID(loaves[1].ID))
		got.sum, err = poolOf(j, t)
		return got, err
	}, func(got told, err error) {
		v.works = false
		if err != nil {
			page.SetHeading(lang.L("No verdict can be given"))
			page.SetBody(kit.Body(v.p.env.Units().ErrorText(err)))
			v.p.env.Retitle()
			return
		}
		v.v, v.in, v.looks = got.v, got.in, got.looks
		v.fill(got.sum)
	})
}

// fill shows a verdict that was worked out.
func (v *verdictSection) fill(sum pooled) {
	page := v.p.page
	u := v.p.env.Units()
	page.SetHeading(headline(v.v, u))
	lead := leadText(u.SayAll(v.v.Words))
	below := kit.Stack(6)
	if len(v.v.Attributes) > 0 {
		below.Add(kit.Rule())
		below.Add(v.slopes())
	}
	if len(sum.tastings) > 1 {
		below.Add(kit.Rule())
		below.Add(v.together(sum))
	}
	page.SetBody(kit.BesideBoth(kit.Stack(6, lead, v.loaves()), kit.Columns(look.Space(95), v.fair(), v.figures()), below))
	print, csv, seal := v.print, v.csv, v.checkSeal
	again := kit.PrimaryButton(lang.L("Plan another tasting"), v.again)
	page.SetFoot(kit.FlowEnd(2,
		kit.QuietButton(lang.L("Correct a score"), v.correct), kit.QuietButton(lang.L("Save as CSV"), csv),
		kit.QuietButton(lang.L("Print"), print), kit.QuietButton(lang.L("Check the seal"), seal), again))
	v.p.keys = []kit.Key{
		{Name: "P", Doc: lang.L("Print"), Do: print}, {Name: "S", Doc: lang.L("Check the seal"), Do: seal},
		{Name: "C", Doc: lang.L("Save as CSV"), Do: csv}, {Name: "N", Doc: lang.L("Plan another tasting"), Do: v.again},
	}
	if v.p.Here() {
		v.p.env.Retitle()
	}
}

func leadText(sentences []string) fyne.CanvasObject {
	return kit.Lead(kit.Span{Text: strings.Join(sentences, " ")})
}

// loaves shows what was which, with photos, under how far they were told apart and beside the
// pairs of scores or the counts.
func (v *verdictSection) loaves() fyne.CanvasObject {
	plan := v.in.Opened.Setting.Plan
	covers := map[journal.ID]string{}
	if summaries, err := v.p.env.Journal.BakeSummaries(); err == nil {
		for _, c := range summaries {
			covers[c.ID] = c.Cover
		}
	}
	first, second := covers[journal.ID(plan.Loaves[0].ID)], covers[journal.ID(plan.Loaves[1].ID)]
	var sides [2]fyne.CanvasObject
	for i, l := range plan.Loaves {
		side := kit.Stack(1)
		if first != "" || second != "" { // one without a picture is drawn beside one with
			photo := kit.NewPhotoTile(v.p.env.Thumbs, loafSize, 0, func() { v.p.env.Go(pages.At(pages.Bake, journal.ID(l.ID))) }).Filling()
			photo.Set(kit.PhotoItem{Key: covers[journal.ID(l.ID)], Loaf: kit.GoldenLoaf})
			side.Add(kit.Grown(0.75, loafSize.Height, look.Space(120), photo))
		}
		side.Add(kit.Marked(v.looks[i], kit.Strong(l.Name)))
		side.Add(kit.Body(wasWords(codesOf(v.in.Opened, i+1))))
		sides[i] = side
	}
	both := kit.Stack(4)
	if low, share, high, ok := v.v.Interval(plan); ok {
		both.Add(newIntervalBar(low, share, high))
	}
	both.Add(kit.Columns(look.Space(40), sides[:]...))
	if plan.Method == blind.Scaling {
		frame := v.p.env.NewChart(lang.L("tasting"), fyne.NewSize(380, float32(60+44*len(v.v.Attributes))), nil)
		frame.SetSpec(pairsFigure(plan, v.v, v.looks, v.p.env.Units()))
		return kit.Columns(max(look.Space(70), frame.MinSize().Width), both, frame)
	}
	return twoThirds(both, v.counts())
}

// twoThirds gives what has pictures two thirds of the page's first column, and what is added up
// below likewise, where there is room for the other third.
func twoThirds(left, right fyne.CanvasObject) fyne.CanvasObject {
	return kit.WeightedColumns(max(look.Space(70), right.MinSize().Width), []float32{2, 1}, left, right)
}

// wasWords says by which codes a loaf went, as far as it was tasted.
func wasWords(codes []string) string {
	if len(codes) == 0 {
		return lang.L("was not tasted")
	}
	return lang.L("was {{.Codes}}", map[string]any{"Codes": strings.Join(codes, ", ")})
}

// pairsFigure shows the mean scores of both loaves on every line.
func pairsFigure(plan blind.Plan, v verdict.Verdict, looks [2]charts.SeriesStyle, u measure.Units) charts.Pairs {
	f := charts.Pairs{
		A: charts.Side{Name: plan.Loaves[0].Name, Look: looks[0]}, B: charts.Side{Name: plan.Loaves[1].Name, Look: looks[1]},
		Empty: lang.L("No pair of scores is in."),
	}
	for _, a := range v.Attributes {
		if len(a.Pairs) == 0 {
			continue
		}
		f.Rows = append(f.Rows, charts.Pair{Name: a.Attribute.Name, A: a.Mean1, B: a.Mean2, Strong: a.Shown, Note: pWords(a.Adjusted, u)})
	}
	return f
}

// pWords writes a probability as the verdict's sentences do.
func pWords(p float64, u measure.Units) string {
	return lang.L("p\u00a0{{.P}}", map[string]any{"P": u.Say(verdict.Figure(p))})
}

// counts shows the answers of each taster: filled where they agree.
func (v *verdictSection) counts() fyne.CanvasObject {
	plan := v.in.Opened.Setting.Plan
	column := kit.Stack(3, kit.Section(countsTitle(plan)))
	for _, share := range v.v.Tally.PerTaster {
		who := share.Taster
		dots := kit.Flow(1.5)
		for _, r := range v.in.Opened.Rounds {
			if v.in.Opened.Who(r) == who {
				dots.Add(newPlate("", answerState(v.in.Opened, r), 16))
			}
		}
		column.Add(kit.Row(4, kit.Width(look.Space(24), kit.Body(who)), kit.Width(dotsWidth(plan.Rounds), dots),
			kit.NewLine(kit.Span{Text: lang.L("{{.N}} of {{.Of}}", map[string]any{"N": share.Agreeing, "Of": share.Counted}), Color: look.ColorFaint})))
	}
	return column
}

// dotsWidth is the width of a row of so many dots, of which no more than twelve
// stand on one line.
func dotsWidth(n int) float32 { return float32(min(n, 12)) * (16 + look.Space(1.5)) }

func countsTitle(p blind.Plan) string {
	switch {
	case p.Method.Discriminates():
		return lang.L("Right answers, round by round")
	case p.Attribute == "":
		return lang.L("Who liked “{{.Loaf}}” better, round by round", map[string]any{"Loaf": p.Loaves[max(1, p.Expected)-1].Name})
	}
	return lang.L("Who called “{{.Loaf}}” more {{.What}}, round by round", map[string]any{"Loaf": p.Loaves[max(1, p.Expected)-1].Name, "What": p.Attribute})
}

// answerState draws an answer: filled when it agrees, a rim when it does not, a
// broken rim when it does not count.
func answerState(o blind.Opened, r blind.Round) plateState {
	if !r.Answer.Counts() {
		return plateToCome
	}
	plan := o.Setting.Plan
	agrees := o.Right(r, r.Answer)
	if plan.Method == blind.Paired {
		agrees = r.Loaf(r.Answer.Picks[0]) == max(1, plan.Expected)
	}
	if agrees {
		return plateChosen
	}
	return plateOffered
}

// fair says whether the pair was a fair one, and what else takes from the
// verdict.
func (v *verdictSection) fair() fyne.CanvasObject {
	u := v.p.env.Units()
	bakes, others := u.SayAll(v.v.Unfair), u.SayAll(v.v.Cautions)
	column := kit.Stack(2, kit.Section(lang.L("Was it a fair pair?")))
	if len(bakes) == 0 {
		column.Add(kit.Faint(lang.L("No difference was recorded beyond the one that was meant. What was not written down is not known.")))
	}
	addFaint(column, bakes)
	if v.t.Trial != "" {
		column.Add(kit.Row(0, kit.NewLink(lang.L("The trial"), func() { v.p.env.Go(pages.At(pages.Trial, v.t.Trial)) })))
	}
	if len(others) > 0 {
		column.Add(kit.Gap(1))
		column.Add(kit.Section(lang.L("Limits of this result")))
		addFaint(column, others)
	}
	return column
}

func (v *verdictSection) figures() fyne.CanvasObject {
	column := kit.Stack(2, kit.Section(lang.L("The figures")))
	addFaint(column, figuresOf(v.in, v.v, v.p.env.Units()))
	return column
}

func addFaint(column *fyne.Container, words []string) {
	for _, w := range words {
		column.Add(kit.Faint(w))
	}
}

// slopes shows the scores of one line pair by pair.
func (v *verdictSection) slopes() fyne.CanvasObject {
	plan := v.in.Opened.Setting.Plan
	frame := v.p.env.NewChart(lang.L("pairs of scores"), fyne.NewSize(420, 300), nil)
	names := make([]string, len(v.v.Attributes))
	first := 0
	for i, a := range v.v.Attributes {
		names[i] = a.Attribute.Name
		if a.Shown && !v.v.Attributes[first].Shown {
			first = i
		}
	}
	show := func(i int) {
		a := v.v.Attributes[i]
		f := charts.Slopes{
			Title: a.Attribute.Name, Y: charts.Axis{Min: 1, Max: 9, Whole: true},
			Left: charts.Side{Name: plan.Loaves[0].Name, Look: v.looks[0]}, Right: charts.Side{Name: plan.Loaves[1].Name, Look: v.looks[1]},
		}
		for _, pair := range a.Pairs {
			f.Pairs = append(f.Pairs, [2]float64{float64(pair.First), float64(pair.Second)})
		}
		frame.SetSpec(f)
	}
	show(first)
	return kit.Stack(3, kit.Section(lang.L("Scores in pairs, round by round")),
		kit.NewSegments("", names, first, show), widthOf(560, frame))
}
