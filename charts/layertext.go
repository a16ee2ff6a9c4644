package charts

import (
	"cmp"
	"strings"

	"twinloaf/journal/say"
	"twinloaf/journal/table"
)

// The rows of each layer: layer, name, x, value, low, high, note.

func (s Series) rows(x, _ Axis) [][]table.Cell {
	out := make([][]table.Cell, len(s.X))
	for i := range s.X {
		note := ""
		if s.Notes != nil {
			note = s.Notes[i]
		}
		if s.LeftOut != nil && s.LeftOut[i] {
			note = strings.TrimPrefix(note+"; left out", "; ")
		}
		var low, high table.Cell
		if off := s.off(i); off > 0 {
			low, high = table.Number(s.Y[i]-off), table.Number(s.Y[i]+off)
		}
		out[i] = []table.Cell{"series", table.Text(s.Name), x.cell(s.X[i]), table.Number(s.Y[i]), low, high, table.Text(note)}
	}
	return out
}

func (r Ribbon) rows(x, _ Axis) [][]table.Cell {
	out := make([][]table.Cell, len(r.X))
	for i := range r.X {
		out[i] = []table.Cell{"ribbon", table.Text(r.Name), x.cell(r.X[i]), "", table.Number(r.Low[i]), table.Number(r.High[i]), ""}
	}
	return out
}

func (b Bins) rows(x, _ Axis) [][]table.Cell {
	out := make([][]table.Cell, len(b.Counts))
	for i := range b.Counts {
		out[i] = []table.Cell{"bins", table.Text(b.Name), x.cell(b.Edges[i]), table.Number(b.Counts[i]), "", "", table.Text("to " + string(x.cell(b.Edges[i+1])))}
	}
	return out
}

func (b Band) rows(x, _ Axis) [][]table.Cell {
	return [][]table.Cell{{"band", table.Text(b.Label), x.cell(b.From), "", "", "", table.Text("to " + string(x.cell(b.To)))}}
}

func (l Level) rows(_, _ Axis) [][]table.Cell {
	return [][]table.Cell{{"level", table.Text(l.Label), "", table.Number(l.At), "", "", ""}}
}

func (e Events) rows(x, _ Axis) [][]table.Cell {
	out := make([][]table.Cell, len(e.X))
	for i := range e.X {
		note := ""
		if e.Labels != nil {
			note = e.Labels[i]
		}
		out[i] = []table.Cell{"event", table.Text(e.Name), x.cell(e.X[i]), "", "", "", table.Text(note)}
	}
	return out
}

func (s Series) summary(x, y Axis, w Words) string {
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
	name := cmp.Or(s.Name, w.Say(say.Of("unnamed series")))
	if s.Quiet && s.Draw == Line && s.Name == "" {
		return ""
	}
	if n == 0 {
		return w.Say(say.Of("{{.Name}}: no values", say.With{"Name": name}))
	}
	words := w.Say(say.N("{{.Name}}: one value at {{.From}}, between {{.Least}} and {{.Most}}, the last {{.Last}}",
		"{{.Name}}: {{.N}} values from {{.From}} to {{.To}}, between {{.Least}} and {{.Most}}, the last {{.Last}}", n, say.With{
			"Name": name, "From": x.place(xs.lo, w), "To": x.value(xs.hi, w),
			"Least": y.value(ys.lo, w), "Most": y.value(ys.hi, w), "Last": y.value(s.Y[last], w)}))
	if out > 0 {
		words = w.Say(say.N("{{.Said}}, {{.N}} left out", "{{.Said}}, {{.N}} left out", out, say.With{"Said": words}))
	}
	return words
}

func (r Ribbon) summary(_, _ Axis, _ Words) string { return "" }

func (b Bins) summary(x, y Axis, w Words) string {
	top := -1
	for i, n := range b.Counts {
		if finite(n) && (top < 0 || n > b.Counts[top]) {
			top = i
		}
	}
	if top < 0 {
		return ""
	}
	return w.named(b.Name, w.Say(say.Of("most ({{.Count}}) between {{.From}} and {{.To}}", say.With{
		"Count": y.value(b.Counts[top], w), "From": x.value(b.Edges[top], w), "To": x.value(b.Edges[top+1], w)})))
}

func (b Band) summary(x, _ Axis, w Words) string {
	if b.Label == "" {
		return ""
	}
	return w.valued(b.Label, w.between(x.place(b.From, w), x.value(b.To, w)))
}

func (l Level) summary(_, y Axis, w Words) string {
	if l.Label == "" {
		return ""
	}
	return w.Say(say.Of("Line at {{.At}}: {{.Name}}", say.With{"At": y.value(l.At, w), "Name": l.Label}))
}

func (e Events) summary(_, _ Axis, w Words) string {
	if len(e.X) == 0 || e.Name == "" {
		return ""
	}
	return w.valued(e.Name, len(e.X))
}
