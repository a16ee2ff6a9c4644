package charts

import (
	"fmt"
	"strings"
)

// The rows of each layer: layer, name, x, value, low, high, note.

func (s Series) rows(x, _ Axis) [][]string {
	out := make([][]string, len(s.X))
	for i := range s.X {
		note := ""
		if s.Notes != nil {
			note = s.Notes[i]
		}
		if s.LeftOut != nil && s.LeftOut[i] {
			note = strings.TrimPrefix(note+"; left out", "; ")
		}
		out[i] = []string{"series", text(s.Name), x.cell(s.X[i]), number(s.Y[i]), "", "", text(note)}
	}
	return out
}

func (r Ribbon) rows(x, _ Axis) [][]string {
	out := make([][]string, len(r.X))
	for i := range r.X {
		out[i] = []string{"ribbon", text(r.Name), x.cell(r.X[i]), "", number(r.Low[i]), number(r.High[i]), ""}
	}
	return out
}

func (b Bins) rows(x, _ Axis) [][]string {
	out := make([][]string, len(b.Counts))
	for i := range b.Counts {
		out[i] = []string{"bins", text(b.Name), x.cell(b.Edges[i]), number(b.Counts[i]), "", "", text("to " + x.cell(b.Edges[i+1]))}
	}
	return out
}

func (b Band) rows(x, _ Axis) [][]string {
	return [][]string{{"band", text(b.Label), x.cell(b.From), "", "", "", text("to " + x.cell(b.To))}}
}

func (l Level) rows(_, _ Axis) [][]string {
	return [][]string{{"level", text(l.Label), "", number(l.At), "", "", ""}}
}

func (e Events) rows(x, _ Axis) [][]string {
	out := make([][]string, len(e.X))
	for i := range e.X {
		note := ""
		if e.Labels != nil {
			note = e.Labels[i]
		}
		out[i] = []string{"event", text(e.Name), x.cell(e.X[i]), "", "", "", text(note)}
	}
	return out
}

func (s Series) summary(x, y Axis) string {
	var xs, ys span
	n, last, out := 0, -1, 0
	for i := range s.X {
		if !finite(s.X[i]) || !finite(s.Y[i]) {
			continue
		}
		if s.LeftOut != nil && s.LeftOut[i] {
			out++
			continue
		}
		n++
		last = i
		xs.add(s.X[i])
		ys.add(s.Y[i])
	}
	name := s.Name
	if name == "" {
		name = "unnamed series"
	}
	if s.Quiet && s.Draw == Line && s.Name == "" {
		return ""
	}
	if n == 0 {
		return name + ": no values"
	}
	words := fmt.Sprintf("%s: %s from %s to %s", name, counted(n, "value"), x.place(xs.lo), x.value(xs.hi))
	if n == 1 {
		words = fmt.Sprintf("%s: one value at %s", name, x.place(xs.lo))
	}
	words += fmt.Sprintf(", between %s and %s, the last %s", y.value(ys.lo), y.value(ys.hi), y.value(s.Y[last]))
	if out > 0 {
		words += fmt.Sprintf(", %d left out", out)
	}
	return words
}

func (r Ribbon) summary(_, _ Axis) string { return "" }

func (b Bins) summary(x, y Axis) string {
	top := -1
	for i, n := range b.Counts {
		if finite(n) && (top < 0 || n > b.Counts[top]) {
			top = i
		}
	}
	if top < 0 {
		return ""
	}
	return named(b.Name, fmt.Sprintf("most (%s) between %s and %s", y.value(b.Counts[top]), x.value(b.Edges[top]), x.value(b.Edges[top+1])))
}

func (b Band) summary(x, _ Axis) string {
	if b.Label == "" {
		return ""
	}
	return fmt.Sprintf("%s: %s to %s", b.Label, x.place(b.From), x.value(b.To))
}

func (l Level) summary(_, y Axis) string {
	if l.Label == "" {
		return ""
	}
	return fmt.Sprintf("Line at %s: %s", y.value(l.At), l.Label)
}

func (e Events) summary(_, _ Axis) string {
	if len(e.X) == 0 || e.Name == "" {
		return ""
	}
	return fmt.Sprintf("%s: %d", e.Name, len(e.X))
}

// counted writes a number with its noun.
func counted(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}
