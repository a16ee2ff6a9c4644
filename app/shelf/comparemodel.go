package shelf

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/dough"
	"twinloaf/app/pages"
	"twinloaf/app/past"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/plan"
	"twinloaf/journal/shelf"
)

// sideRow is one thing that the bakes are compared by, with a value for each.
type sideRow struct {
	name   string
	values []string // "" where a bake has none
	// gist is what tells the bakes apart in it: the values without what says the same
	// of every row, as weights do where one dough was made larger.
	gist []string
	// number marks plain figures, which have this unit.
	number bool
	unit   string
	// follows marks a figure that is reckoned from other rows.
	follows bool
	// figure marks what every bake has, written down or not.
	figure bool
}

// counts marks a row of figures.
func (r *sideRow) counts(unit string) { r.number, r.unit = true, unit }

// unknown reports whether the bakes may be alike in it: of some it was not written down,
// and the others are.
func (r sideRow) unknown() bool {
	said := slices.DeleteFunc(slices.Clone(r.values), func(v string) bool { return v == "" })
	return r.figure && len(said) < len(r.values) && !unlike(said)
}

// differs reports whether the bakes are not alike in it.
func (r sideRow) differs() bool { return unlike(r.values) }

func unlike(list []string) bool {
	return slices.ContainsFunc(list, func(v string) bool { return v != list[0] })
}

// comparison is the table of a comparison: what differs first.
type comparison struct {
	differ, alike []sideRow
	unknown       []sideRow // written down of some of the bakes only
}

// apart gives the rows that differ by themselves: none that is reckoned from others,
// nor an ingredient of which there is the same share in a larger dough.
func (c comparison) apart() []sideRow {
	return slices.DeleteFunc(slices.Clone(c.differ), func(r sideRow) bool { return r.follows || !unlike(r.gist) })
}

// sideTable collects rows by their group and name, in the order in which they first
// come.
type sideTable struct {
	n    int
	rows []sideRow
	at   map[[2]string]int
}

// The groups of rows: what is called alike in two of them stays apart.
const (
	figureGroup = "figure"
	doughGroup  = "dough"
	stepGroup   = "step"
	noteGroup   = "note"
)

// put writes a value of a bake, which is all that tells it apart.
func (t *sideTable) put(bake int, group, name, value string) *sideRow {
	return t.putGist(bake, group, name, value, value)
}

// putGist writes a value of which only the gist tells the bakes apart.
func (t *sideTable) putGist(bake int, group, name, value, gist string) *sideRow {
	key := [2]string{group, name}
	i, ok := t.at[key]
	if !ok {
		i = len(t.rows)
		t.at[key] = i
		t.rows = append(t.rows, sideRow{name: name, values: make([]string, t.n), gist: make([]string, t.n),
			figure: group == figureGroup})
	}
	r := &t.rows[i]
	if value == "" {
		return r
	}
	if r.values[bake] != "" { // one flour weighed in two lines
		value, gist = r.values[bake]+" + "+value, r.gist[bake]+" + "+gist
	}
	r.values[bake], r.gist[bake] = value, gist
	return r
}

// compareBakes lays bakes side by side.
func (s wording) compareBakes(bakes []*journal.Bake, summaries []*journal.BakeSummary) comparison {
	t := &sideTable{n: len(bakes), at: map[[2]string]int{}}
	s.putFigures(t, summaries, bakes)
	for i, b := range bakes {
		s.putDough(t, i, b)
	}
	warmths := map[string][]warmth{}
	for i, b := range bakes {
		s.putSteps(t, i, b, warmths)
	}
	for name, list := range warmths {
		var values []float64
		for _, w := range list {
			values = append(values, w.celsius)
		}
		m := s.units.Temperature().Column(values...)
		for _, w := range list {
			t.put(w.bake, stepGroup, name, m.Write(w.celsius)).counts(m.Unit)
		}
	}
	for i, b := range bakes {
		t.put(i, noteGroup, lang.L("notes"), strings.TrimSpace(b.Notes))
		t.put(i, noteGroup, lang.L("notes on the outcome"), strings.TrimSpace(b.Outcome.Notes))
	}
	var out comparison
	for _, r := range t.rows {
		switch {
		case !slices.ContainsFunc(r.values, func(v string) bool { return v != "" }), t.repeats(r):
		case r.unknown():
			out.unknown = append(out.unknown, r)
		case r.differs():
			out.differ = append(out.differ, r)
		default:
			out.alike = append(out.alike, r)
		}
	}
	return out
}

