package charts

import (
	"cmp"
	"math"
	"slices"

	"twinloaf/journal/say"
	"twinloaf/journal/table"
)

func (g Groups) check() error { return g.Y.check("the Y axis") }

func (g Groups) draw(s *drawList) {
	var ys span
	for _, group := range g.Groups {
		ys.add(group.Values...)
	}
	if !ys.any {
		s.blank(s.style.Words.nothing(g.Empty))
		return
	}
	size := s.style.size()
	fr, ok := newFrame(s, g.Title, g.Y, ys, 2*size*leading+6)
	if !ok {
		s.cramped()
		return
	}
	slot := fr.area.w / float64(len(g.Groups))
	base := fr.area.bottom() + labelGap + ascent*size
	for i, group := range g.Groups {
		mid := fr.area.x + slot*(float64(i)+0.5)
		f := s.named(group.Look)
		s.write(point{mid, base}, s.fit(group.Name, f, slot-4), f, 0.5)
		kept := present(group.Values)
		s.write(point{mid, base + size*leading}, s.fit(s.style.Words.Say(say.N("{{.N}} value", "{{.N}} values", len(kept))), s.label(), slot-4), s.label(), 0.5)
		g.column(s, fr, group, mid, slot)
	}
}

func (g Groups) column(s *drawList, fr ruled, group Group, mid, slot float64) {
	c := s.style.colour(group.Look.Hue)
	wide := min(slot*0.42, 120)
	if kept := present(group.Values); len(kept) > 0 {
		if m := median(kept); fr.y.holds(m) {
			s.across(mid-wide/2-8, mid+wide/2+8, fr.y.at(m), 2.5, s.style.Ink)
			words := g.Y.value(m, s.style.Words)
			if s.measure(words, s.name()) < (slot-wide)/2-14 {
				s.middle(point{mid + wide/2 + 14, fr.y.at(m)}, words, s.name(), 0)
			}
		}
	}
	for i, v := range group.Values {
		if !fr.y.holds(v) {
			continue
		}
		at := point{mid + scatter(i)*wide, fr.y.at(v)}
		look := group.Look
		marker(s, at, look, fade(c, 0.75), markerSize*0.9)
		s.marks = append(s.marks, mark{at: at, series: group.Name, index: i, text: s.style.Words.named(group.Name, g.Y.value(v, s.style.Words))})
	}
}

// scatter spreads the i-th point between -0.5 and 0.5. Multiples of the golden
// ratio leave the most even gaps however many there are.
func scatter(i int) float64 {
	_, part := math.Modf(float64(i) / math.Phi)
	return part - 0.5
}

func present(values []float64) []float64 {
	return slices.DeleteFunc(slices.Clone(values), func(v float64) bool { return !finite(v) })
}

func median(values []float64) float64 {
	sorted := slices.Sorted(slices.Values(values))
	n := len(sorted)
	return (sorted[(n-1)/2] + sorted[n/2]) / 2
}

func (g Groups) tabulate() grid {
	t := grid{head: []table.Cell{"group", g.Y.heading("value")}}
	for _, group := range g.Groups {
		for _, v := range group.Values {
			t.rows = append(t.rows, []table.Cell{table.Text(group.Name), g.Y.cell(v)})
		}
	}
	return t
}

func (g Groups) summary(w Words) string {
	out := []string{g.Title}
	for _, group := range g.Groups {
		kept := present(group.Values)
		part := w.Say(say.Of("{{.Name}}: no values", say.With{"Name": group.Name}))
		if len(kept) > 0 {
			part = w.Say(say.N("{{.Name}}: {{.N}} value, median {{.Median}}", "{{.Name}}: {{.N}} values, median {{.Median}}", len(kept),
				say.With{"Name": group.Name, "Median": g.Y.value(median(kept), w)}))
		}
		out = append(out, part)
	}
	return cmp.Or(sentences(out...), w.nothing(g.Empty))
}

// ruled is a single panel with a Y axis, for figures whose X is not numbers.
type ruled struct {
	area rect
	y    scale
}

// newFrame writes a title and a Y axis, leaving some room below.
func newFrame(s *drawList, title string, axis Axis, ys span, below float64) (ruled, bool) {
	b := panelBox{Panel: Panel{Y: axis}}
	top := drawTitle(s, title)
	if axis.Title != "" {
		f := s.label()
		s.write(point{edge, top + ascent*f.size}, s.fit(axis.Title, f, s.w-2*edge), f, 0)
		top += f.size + titleGap
	}
	height := s.h - edge - below - top - 4
	if height < 12 {
		return ruled{}, false
	}
	b.lo, b.hi = axis.widened(ys, 5)
	b.tickY(height, s.style)
	left := 0.0
	for _, t := range b.yticks {
		left = max(left, s.measure(t.label, s.label()))
	}
	left += edge + labelGap
	fr := ruled{area: rect{left, top + 4, s.w - left - edge, height}}
	if fr.area.w < 24 {
		return ruled{}, false
	}
	fr.y = scale{lo: b.lo, hi: b.hi, start: fr.area.bottom(), end: fr.area.y}
	for _, t := range b.yticks {
		s.across(fr.area.x, fr.area.right(), fr.y.at(t.at), 1, s.style.Rule)
		s.middle(point{fr.area.x - labelGap, fr.y.at(t.at)}, t.label, s.label(), 1)
	}
	return fr, true
}
