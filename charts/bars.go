package charts

import (
	"slices"
	"twinloaf/journal/table"

	"twinloaf/journal/say"
)

func (b Bars) check() error { return nil }

func (b Bars) value(v float64, w Words) string {
	return Axis{Format: b.Format, Unit: b.Unit}.value(v, w)
}

func (b Bars) draw(s *drawList) {
	var ys span
	for _, bar := range b.Bars {
		ys.add(bar.Value)
	}
	if !ys.any {
		s.blank(s.style.Words.nothing(b.Empty))
		return
	}
	ys.add(0)
	if ys.lo == ys.hi {
		ys.hi = 1
	}
	top := drawTitle(s, b.Title)
	if b.stands(s) {
		b.columns(s, ys, top)
		return
	}
	b.lying(s, ys, top)
}

// stands reports whether every name and value fits in a column.
func (b Bars) stands(s *drawList) bool {
	slot := (s.w - 2*edge) / float64(len(b.Bars))
	return !slices.ContainsFunc(b.Bars, func(bar Bar) bool {
		return s.measure(bar.Name, s.label())+4 > slot || s.measure(b.value(bar.Value, s.style.Words), s.label())+4 > slot
	})
}

func (b Bars) letterings(s *drawList, bar Bar) (name, value lettering) {
	name, value = s.label(), s.label()
	value.colour = s.style.Ink
	if bar.Pale {
		value.colour = s.style.Faint
	}
	return name, value
}

func (b Bars) columns(s *drawList, ys span, top float64) {
	size := s.style.size()
	slot := (s.w - 2*edge) / float64(len(b.Bars))
	wide := min(slot*0.68, 56)
	bottom := s.h - edge - size*leading
	y := scale{lo: ys.lo, hi: ys.hi, start: bottom, end: top + size*1.5}
	if ys.lo < 0 {
		y.start -= size * 1.5
	}
	if y.start-y.end < 8 {
		s.cramped()
		return
	}
	floor := y.at(0)
	for i, bar := range b.Bars {
		mid := edge + slot*(float64(i)+0.5)
		name, value := b.letterings(s, bar)
		s.write(point{mid, bottom + 4 + ascent*size}, bar.Name, name, 0.5)
		if !finite(bar.Value) {
			s.write(point{mid, floor - 5}, "–", name, 0.5)
			continue
		}
		end := y.at(bar.Value)
		r := rect{mid - wide/2, min(end, floor), wide, max(end, floor) - min(end, floor)}
		b.bar(s, r, bar)
		base := end - 5
		if bar.Value < 0 {
			base = end + 4 + ascent*size
		}
		s.write(point{mid, base}, b.value(bar.Value, s.style.Words), value, 0.5)
		b.mark(s, i, point{mid, end}, rect{mid - slot/2, min(end, floor-8), slot, max(r.h, 8)})
	}
	s.across(edge, s.w-edge, floor, 1, mix(s.style.Rule, s.style.Faint, 0.4))
}

func (b Bars) lying(s *drawList, ys span, top float64) {
	size := s.style.size()
	names, values := 0.0, 0.0
	for _, bar := range b.Bars {
		names = max(names, s.measure(bar.Name, s.label()))
		values = max(values, s.measure(b.value(bar.Value, s.style.Words), s.label()))
	}
	names = min(names, s.w*0.4)
	row := (s.h - top - edge) / float64(len(b.Bars))
	thick := min(row*0.6, 16)
	x := scale{lo: ys.lo, hi: ys.hi, start: edge + names + labelGap, end: s.w - edge - values - 6}
	if ys.lo < 0 {
		x.start += values + 6
	}
	if x.end-x.start < 8 || row < 1 {
		s.cramped()
		return
	}
	floor := x.at(0)
	for i, bar := range b.Bars {
		mid := top + row*(float64(i)+0.5)
		name, value := b.letterings(s, bar)
		written := row >= size*1.05
		if written {
			s.middle(point{edge + names, mid}, s.fit(bar.Name, name, names), name, 1)
		}
		if !finite(bar.Value) {
			if written {
				s.middle(point{floor + 6, mid}, "–", name, 0)
			}
			continue
		}
		end := x.at(bar.Value)
		r := rect{min(end, floor), mid - thick/2, max(end, floor) - min(end, floor), thick}
		b.bar(s, r, bar)
		at, anchor := end+6, 0.0
		if bar.Value < 0 {
			at, anchor = end-6, 1
		}
		if written {
			s.middle(point{at, mid}, b.value(bar.Value, s.style.Words), value, anchor)
		}
		b.mark(s, i, point{end, mid}, rect{min(end, floor), mid - row/2, max(r.w, 8), row})
	}
	s.upright(floor, top, s.h-edge, 1, mix(s.style.Rule, s.style.Faint, 0.4))
}

func (b Bars) bar(s *drawList, r rect, bar Bar) {
	if bar.Value == 0 {
		return
	}
	c := s.style.colour(Accent)
	if bar.Pale {
		c = mix(c, s.style.Paper, 0.65)
	}
	s.block(r, c)
}

func (b Bars) mark(s *drawList, i int, at point, area rect) {
	bar := b.Bars[i]
	s.marks = append(s.marks, mark{at: at, area: area, series: bar.Name, index: i, text: s.style.Words.named(bar.Name, b.value(bar.Value, s.style.Words))})
}

func (b Bars) tabulate() grid {
	t := grid{head: []table.Cell{"name", "value"}}
	for _, bar := range b.Bars {
		t.rows = append(t.rows, []table.Cell{table.Text(bar.Name), table.Number(bar.Value)})
	}
	return t
}

func (b Bars) summary(w Words) string {
	top, n := -1, 0
	for i, bar := range b.Bars {
		if finite(bar.Value) {
			n++
			if top < 0 || bar.Value > b.Bars[top].Value {
				top = i
			}
		}
	}
	if top < 0 {
		return w.nothing(b.Empty)
	}
	words := w.Say(say.N("{{.N}} bar, the greatest {{.Name}} with {{.Value}}", "{{.N}} bars, the greatest {{.Name}} with {{.Value}}", n,
		say.With{"Name": b.Bars[top].Name, "Value": b.value(b.Bars[top].Value, w)}))
	return sentences(b.Title, words)
}

// drawTitle writes a figure's title and says where the rest begins.
func drawTitle(s *drawList, title string) float64 {
	if clean(title) == "" {
		return edge
	}
	f := s.title()
	s.write(point{edge, edge + ascent*f.size}, s.fit(title, f, s.w-2*edge), f, 0)
	return edge + f.size + titleGap
}
