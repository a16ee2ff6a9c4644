package verdict

import (
	"slices"

	"twinloaf/journal/blind"
	"twinloaf/journal/say"
	"twinloaf/journal/stats"
)

// AttributeResult compares the two loaves on one line of a scaling sheet.
type AttributeResult struct {
	Attribute blind.Attribute
	// Pairs are the scores in pairs, loaf 1 and loaf 2 of one round, for a plot.
	Pairs []ScorePair
	// Mean1 and Mean2 are the mean scores.
	Mean1, Mean2 float64
	// Test is the exact signed rank test of loaf 1 minus loaf 2. With several
	// tasters of several rounds each taster counts once, with the mean of the
	// differences: a taste that lasts is no luck.
	Test stats.SignedRankResult
	// Adjusted is Test.P after Holm's correction over all attributes.
	Adjusted float64
	Shown    bool
}

// ScorePair is one round's two scores.
type ScorePair struct {
	Taster, Round int // Taster as in [Tally.PerTaster]
	First, Second int // of loaf 1 and loaf 2
}

func attributes(o blind.Opened, corrections []Correction) []AttributeResult {
	plan := o.Setting.Plan
	people := o.Progress.People(plan)
	results := make([]AttributeResult, len(plan.Attributes))
	for i, a := range plan.Attributes {
		results[i] = AttributeResult{Attribute: a}
		for _, r := range o.Rounds {
			answer := answerOf(r, corrections)
			if !answer.Counts() {
				continue
			}
			pair := ScorePair{Taster: slices.Index(people, o.Who(r)), Round: r.Round}
			for _, plate := range r.Plates {
				if score := answer.Scores[plate.Label][a.Name]; plate.Loaf == 1 {
					pair.First = score
				} else {
					pair.Second = score
				}
			}
			results[i].Pairs = append(results[i].Pairs, pair)
		}
	}
	return tested(results, plan.Risk())
}

// tested fills in means, tests and Holm's correction.
func tested(results []AttributeResult, alpha float64) []AttributeResult {
	p := make([]float64, len(results))
	for i := range results {
		r := &results[i]
		differences := differencesOf(r.Pairs)
		for _, pair := range r.Pairs {
			r.Mean1 += float64(pair.First) / float64(len(r.Pairs))
			r.Mean2 += float64(pair.Second) / float64(len(r.Pairs))
		}
		// The only error is that there are no pairs; then P is 1 and nothing
		// is shown, which is right.
		r.Test, _ = stats.SignedRank(differences)
		p[i] = r.Test.P
	}
	for i, adjusted := range stats.Holm(p) {
		results[i].Adjusted = adjusted
		results[i].Shown = stats.Significant(adjusted, alpha)
	}
	return results
}

// differencesOf gives what is tested: a difference for each round where one
// tasted, and else one for each taster, the mean of the rounds.
func differencesOf(pairs []ScorePair) []float64 {
	var tasters []int
	sum, of := map[int]float64{}, map[int]float64{}
	all := make([]float64, len(pairs))
	for i, pair := range pairs {
		all[i] = float64(pair.First - pair.Second)
		if of[pair.Taster] == 0 {
			tasters = append(tasters, pair.Taster)
		}
		sum[pair.Taster] += all[i]
		of[pair.Taster]++
	}
	if len(tasters) < 2 {
		return all
	}
	means := make([]float64, len(tasters))
	for i, taster := range tasters {
		means[i] = sum[taster] / of[taster]
	}
	return means
}

// sentence says one attribute's result, loaves by name.
func (r AttributeResult) sentence(loaves [2]blind.Loaf) say.Line {
	with := say.With{
		"Attribute": r.Attribute.Name, "One": loaves[0].Name, "Mean1": say.Number{Value: r.Mean1, Decimals: 1},
		"Two": loaves[1].Name, "Mean2": say.Number{Value: r.Mean2, Decimals: 1},
		"P": Figure(r.Test.P), "Adjusted": Figure(r.Adjusted),
	}
	means := say.Of("“{{.One}}” {{.Mean1}}, “{{.Two}}” {{.Mean2}} on average (p\u00a0{{.P}}, with Holm's correction {{.Adjusted}}).", with)
	switch n := r.Test.Zeros; {
	case n > 0 && n+r.Test.Pairs < len(r.Pairs): // each taster counts once
		means = say.Join(means, say.N("{{.N}} taster scored both alike on average and is left out of the test.", "{{.N}} tasters scored both alike on average and are left out of the test.", n))
	case n > 0:
		means = say.Join(means, say.N("{{.N}} pair was scored both alike and is left out of the test.", "{{.N}} pairs were scored both alike and are left out of the test.", n))
	}
	if !r.Shown {
		return say.Join(say.Begin(say.Of("{{.Attribute}}: nothing was shown.", with)), means)
	}
	higher := loaves[0]
	if r.Test.Plus < r.Test.Minus {
		higher = loaves[1]
	}
	return say.Join(say.Begin(say.Of("{{.Attribute}}: “{{.Loaf}}” scores higher.", say.With{"Attribute": r.Attribute.Name, "Loaf": higher.Name})), means)
}
