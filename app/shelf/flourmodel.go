package shelf

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/pages"
	"twinloaf/app/past"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/shelf"
)

// flourState is everything that is known of one flour.
type flourState struct {
	key    string
	name   string
	record *journal.Flour     // of the larder; nil while it has none
	facts  journal.FlourFacts // of the larder, or else of the newest bake
	past   *past.BakeIndex
	rows   []int // of the bakes with it, newest first
	doughs []formula.WetDough
}

// readFlour reads what is known of a flour, by its ID in the larder or by its key.
func readFlour(j journal.Source, id journal.ID, key string) (*flourState, error) {
	out := &flourState{key: key}
	var err error
	if id != "" {
		if out.record, err = journal.Get[journal.Flour](j, id); err != nil {
			return nil, err
		}
		out.key = journal.FlourKey(out.record.Name)
	} else if out.record, err = journal.FlourNamed(j, key); err != nil {
		return nil, err
	}
	if out.past, err = past.Of(j); err != nil {
		return nil, err
	}
	if out.doughs, err = journal.WetDoughs(j); err != nil {
		return nil, err
	}
	out.rows = out.past.Filter(shelf.Filter{Flours: []shelf.FlourPart{{Flour: out.key}}}).Rows(shelf.Order{})
	out.name = out.past.Flours[out.key]
	if out.record != nil {
		out.name, out.facts = out.record.Name, out.record.Facts
		return out, nil
	}
	out.name = cmp.Or(out.name, out.key)
	if len(out.rows) > 0 {
		b, err := journal.Get[journal.Bake](j, out.past.Bakes[out.rows[0]].ID)
		if err != nil {
			return nil, err
		}
		if facts := journal.FlourFactsOf([]*journal.Bake{b}, out.key); facts != nil {
			out.facts = *facts
		}
	}
	return out, nil
}

// thirst says how much water the flour wants, beside the flour that is used most.
func (s wording) thirst(f *flourState) string {
	usual, ok := journal.UsualFlour(f.doughs, f.key)
	if !ok {
		return lang.L("Bake a few loaves with other flours first: how much water this one needs is worked out beside them.")
	}
	part := func(t formula.FlourTraits) []formula.FlourPart {
		return []formula.FlourPart{{FlourTraits: t, Share: 1}}
	}
	w := formula.LearnAbsorption(f.doughs).Instead(part(usual), part(journal.Traits(f.name, f.facts)))
	name := cmp.Or(f.past.Flours[usual.Key], usual.Key)
	words := s.units.Say(w.Line(name))
	if f.facts.Protein == nil && f.facts.Ash == nil {
		words += " " + lang.L("With its protein and ash, as on the bag, it could be said more surely.")
	}
	return words
}

// flourHeading says what has become of a flour.
func (s wording) flourHeading(f *flourState) string {
	data := map[string]any{"Flour": f.name, "N": s.count(len(f.rows)), "All": s.count(f.past.Len())}
	switch {
	case len(f.rows) == 0:
		return lang.L("{{.Flour}}, not baked with yet", data)
	case len(f.rows) == 1:
		return lang.L("{{.Flour}}, in one bake", data)
	}
	return lang.L("{{.Flour}}, in {{.N}} of {{.All}} bakes", data)
}

// runs draws how the share, the hydration and the scores of a flour's bakes ran.
// The marks of each series are in the order of f.rows, the oldest first.
func (s wording) runs(f *flourState) charts.Plot {
	share := f.past.Shares(f.key)
	n := len(f.rows)
	at, shares, hydration, score := make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
	names := make([]string, n)
	for i, row := range f.rows {
		k := n - 1 - i // oldest first
		c := f.past.Bakes[row]
		at[k], shares[k] = charts.Seconds(c.At), share[row]
		hydration[k], score[k] = f.past.Metric(row, shelf.Hydration), f.past.Metric(row, shelf.Score)
		names[k] = past.Name(c.Name)
	}
	panel := func(title, unit string, y []float64, axis charts.Axis) charts.Panel {
		axis.Unit = unit
		return charts.Panel{Title: title, Y: axis, Layers: []charts.Layer{
			charts.Series{Name: title, Look: charts.SeriesStyle{Hue: charts.Accent}, X: at, Y: y, Draw: charts.Points, Quiet: true, Piled: true, Notes: names},
		}}
	}
	plot := charts.Plot{X: charts.Axis{Zone: s.now.Location()}, Panels: []charts.Panel{
		panel(lang.L("Share of the flour"), "%", shares, charts.Axis{Min: 0, Max: 100}),
		panel(lang.L("Hydration"), "%", hydration, charts.Axis{}),
	}}
	if !allMissing(score) {
		plot.Panels = append(plot.Panels, panel(lang.L("Overall score"), "", score, charts.Axis{Min: 1, Max: 9, Whole: true}))
	}
	return plot
}

