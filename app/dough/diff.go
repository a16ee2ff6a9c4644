package dough

import (
	"cmp"
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/measure"
	"twinloaf/journal/plan"
)

// A Side is one of two doughs that are told apart.
type Side struct {
	Mix
	Steps  []journal.Step
	Wanted *formula.Celsius
}

// SideOf gives a bake for telling it apart from another.
func SideOf(b *journal.Bake) Side {
	return Side{Mix{b.Loaves, b.Ingredients, b.Levains, b.Culture}, b.Steps, b.Water.Wanted}
}

// OfBake makes a change of a dough one of the bake that it is in.
func OfBake(change func(*Mix)) func(*journal.Bake) {
	return func(b *journal.Bake) {
		m := SideOf(b).Mix
		change(&m)
		b.Loaves, b.Ingredients, b.Levains = m.Loaves, m.Ingredients, m.Levains
	}
}

// SideOfFormula gives a version of a formula likewise.
func SideOfFormula(f *journal.Formula) Side {
	return Side{Mix{f.Loaves, f.Ingredients, f.Levains, ""}, f.Steps, f.Wanted}
}

// A Difference is one line in which two doughs differ. Was and Now are empty for
// what one of them does not have.
type Difference struct{ What, Was, Now string }

// Differences lists line by line what is not the same in two doughs: what goes
// in by its percentage, so that a dough merely made larger has but one line; the
// steps by their length; the figures that follow from them.
func Differences(was, now Side, u measure.Units) []Difference {
	var out []Difference
	add := func(what, a, b string) {
		if a != b {
			out = append(out, Difference{what, a, b})
		}
	}
	a, b := MetricsOf(was.Mix, u), MetricsOf(now.Mix, u)
	add(lang.L("Loaves"), u.FormatNumber(float64(max(1, was.Loaves)), 0), u.FormatNumber(float64(max(1, now.Loaves)), 0))
	for i := range a {
		add(a[i].Name, a[i].Value+"\u00a0"+a[i].Unit, b[i].Value+"\u00a0"+b[i].Unit)
	}
	add(lang.L("Target dough temperature"), degrees(was.Wanted, u), degrees(now.Wanted, u))
	out = append(out, lineDifferences(was.Mix, now.Mix, u)...)
	return append(out, stepDifferences(was.Steps, now.Steps, u)...)
}

func degrees(c *formula.Celsius, u measure.Units) string {
	if c == nil {
		return ""
	}
	return u.Celsius(*c)
}

// weighed is a line as it is compared.
type weighed struct {
	part, name string
	id         journal.ID
	grams      formula.Grams
	percent    formula.Percent
}

func (w weighed) words(weights measure.Measure, u measure.Units) string {
	return lang.L("{{.Grams}}, {{.Percent}}", map[string]any{
		"Grams": weights.Write(float64(w.grams)), "Percent": u.Percent(1).Fixed(1).Write(float64(w.percent))})
}

// everyLine lists the lines of all parts, with their percentages of all flour,
// or of the levain's own.
func everyLine(m Mix) []weighed {
	var out []weighed
	for part := formula.Final; part < len(m.Levains); part++ {
		name := ""
		if part >= 0 {
			if name = m.Levains[part].Name; name == "" {
				name = lang.L("Levain")
			}
		}
		percents := m.percents(part, formula.WithCulture)
		for _, in := range *m.Lines(part) {
			out = append(out, weighed{name, in.Name, in.ID, in.Grams, percents[in.ID]})
		}
	}
	return out
}

func lineDifferences(was, now Mix, u measure.Units) []Difference {
	var out []Difference
	before, after := Weights(was.Formula(), u), Weights(now.Formula(), u)
	old := everyLine(was)
	for _, n := range everyLine(now) {
		what := n.name
		if n.part != "" {
			what = lang.L("{{.Part}}: {{.What}}", map[string]any{"Part": n.part, "What": n.name})
		}
		i := pairOf(old, n)
		if i < 0 {
			out = append(out, Difference{what, "", n.words(after, u)})
			continue
		}
		o := old[i]
		old = slices.Delete(old, i, i+1)
		switch {
		case journal.FlourKey(o.name) != journal.FlourKey(n.name):
			out = append(out, Difference{what, o.name + " " + o.words(before, u), n.name + " " + n.words(after, u)})
		case math.Abs(float64(o.percent-n.percent)) >= 0.05:
			out = append(out, Difference{what, o.words(before, u), n.words(after, u)})
		}
	}
	for _, o := range old {
		what := o.name
		if o.part != "" {
			what = lang.L("{{.Part}}: {{.What}}", map[string]any{"Part": o.part, "What": o.name})
		}
		out = append(out, Difference{what, o.words(before, u), ""})
	}
	return out
}

