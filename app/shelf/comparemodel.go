package shelf

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/past"
	"twinloaf/app/room"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/plan"
	"twinloaf/journal/shelf"
)

// sideRow is one thing that the bakes are compared by, with a value for each.
type sideRow struct {
	name   string
	values []string // "" where a bake has none
}

// differs reports whether the bakes are not alike in it.
func (r sideRow) differs() bool {
	return slices.ContainsFunc(r.values, func(v string) bool { return v != r.values[0] })
}

// comparison is the table of a comparison: what differs first.
type comparison struct {
	differ, alike []sideRow
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
)

func (t *sideTable) put(bake int, group, name, value string) {
	key := [2]string{group, name}
	i, ok := t.at[key]
	if !ok {
		i = len(t.rows)
		t.at[key] = i
		t.rows = append(t.rows, sideRow{name, make([]string, t.n)})
	}
	if t.rows[i].values[bake] != "" && value != "" {
		value = t.rows[i].values[bake] + " + " + value // one flour weighed in two lines
	}
	if value != "" {
		t.rows[i].values[bake] = value
	}
}

// compareBakes lays bakes side by side.
func (s speaker) compareBakes(bakes []*journal.Bake, cards []*journal.Card) comparison {
	t := &sideTable{n: len(bakes), at: map[[2]string]int{}}
	s.putFigures(t, cards, bakes)
	for i, b := range bakes {
		s.putDough(t, i, b)
	}
	for i, b := range bakes {
		s.putSteps(t, i, b)
	}
	for i, b := range bakes {
		t.put(i, figureGroup, lang.L("notes"), strings.TrimSpace(b.Notes))
		t.put(i, figureGroup, lang.L("notes on the outcome"), strings.TrimSpace(b.Outcome.Notes))
	}
	var out comparison
	for _, r := range t.rows {
		switch {
		case !slices.ContainsFunc(r.values, func(v string) bool { return v != "" }):
		case r.differs():
			out.differ = append(out.differ, r)
		default:
			out.alike = append(out.alike, r)
		}
	}
	return out
}

// putFigures writes every figure of the bakes, the outcomes first. How long bulk and
// cold rest took stands with the steps.
func (s speaker) putFigures(t *sideTable, cards []*journal.Card, bakes []*journal.Bake) {
	rows := make([]shelf.Row, len(cards))
	for i, c := range cards {
		var born time.Time
		if age := s.ageOf(c); age > 0 {
			born = c.At.Add(-age)
		}
		rows[i] = past.Row(c, born)
	}
	these := &past.Record{Shelf: shelf.New(rows), Flours: s.record.Flours}
	write := func(list []past.Described) {
		for _, d := range list {
			_, share := past.FlourOf(d.Key)
			if share || d.Key == past.ColdHours || d.Key == past.BulkHours {
				continue
			}
			for i := range cards {
				if v := these.Figure(i, d.Key); v == v {
					t.put(i, figureGroup, d.Name, d.Write(v))
				}
			}
		}
	}
	write(these.Outcomes(s.units))
	for i, c := range cards {
		t.put(i, figureGroup, lang.L("culture"), s.record.Cultures[string(c.Culture)])
	}
	write(these.Factors(s.units))
	for i, c := range cards {
		t.put(i, figureGroup, lang.L("trial"), s.record.Trials[string(c.Trial)])
		if n := bakes[i].Loaves; n > 0 {
			t.put(i, figureGroup, lang.L("loaves"), s.count(n))
		}
	}
}

// ageOf is the age of a bake's culture as the record has it; 0 when not known.
func (s speaker) ageOf(c *journal.Card) time.Duration {
	i := slices.IndexFunc(s.record.Cards, func(o *journal.Card) bool { return o.ID == c.ID })
	if i < 0 {
		return 0
	}
	if days := s.record.Figure(i, past.CultureAge); days == days {
		return time.Duration(days * 24 * float64(time.Hour))
	}
	return 0
}

