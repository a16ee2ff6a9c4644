package dough

import (
	"cmp"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/measure"
)

// Table is one part of a dough as lines that are written in place, each with a
// weight and a percentage that follow one another. Beneath the last line there is
// always an empty one; a word in it makes it a line.
type Table struct {
	Object fyne.CanvasObject

	env    *pages.Env
	holder Holder
	names  *Names
	units  measure.Units
	part   int
	basis  formula.Basis
	// weights leads Tab from a weight to the next line, past the percentage.
	weights bool

	box    *fyne.Container
	head   []*kit.Text
	lines  []*line
	spare  *line
	ripe   []*ripeLine // whole levains, in the final dough's table
	total  *ripeLine
	facts  *facts
	factsO fyne.CanvasObject
}

// newTable makes the table of a part: [formula.Final] or the index of a levain.
func newTable(env *pages.Env, h Holder, names *Names, part int) *Table {
	t := &Table{env: env, holder: h, names: names, units: env.Units(), part: part}
	for _, word := range []string{lang.L("what"), lang.L("counts as"), lang.L("weight"), lang.L("baker's %")} {
		t.head = append(t.head, kit.NewLine(kit.Span{Text: word, Size: look.TextSmall, Color: look.ColorFaint}))
	}
	t.box = &fyne.Container{Layout: &tableLayout{t: t}}
	t.Object = t.box
	t.total = newRipeLine(true)
	t.spare = t.fresh()
	t.arrange()
	return t
}

// fresh makes the widgets of a line that is not written yet.
func (t *Table) fresh() *line {
	id, err := t.env.Journal.NewID()
	t.env.Fail(err)
	return newLine(t, id)
}

// edit keeps what is typed on a line. The empty line beneath the last is written
// into the record by the same change.
func (t *Table) edit(l *line, label string, change func(*Mix)) {
	part, id, fresh := t.part, l.id, l == t.spare
	t.holder.Edit(label, func(m *Mix) {
		if lines := m.Lines(part); fresh && lines != nil && m.Line(id) == nil {
			*lines = append(*lines, journal.Ingredient{ID: id})
		}
		change(m)
	})
	if fresh { // whoever types fast is at the next line before the page has shown this one
		t.Show(t.holder.Mix())
	}
}

func (t *Table) remove(l *line) {
	name := l.called()
	done := t.holder.Do(lang.L("removing {{.Name}} from the dough", map[string]any{"Name": name}), func(m *Mix) {
		if lines := m.Lines(t.part); lines != nil {
			*lines = slices.DeleteFunc(slices.Clone(*lines), func(in journal.Ingredient) bool { return in.ID == l.id })
		}
	})
	if done {
		t.env.Say(lang.L("{{.Name}} is removed.", map[string]any{"Name": name}), true)
	}
}

// WeightsFirst leads Tab from each weight to the next line: for a dough that is
// written down from the scale rather than reckoned from percentages.
func (t *Table) WeightsFirst() {
	t.weights = true
	t.arrange()
}

// Next is the field in which the next line of the dough is begun.
func (t *Table) Next() *kit.SuggestField { return t.spare.name }

// Percent is the baker's percentage of a line as it is shown; false while none is.
func (t *Table) Percent(id journal.ID) (formula.Percent, bool) {
	for _, l := range t.lines {
		if l.id == id {
			v, ok := l.percent.Value()
			return formula.Percent(v), ok
		}
	}
	return 0, false
}

// place counts the lines down to l, the first being 1.
func (t *Table) place(l *line) int {
	if i := slices.Index(t.lines, l); i >= 0 {
		return i + 1
	}
	return len(t.lines) + 1
}

// RemoveEdited takes out the line that has the cursor; false when none has.
func (t *Table) RemoveEdited() bool {
	l := t.edited()
	if l == nil {
		return false
	}
	t.env.Window.Canvas().Unfocus()
	t.remove(l)
	return true
}

// OpenEdited opens what more can be said of the line that has the cursor, or
// closes it; false when none has.
func (t *Table) OpenEdited() bool {
	l := t.edited()
	if l == nil {
		return false
	}
	t.openFacts(l.id)
	return true
}

// edited is the line that has the cursor, or nil.
func (t *Table) edited() *line {
	for _, l := range t.lines {
		if l.name.Editing() || l.grams.Editing() || l.percent.Editing() {
			return l
		}
	}
	return nil
}

// setBasis says what is 100 percent.
func (t *Table) setBasis(b formula.Basis) { t.basis = b }