// pairOf finds the line that n is compared with: of the same name in the same
// part, or else of the same origin.
func pairOf(old []weighed, n weighed) int {
	i := slices.IndexFunc(old, func(o weighed) bool {
		return o.part == n.part && journal.FlourKey(o.name) == journal.FlourKey(n.name)
	})
	if i < 0 {
		i = slices.IndexFunc(old, func(o weighed) bool { return o.id == n.id })
	}
	return i
}

func stepDifferences(was, now []journal.Step, u measure.Units) []Difference {
	var out []Difference
	old := slices.Clone(was)
	for _, n := range now {
		title := pages.StepTitle(plan.Kind(n.Kind), n.Name)
		i := slices.IndexFunc(old, func(o journal.Step) bool { return o.ID == n.ID })
		if i < 0 {
			i = slices.IndexFunc(old, func(o journal.Step) bool { return o.Kind == n.Kind && o.Name == n.Name })
		}
		if i < 0 {
			out = append(out, Difference{title, "", stepWords(n, u)})
			continue
		}
		if a, b := stepWords(old[i], u), stepWords(n, u); a != b {
			out = append(out, Difference{title, a, b})
		}
		old = slices.Delete(old, i, i+1)
	}
	for _, o := range old {
		out = append(out, Difference{pages.StepTitle(plan.Kind(o.Kind), o.Name), stepWords(o, u), ""})
	}
	return out
}

// stepWords says how long a step is planned, or took, and its turns.
func stepWords(s journal.Step, u measure.Units) string {
	words := u.Duration().Format(cmp.Or(s.Planned, s.Length()).Minutes())
	data := map[string]any{"Length": words, "N": s.Times, "Every": u.Duration().Format(s.Every.Minutes())}
	switch {
	case s.Times == 1:
		return lang.L("{{.Length}}, one fold", data)
	case s.Times > 1:
		return lang.L("{{.Length}}, {{.N}} folds every {{.Every}}", data)
	}
	return words
}

// DifferenceTable shows differences with the names of the two sides above.
func DifferenceTable(was, now string, all []Difference) fyne.CanvasObject {
	if len(all) == 0 {
		return kit.Faint(lang.L("Nothing is different."))
	}
	row := func(bold bool, words ...string) fyne.CanvasObject {
		r := &fyne.Container{Layout: shrinkingColumns{220, 240, 240}}
		for i, w := range words {
			w = cmp.Or(w, "–")
			span := kit.Span{Text: w, Bold: bold}
			if i == 1 && !bold {
				span.Color = look.ColorFaint
			}
			r.Add(kit.NewText(span))
		}
		return r
	}
	table := kit.Stack(1, row(true, lang.L("what"), was, now))
	for _, d := range all {
		table.Add(row(false, d.What, d.Was, d.Now))
	}
	return table
}

// shrinkingColumns sets things side by side in columns of given widths, all narrower where those
// have no room.
type shrinkingColumns []float32

func (c shrinkingColumns) width() (sum float32) {
	for _, w := range c {
		sum += w + stepGap
	}
	return sum
}

func (c shrinkingColumns) MinSize(things []fyne.CanvasObject) fyne.Size {
	s := fyne.NewSize(c.width()/3, 0)
	for _, o := range things {
		s.Height = max(s.Height, o.MinSize().Height)
	}
	return s
}

func (c shrinkingColumns) Layout(things []fyne.CanvasObject, size fyne.Size) {
	x, part := float32(0), min(1, size.Width/c.width())
	for i, o := range things {
		kit.Put(o, fyne.NewPos(x, 0), fyne.NewSize(c[i]*part, size.Height))
		x += (c[i] + stepGap) * part
	}
}