// putDough writes what went in, in percent of the flour and by weight.
func (s speaker) putDough(t *sideTable, i int, b *journal.Bake) {
	dough := b.Dough()
	put := func(name string, grams formula.Grams, in journal.Ingredient, cell formula.Cell) {
		value := s.units.Weight().Write(float64(grams))
		if p, err := dough.Percent(cell, formula.WithCulture); err == nil {
			value = s.units.Percent(1).Write(float64(p)) + " (" + value + ")"
		}
		if in.Lot != "" {
			value += ", " + lang.L("lot {{.Lot}}", map[string]any{"Lot": in.Lot})
		}
		t.put(i, doughGroup, name, value)
	}
	for l, in := range b.Ingredients {
		if in.Grams > 0 {
			put(past.InSentence(lineName(in)), in.Grams, in, formula.Cell{Levain: -1, Line: l})
		}
	}
	for k, levain := range b.Levains {
		for l, in := range levain.Lines {
			if in.Grams > 0 {
				name := lang.L("{{.What}}, in the levain", what(past.InSentence(lineName(in))))
				put(name, in.Grams, in, formula.Cell{Levain: k, Line: l})
			}
		}
	}
}

func lineName(in journal.Ingredient) string {
	if name := strings.TrimSpace(in.Name); name != "" {
		return name
	}
	return room.RoleWord(in.Role)
}

// putSteps writes how long each step took and what was measured in it.
func (s speaker) putSteps(t *sideTable, i int, b *journal.Bake) {
	seen := map[string]int{}
	for _, step := range b.Steps {
		name := past.InSentence(room.StepTitle(plan.Kind(step.Kind), step.Name))
		seen[name]++
		if n := seen[name]; n > 1 {
			name = fmt.Sprintf("%s %d", name, n)
		}
		t.put(i, stepGroup, name, s.stepWords(step))
		if step.Air != nil {
			t.put(i, stepGroup, lang.L("{{.What}}: around it", what(name)), s.units.Temperature().Write(float64(*step.Air)))
		}
		if step.Dough != nil {
			t.put(i, stepGroup, lang.L("{{.What}}: dough", what(name)), s.units.Temperature().Write(float64(*step.Dough)))
		}
	}
}

func (s speaker) stepWords(step journal.Step) string {
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
		parts = append(parts, lang.L("{{.N}} turns", map[string]any{"N": n}))
	} else if step.Times > 0 && step.Length() == 0 {
		parts = append(parts, lang.L("{{.N}} turns planned", map[string]any{"N": step.Times}))
	}
	return strings.Join(parts, ", ")
}

// timelines lays the days of bakes over each other, in hours since each was mixed.
func timelines(bakes []*journal.Bake, names []string) charts.Lanes {
	out := charts.Lanes{
		X:     charts.Axis{Title: lang.L("hours since mixing began"), Include: []float64{0}},
		Empty: lang.L("No step of these bakes has its times written down."),
	}
	for i, b := range bakes {
		lane := charts.Lane{Name: names[i]}
		begun := began(b)
		for _, step := range b.Steps {
			at, end := step.At, step.End
			if at.IsZero() {
				at = step.PlannedAt
			}
			if at.IsZero() || step.Skipped {
				continue
			}
			if end.IsZero() || end.Before(at) {
				end = at.Add(step.Planned)
			}
			kind := plan.Kind(step.Kind)
			lane.Blocks = append(lane.Blocks, charts.Block{
				From: at.Sub(begun).Hours(), To: end.Sub(begun).Hours(),
				Label: room.StepTitle(kind, step.Name), Hue: charts.Accent,
				Pale: kind == plan.ColdRest || kind == plan.Rest || kind == plan.Cool, Planned: step.At.IsZero(),
			})
			for n, done := range step.Done {
				lane.Ticks = append(lane.Ticks, charts.Tick{At: done.Sub(begun).Hours(), Label: lang.L("turn {{.N}}", map[string]any{"N": n + 1})})
			}
		}
		out.Lanes = append(out.Lanes, lane)
	}
	return out
}

// began is when a bake was mixed, or else when its day began: as it went, or else as
// it was planned.
func began(b *journal.Bake) time.Time {
	var first time.Time
	for _, step := range b.Steps {
		at := step.At
		if at.IsZero() {
			at = step.PlannedAt
		}
		switch {
		case at.IsZero():
		case plan.Kind(step.Kind) == plan.Mix:
			return at
		case first.IsZero() || at.Before(first):
			first = at
		}
	}
	if first.IsZero() {
		return b.At
	}
	return first
}