// Show shows the part of a dough. Lines that stay keep their widgets, so that
// the caret stays where it is.
func (t *Table) Show(m Mix) {
	lines := m.Lines(t.part)
	if lines == nil {
		return
	}
	percents := m.percents(t.part, t.basis)
	next := make([]*line, len(*lines))
	for i, in := range *lines {
		next[i] = t.find(in.ID)
	}
	changed := !slices.Equal(next, t.lines)
	if slices.Contains(next, t.spare) {
		t.spare, changed = t.fresh(), true
	}
	t.lines = next
	table := m.table(t.part, t.basis)
	grams, share := Weights(m.Formula(), t.units), Shares(table, t.units)
	for i, in := range *lines {
		t.lines[i].set(in, percents)
		t.lines[i].grams.SetMeasure(grams)
		t.lines[i].percent.SetMeasure(share)
	}
	changed = t.showRipe(table, grams, share) || changed
	if t.facts != nil && !t.facts.show(m) {
		t.facts, t.factsO, changed = nil, nil, true
	}
	if changed {
		t.arrange()
	}
	t.box.Refresh()
}

func (t *Table) find(id journal.ID) *line {
	for _, l := range t.lines {
		if l.id == id {
			return l
		}
	}
	if t.spare.id == id {
		return t.spare
	}
	return newLine(t, id)
}

// table gives a part with its sums.
func (m Mix) table(part int, b formula.Basis) formula.Table {
	f := m.Formula()
	if part == formula.Final {
		return f.FinalDough(b)
	}
	return f.Levains[part].BuildTable(b)
}

// showRipe shows the levains that go in whole, and the total.
func (t *Table) showRipe(table formula.Table, grams, share measure.Measure) (changed bool) {
	n := 0
	for _, row := range table.Rows {
		if !row.Levain {
			continue
		}
		if n == len(t.ripe) {
			t.ripe, changed = append(t.ripe, newRipeLine(false)), true
		}
		t.ripe[n].set(cmp.Or(row.Name, lang.L("Levain")), row, grams, share)
		n++
	}
	if n != len(t.ripe) {
		t.ripe, changed = t.ripe[:n], true
	}
	t.total.set(lang.L("Total"), table.Total, grams, share)
	return changed
}

// arrange puts the widgets into the order in which Tab goes through them: names,
// weights and percents line by line, then what is seldom needed.
func (t *Table) arrange() {
	var first, then []fyne.CanvasObject
	for _, l := range append(slices.Clone(t.lines), t.spare) {
		first = append(first, l.name, l.grams)
		if l != t.spare {
			if !t.weights {
				first = append(first, l.percent)
			} else {
				then = append(then, l.percent)
			}
			then = append(then, l.role, l.more, l.drop)
		}
	}
	if t.factsO != nil {
		then = append(then, t.factsO)
	}
	for _, r := range append(slices.Clone(t.ripe), t.total) {
		then = append(then, r.texts()...)
	}
	for _, h := range t.head {
		first = append(first, h)
	}
	t.box.Objects = append(first, then...)
}

// openFacts opens what more can be said of a line beneath it, or closes it.
func (t *Table) openFacts(id journal.ID) {
	if t.facts != nil && t.facts.id == id {
		t.facts, t.factsO = nil, nil
	} else {
		t.facts = newFacts(t, id)
		t.factsO = t.facts.box
		t.facts.show(t.holder.Mix())
	}
	t.arrange()
	t.box.Refresh()
}

// ripeLine is a row that is only read.
type ripeLine struct{ name, grams, gramsUnit, percent, percentUnit *kit.Text }

func newRipeLine(total bool) *ripeLine {
	unit := kit.Span{Size: look.TextSmall, Color: look.ColorFaint}
	figure := kit.Span{Bold: total}
	return &ripeLine{kit.NewLine(figure), kit.NewLine(figure), kit.NewLine(unit), kit.NewLine(figure), kit.NewLine(unit)}
}

func (r *ripeLine) texts() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.name, r.grams, r.gramsUnit, r.percent, r.percentUnit}
}

func (r *ripeLine) set(name string, row formula.Row, grams, share measure.Measure) {
	r.name.SetText(name)
	r.grams.SetText(grams.Format(float64(row.Grams)))
	r.gramsUnit.SetText(grams.Unit)
	percent := "–"
	if row.Percent != 0 {
		percent = share.Format(float64(row.Percent))
	}
	r.percent.SetText(percent)
	r.percentUnit.SetText(share.Unit)
}