// repeats reports whether a figure says what was measured in one step of each bake, which is a
// row by itself.
func (t *sideTable) repeats(r sideRow) bool {
	return r.follows && slices.ContainsFunc(t.rows, func(o sideRow) bool { return o.figure && !o.follows && slices.Equal(o.values, r.values) })
}

// putFigures writes every figure of the bakes, the outcomes first. How long bulk and
// cold rest took stands with the steps.
func (s wording) putFigures(t *sideTable, summaries []*journal.BakeSummary, bakes []*journal.Bake) {
	rows := make([]shelf.Row, len(summaries))
	for i, c := range summaries {
		var born time.Time
		if age := s.ageOf(c); age > 0 {
			born = c.At.Add(-age)
		}
		rows[i] = past.Row(c, born)
	}
	these := &past.BakeIndex{Shelf: shelf.New(rows), Flours: s.record.Flours}
	write := func(list []past.Described) {
		for _, d := range list {
			_, share := d.Key.Flour()
			if share || d.Key == shelf.ColdHours || d.Key == shelf.BulkHours || d.Key == shelf.ProofHours {
				continue
			}
			var has []int
			var values []float64
			for i := range summaries {
				if v := these.Metric(i, d.Key); v == v {
					has, values = append(has, i), append(values, v)
				}
			}
			m := d.Measure.Column(values...)
			for k, i := range has {
				r := t.put(i, figureGroup, d.Name, m.Write(values[k]))
				r.follows = reckoned(d.Key, bakes)
				r.counts(m.Unit)
			}
		}
	}
	write(these.Outcomes(s.units))
	for i, c := range summaries {
		t.put(i, figureGroup, lang.L("culture"), s.record.Cultures[string(c.Culture)])
	}
	write(these.Factors(s.units))
	for i, c := range summaries {
		t.put(i, noteGroup, lang.L("trial"), s.record.Trials[string(c.Trial)])
		if n := bakes[i].Loaves; n > 0 {
			t.put(i, figureGroup, lang.L("loaves"), s.count(n)).counts("")
		}
	}
}

// reckoned reports whether a figure follows from rows that stand in the table too: the
// lines of the dough, or what was measured in a step.
func reckoned(f shelf.Metric, bakes []*journal.Bake) bool {
	measured := func(of func(journal.Step) *formula.Celsius) bool {
		return slices.ContainsFunc(bakes, func(b *journal.Bake) bool {
			return slices.ContainsFunc(b.Steps, func(s journal.Step) bool { return of(s) != nil })
		})
	}
	switch f {
	case shelf.Hydration, shelf.Salt, shelf.Prefermented, shelf.Inoculation, shelf.Wholegrain:
		return true
	case shelf.DoughTemp:
		return measured(func(s journal.Step) *formula.Celsius { return s.Dough })
	case shelf.RoomTemp:
		return measured(func(s journal.Step) *formula.Celsius { return s.Air })
	}
	return false
}

// ageOf is the age of a bake's culture as the record has it; 0 when not known.
func (s wording) ageOf(c *journal.BakeSummary) time.Duration {
	i := slices.IndexFunc(s.record.Bakes, func(o *journal.BakeSummary) bool { return o.ID == c.ID })
	if i < 0 {
		return 0
	}
	if days := s.record.Metric(i, shelf.CultureAge); days == days {
		return time.Duration(days * 24 * float64(time.Hour))
	}
	return 0
}