func allMissing(list []float64) bool {
	return !slices.ContainsFunc(list, func(v float64) bool { return !math.IsNaN(v) })
}

// typeRow is one system's names for a flour of an ash.
type typeRow struct {
	system, name, ash, source string
}

// typeRows sets the three systems side by side: by the ash that is known, or else by
// the type on the bag. via says which of the two it was; empty when neither is known.
func (s wording) typeRows(facts journal.FlourFacts) (rows []typeRow, via string) {
	var types []formula.FlourType
	switch {
	case facts.Ash != nil && facts.Grain != "":
		types = formula.TypesByAsh(facts.Grain, *facts.Ash)
		via = lang.L("by its ash of {{.Ash}} of dry matter", map[string]any{"Ash": s.units.Percent(2).Write(float64(*facts.Ash))})
	case facts.Type != "":
		for _, t := range formula.FlourTypes() {
			if sameType(t, facts) {
				types = append([]formula.FlourType{t}, t.Neighbours()...)
				via = lang.L("by the type {{.Type}} on the bag", map[string]any{"Type": t.Name})
				break
			}
		}
	}
	grain := facts.Grain
	if len(types) > 0 {
		grain = types[0].Grain // as the type on the bag tells, where nothing else does
	}
	for _, sys := range []formula.System{formula.German, formula.French, formula.Italian} {
		if !slices.ContainsFunc(types, func(t formula.FlourType) bool { return t.System == sys }) && via != "" {
			rows = append(rows, typeRow{system: systemWord(sys), ash: lang.L("no type known here for {{.Grain}}", map[string]any{"Grain": pages.GrainWord(grain)})})
			continue
		}
		rows = append(rows, s.systemRows(types, sys)...)
	}
	return rows, via
}

// systemRows writes the types of one system.
func (s wording) systemRows(types []formula.FlourType, sys formula.System) (rows []typeRow) {
	for _, t := range types {
		if t.System != sys {
			continue
		}
		source := lang.L("from memory")
		if !t.FromMemory {
			source = lang.L(t.Source)
		}
		rows = append(rows, typeRow{systemWord(t.System), t.Name, s.ashWords(t), source})
	}
	return rows
}

// bare is a type without the words and signs around it.
func bare(name string) string {
	name = strings.ToLower(strings.TrimSpace(name))
	for _, word := range []string{"type", "tipo", "typ"} {
		name = strings.TrimPrefix(name, word)
	}
	return strings.TrimPrefix(strings.ReplaceAll(name, " ", ""), "t")
}

// sameType reports whether the words on a bag name a type: "550", "Type 550", "T 65".
func sameType(t formula.FlourType, facts journal.FlourFacts) bool {
	return (facts.Grain == "" || facts.Grain == t.Grain) && bare(facts.Type) == bare(t.Name)
}

func (s wording) ashWords(t formula.FlourType) string {
	number := func(p formula.Percent) string { return s.units.FormatNumber(float64(p), 2) }
	data := map[string]any{"A": number(t.AshMin), "B": number(t.AshMax)}
	switch {
	case t.AshMin == 0:
		return lang.L("ash up to {{.B}} %", data)
	case t.AshMax == 0:
		return lang.L("ash from {{.A}} %", data)
	}
	return lang.L("ash {{.A}} to {{.B}} %", data)
}

func systemWord(sys formula.System) string {
	switch sys {
	case formula.German:
		return lang.L("Germany, DIN 10355")
	case formula.French:
		return lang.L("France, arrêté of 1963")
	case formula.Italian:
		return lang.L("Italy, DPR 187/2001")
	}
	return string(sys)
}

// lotWords says what a lot cost by the kilogram.
func (s wording) lotWords(l journal.FlourLot, currency string) string {
	if l.Grams <= 0 || l.Price <= 0 {
		return ""
	}
	return lang.L("{{.Price}} a kilogram", map[string]any{"Price": s.money(l.Price/float64(l.Grams)*1000, currency)})
}

func (s wording) money(v float64, currency string) string { return s.units.Money(v, currency) }
