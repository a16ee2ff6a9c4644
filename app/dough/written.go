package dough

import (
	"cmp"
	"slices"
	"strings"

	"fyne.io/fyne/v2/lang"

	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/shorthand"
)

// readName takes the amount out of a name that was typed with one: "whole rye 300", "salt
// 2 %". A number without a unit is one only while the line weighs nothing.
func (l *line) readName(text string) {
	w := l.table.units.Shorthand().Line(text)
	if w.Doubt != shorthand.NoDoubt || w.Heading || w.Bare && l.shown.Grams > 0 {
		return
	}
	m := l.table.holder.Mix()
	in := m.Line(l.id)
	if in == nil {
		return
	}
	grams := formula.Grams(w.Grams)
	if grams == 0 {
		role := in.Role
		if named := (journal.Ingredient{}); role == "" || role == formula.Other {
			l.table.names.Name(&named, w.Name)
			role = named.Role
		}
		flour := m.flour()
		if flour <= 0 {
			l.name.Remark(lang.L("Percent of what? Weigh some flour first."))
			return
		}
		if role == formula.Flour { // its share counts itself in
			change, err := m.setPercent(l.id, formula.Percent(w.Percent), l.table.basis)
			if err != nil {
				l.name.Remark(lang.L("That leaves no room for the rest of the flour."))
				return
			}
			l.take(w, change)
			return
		}
		grams = flour * formula.Grams(w.Percent) / 100
	}
	l.take(w, m.SetGrams(l.id, grams))
}

// enter goes on from the name: to the weight, or past it when it was written beside the
// name.
func (l *line) enter() {
	c := l.table.env.Window.Canvas()
	w := l.table.units.Shorthand().Line(l.name.Text())
	c.FocusNext()
	if w.Doubt == shorthand.NoDoubt && l.name.Text() == w.Name { // its amount was taken
		c.Focus(l.table.after(l).name.Entry())
	}
}

// after is the line beneath another: the empty one below the last.
func (t *Table) after(l *line) *line {
	if i := slices.Index(t.lines, l); i >= 0 && i+1 < len(t.lines) {
		return t.lines[i+1]
	}
	return t.spare
}

// take gives the line the name that was written and its amount, as one step.
func (l *line) take(w shorthand.Line, amount func(*Mix)) {
	name := l.naming(w.Name)
	l.table.holder.Do(lang.L("{{.Name}} as it was written", map[string]any{"Name": w.Name}), func(m *Mix) {
		name(m)
		if in := m.Line(l.id); in != nil {
			wet(in, w)
		}
		amount(m)
	})
	l.name.SetText(w.Name)
}

// wet keeps the hydration that a culture's line says.
func wet(in *journal.Ingredient, w shorthand.Line) {
	if w.Hydration > 0 && in.Role == formula.Culture {
		in.Hydration = new(formula.Percent(w.Hydration))
	}
}

// flour is the flour weighed in the final dough.
func (m *Mix) flour() formula.Grams {
	var sum formula.Grams
	for _, in := range m.Ingredients {
		if in.Role == formula.Flour {
			sum += in.Grams
		}
	}
	return sum
}

// perPercent is how many grams stand for a percent where a list has percentages alone.
const perPercent formula.Grams = 10

// pasted makes a line of each line of a text; false leaves a text of one ingredient to the
// field.
func (l *line) pasted(text string) bool {
	written := l.table.units.Shorthand().Lines(text)
	if len(written) < 2 {
		return false
	}
	l.table.paste(l, written)
	return true
}

// paste writes lines after l, or in its place while nothing stands there, as one step.
// What was not understood is a line without a weight, and marked.
func (t *Table) paste(l *line, written []shorthand.Line) {
	var made []journal.Ingredient
	doubts := map[journal.ID]shorthand.Doubt{}
	percents := map[journal.ID]formula.Percent{}
	heads := 0
	for _, w := range written {
		if w.Heading {
			heads++
			continue
		}
		id, err := t.env.Journal.NewID()
		if t.env.Failed(err) {
			return
		}
		in := journal.Ingredient{ID: id, Grams: formula.Grams(w.Grams)}
		t.names.Name(&in, w.Name)
		wet(&in, w)
		if w.Doubt != shorthand.NoDoubt {
			doubts[id] = w.Doubt
		} else if w.Grams == 0 {
			percents[id] = formula.Percent(w.Percent)
		}
		made = append(made, in)
	}
	flour := t.holder.Mix()
	base := flour.flour()
	for _, in := range made {
		if in.Role == formula.Flour {
			base += in.Grams
		}
	}
	base = cmp.Or(base, 100*perPercent)
	for i := range made {
		if p, ok := percents[made[i].ID]; ok {
			made[i].Grams = base * formula.Grams(p) / 100
		}
	}
	empty := strings.TrimSpace(l.name.Text()) == "" && l.shown.Grams == 0
	done := t.holder.Do(lang.L("lines of the dough, pasted"), func(m *Mix) {
		lines := m.Lines(t.part)
		if lines == nil {
			return
		}
		var out []journal.Ingredient
		put := false
		for _, in := range *lines {
			if in.ID != l.id || !empty {
				out = append(out, in)
			}
			if in.ID == l.id {
				out, put = append(out, made...), true
			}
		}
		if !put {
			out = append(out, made...)
		}
		*lines = out
	})
	if !done {
		return
	}
	t.Show(t.holder.Mix())
	for _, line := range t.lines {
		if d, ok := doubts[line.id]; ok {
			line.name.Remark(t.units.Say(d.Line()))
		}
	}
	t.env.Window.Canvas().Focus(t.spare.name.Entry())
	t.env.Say(pastedWords(len(made), len(doubts), heads), true)
}

// pastedWords say what came of a text that was pasted.
func pastedWords(lines, doubts, heads int) string {
	said := lang.N("{{.N}} lines pasted.", lines, map[string]any{"N": lines})
	if doubts > 0 {
		said += " " + lang.N("{{.N}} of them need a weight.", doubts, map[string]any{"N": doubts})
	}
	if heads > 0 {
		said += " " + lang.N("{{.N}} headings left out.", heads, map[string]any{"N": heads})
	}
	return said
}