// putDough writes what went in, in percent of the flour and by weight.
func (s wording) putDough(t *sideTable, i int, b *journal.Bake) {
	of := b.Dough()
	weights := dough.Weights(of, s.units)
	put := func(name string, grams formula.Grams, in journal.Ingredient, cell formula.Cell) {
		value := weights.Write(float64(grams))
		gist := value
		if p, err := of.Percent(cell, formula.WithCulture); err == nil {
			gist = s.units.Percent(1).Fixed(1).Write(float64(p))
			value = gist + " (" + value + ")"
		}
		if in.Lot != "" {
			lot := ", " + lang.L("bag {{.Lot}}", map[string]any{"Lot": in.Lot})
			value, gist = value+lot, gist+lot
		}
		t.putGist(i, doughGroup, name, value, gist)
	}
	for l, in := range b.Ingredients {
		if in.Grams > 0 {
			put(lineName(in), in.Grams, in, formula.Cell{Levain: -1, Line: l})
		}
	}
	for k, levain := range b.Levains {
		for l, in := range levain.Lines {
			if in.Grams > 0 {
				name := lang.L("{{.What}}, in the levain", what(lineName(in)))
				put(name, in.Grams, in, formula.Cell{Levain: k, Line: l})
			}
		}
	}
}

// lineName is a line of a dough as it stands within a sentence. What a culture is called stays
// as the baker wrote it.
func lineName(in journal.Ingredient) string {
	switch name := strings.TrimSpace(in.Name); {
	case name == "":
		return past.InSentence(pages.RoleWord(in.Role))
	case in.Role == formula.Culture:
		return name
	default:
		return past.InSentence(name)
	}
}

// warmth is a temperature of a bake, written once those beside it are known: their places stand
// alike.
type warmth struct {
	bake    int
	celsius float64
}

// putSteps writes how long each step took, and has a row for what was measured in it.
func (s wording) putSteps(t *sideTable, i int, b *journal.Bake, warmths map[string][]warmth) {
	measured := func(name string, c formula.Celsius) {
		t.put(i, stepGroup, name, "").figure = true
		warmths[name] = append(warmths[name], warmth{i, float64(c)})
	}
	seen := map[string]int{}
	for _, step := range b.Steps {
		name := past.InSentence(pages.StepTitle(plan.Kind(step.Kind), step.Name))
		seen[name]++
		if n := seen[name]; n > 1 {
			name = fmt.Sprintf("%s %d", name, n)
		}
		t.put(i, stepGroup, name, s.stepWords(step))
		if step.Air != nil {
			around := lang.L("{{.What}}: around it", what(name))
			if kind := plan.Kind(step.Kind); kind == plan.BakeCovered || kind == plan.BakeUncovered || kind == plan.Heat {
				around = lang.L("{{.What}}: oven", what(name))
			}
			measured(around, *step.Air)
		}
		if step.Dough != nil {
			measured(lang.L("{{.What}}: dough", what(name)), *step.Dough)
		}
	}
}

func (s wording) stepWords(step journal.Step) string {
	var parts []string
	switch {
	case step.Skipped:
		return lang.L("left out")
	case step.Length() > 0:
		parts = append(parts, s.units.Span(step.Length()))
	case step.Planned > 0:
		parts = append(parts, lang.L("{{.Span}} planned", map[string]any{"Span": s.units.Span(step.Planned)}))
	}
	if n := len(step.Done); n > 0 {
		parts = append(parts, lang.N("{{.N}} folds", n, map[string]any{"N": n}))
	} else if step.Times > 0 && step.Length() == 0 {
		parts = append(parts, lang.N("{{.N}} folds planned", step.Times, map[string]any{"N": step.Times}))
	}
	return strings.Join(parts, ", ")
}
