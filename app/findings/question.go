package findings

import (
	"errors"
	"math"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/pages"
	"twinloaf/app/past"
	"twinloaf/journal/measure"
	"twinloaf/journal/shelf"
	"twinloaf/journal/shelf/finding"
)

// Factors that are names, beside the figures of the record.
const (
	byCulture shelf.Metric = "culture"
	bySeason  shelf.Metric = "season"
	byTrial   shelf.Metric = "in a trial"
)

// factor is something that differs between bakes: a figure, or a name.
type factor struct {
	past.Described
	words []string // by row, where it is a name; nil for a figure
}

// group is the part of the menu in which a factor stands.
func (f factor) group() string {
	switch f.Key {
	case shelf.ColdHours, shelf.ProofHours, shelf.BulkHours, shelf.DoughTemp:
		return lang.L("Times and temperatures")
	case byCulture, bySeason, byTrial, shelf.CultureAge, shelf.RoomTemp:
		return lang.L("Culture and surroundings")
	}
	switch {
	case f.Key.IsShare():
		return lang.L("Flours")
	case f.Key.IsCrumb():
		return lang.L("Crumb")
	}
	return lang.L("What went in")
}

// column gives the figure of every bake.
func (f factor) column(r *past.BakeIndex) finding.Factor {
	if f.words != nil {
		return finding.Factor{Name: string(f.Key), Word: f.words}
	}
	return finding.Factor{Name: string(f.Key), Number: r.Column(f.Key)}
}

// factors lists what can be asked about, names first.
func factors(r *past.BakeIndex, u measure.Units) []factor {
	var out []factor
	named := func(key shelf.Metric, name string, word func(i int) string) {
		words, seen := make([]string, r.Len()), map[string]bool{}
		for i := range words {
			words[i] = word(i)
			if words[i] != "" {
				seen[words[i]] = true
			}
		}
		if len(seen) > 1 {
			out = append(out, factor{past.Described{Key: key, Name: name}, words})
		}
	}
	for _, d := range r.Factors(u) {
		out = append(out, factor{Described: d})
	}
	// What the crumb measures is an outcome of the dough, and a thing that the eating
	// may follow from.
	for _, d := range r.Outcomes(u) {
		if d.Key.IsCrumb() {
			out = append(out, factor{Described: d})
		}
	}
	named(byCulture, lang.L("culture"), func(i int) string { return r.Cultures[r.Row(i).Culture] })
	named(bySeason, lang.L("season"), func(i int) string { return pages.SeasonWord(shelf.SeasonOf(r.Row(i).At)) })
	named(byTrial, lang.L("being part of a trial"), func(i int) string {
		if r.Row(i).Trial != "" {
			return lang.L("in a trial")
		}
		return lang.L("by itself")
	})
	return out
}

// answer is what the record says to a question.
type answer struct {
	outcome past.Described
	factor  factor
	x, y    []float64 // by row; x is nil where the factor is a name
	trend   *finding.Trend
	groups  *finding.Comparison
	rows    []int // of the points, in the order in which they are drawn
	links   []finding.Link
	n       int // bakes that have both
	without int // bakes that lack one of the two, and are left out
	few     bool
	// mixed says that too few bakes are alike in flour for the two to be compared
	// among those that are.
	mixed bool
	// survey is everything that the record can be asked, and found what this
	// question came to among it.
	survey finding.Survey
	found  finding.Found
}

// ask works an answer out. It takes its time.
func ask(r *past.BakeIndex, outcome past.Described, f factor, all []factor, survey finding.Survey) answer {
	a := answer{outcome: outcome, factor: f, y: r.Column(outcome.Key), survey: survey}
	a.found, _ = survey.Of(string(outcome.Key), string(f.Key))
	col := f.column(r)
	a.x = col.Number
	for i := range a.y {
		if a.y[i] == a.y[i] && (a.x != nil && a.x[i] == a.x[i] || a.x == nil && col.Word[i] != "") {
			a.rows = append(a.rows, i)
		}
	}
	a.n = len(a.rows)
	a.without = r.Len() - a.n
	var err error
	if a.x != nil {
		var t finding.Trend
		t, err = finding.TrendWithin(a.x, a.y, levels(r, f.Key))
		a.trend = &t
	} else {
		var c finding.Comparison
		c, err = finding.CompareWithin(col.Word, a.y, levels(r, f.Key))
		a.groups = &c
	}
	a.few, a.mixed = err != nil, errors.Is(err, finding.ErrMixed)
	if a.few {
		return a
	}
	// What moved together is looked for among the bakes that the answer rests on.
	among := finding.Factor{Name: col.Name, Number: only(col.Number, a.rows), Word: only(col.Word, a.rows)}
	var others []finding.Factor
	for _, o := range all {
		if !confounds(o.Key, f.Key) {
			continue
		}
		c := o.column(r)
		others = append(others, finding.Factor{Name: c.Name, Number: only(c.Number, a.rows), Word: only(c.Word, a.rows)})
	}
	// Time itself is a factor: a baker learns.
	days := make([]float64, len(a.rows))
	for i, row := range a.rows {
		days[i] = float64(r.Row(row).At.Unix())
	}
	others = append(others, finding.Factor{Name: dateKey, Number: days})
	a.links = finding.Together(among, others)
	return a
}

// dateKey names the day of a bake among what moved together.
const dateKey = "date"

// confounds reports whether a factor could stand behind what another seems to do, so
// that it is worth naming when the two moved together. What the crumb came to follows
// from the dough and stands behind nothing that was done to it; how much dough was
// made says how many loaves were wanted, and a bowl of it ferments much alike.
func confounds(other, of shelf.Metric) bool {
	return other != of && !tied(other, of) && other != shelf.DoughWeight && !other.IsCrumb()
}

// tied reports whether two factors go together by how they are reckoned, so that to
// say so would tell nothing.
func tied(a, b shelf.Metric) bool {
	pair := map[shelf.Metric]bool{a: true, b: true}
	if pair[shelf.Prefermented] && pair[shelf.Inoculation] {
		return true
	}
	_, flourA := a.Flour()
	_, flourB := b.Flour()
	return flourA && (flourB || b == shelf.Wholegrain) || flourB && a == shelf.Wholegrain
}

// only takes some rows of a column, which may be missing.
func only[T any](list []T, rows []int) []T {
	if list == nil {
		return nil
	}
	out := make([]T, len(rows))
	for i, row := range rows {
		out[i] = list[row]
	}
	return out
}

// oneIn says a chance as the baker reads it: "about once in 250 times". It tells no
// chance finer than pWords does.
func oneIn(p float64, u measure.Units) string {
	n := func(n float64) map[string]any { return map[string]any{"N": u.FormatNumber(n, 0)} }
	switch {
	case p > 0.5:
		return lang.L("more often than not")
	case p > 0.4:
		return lang.L("about every other time")
	case p < leastP:
		return lang.L("less than once in {{.N}} times", n(1/leastP))
	}
	return lang.L("about once in {{.N}} times", n(roundly(1/p)))
}

// roundly rounds a number from 2 to 1000 to as much as a chance is worth telling: 85,
// 250.
func roundly(n float64) float64 {
	step := 1.0
	switch {
	case n >= 100:
		step = 50
	case n >= 20:
		step = 5
	}
	return math.Round(n/step) * step
}
