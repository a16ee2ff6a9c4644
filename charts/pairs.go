package charts

import (
	"cmp"
	"math"

	"twinloaf/journal/say"
	"twinloaf/journal/table"
)

func (p Pairs) check() error { return p.Scale.check("the scale") }

// scale is nine points when nothing else is asked for.
func (p Pairs) scale() Axis {
	a := p.Scale
	if a.Max <= a.Min {
		a.Min, a.Max = 1, 9
	}
	return a
}

func (p Pairs) draw(s *drawList) {
	if len(p.Rows) == 0 {
		s.blank(s.style.Words.nothing(p.Empty))
		return
	}
	size := s.style.size()
	names, notes := 0.0, 0.0
	f, note := s.label(), s.label()
	f.colour = s.style.Ink
	for _, r := range p.Rows {
		names = max(names, s.measure(r.Name, f))
		notes = max(notes, s.measure(r.Note, note))
	}
	names, notes = min(names, s.w*0.35), min(notes, s.w*0.25)
	if notes > 0 {
		notes += 14
	}
	a := p.scale()
	top := edge + size*leading + 6
	bottom := s.h - edge - size*leading - 4
	if a.Title != "" {
		bottom -= size * leading
	}
	row := (bottom - top) / float64(len(p.Rows))
	x := scale{lo: a.Min, hi: a.Max, start: edge + names + 20, end: s.w - edge - notes - 8}
	if x.end-x.start < 24 || row < 4 {
		s.cramped()
		return
	}
	drawKey(s, point{x.start - 5, edge + ascent*size}, []keyEntry{
		{cmp.Or(p.A.Name, s.style.Words.Say(say.Of("first"))), p.A.Look, keyPoint}, {cmp.Or(p.B.Name, s.style.Words.Say(say.Of("second"))), p.B.Look, keyPoint}})
	for i, r := range p.Rows {
		y := top + row*(float64(i)+0.5)
		if row > size*1.1 {
			s.middle(point{edge, y}, s.fit(r.Name, f, names), f, 0)
			s.middle(point{s.w - edge, y}, s.fit(r.Note, note, notes-14), note, 1)
		}
		s.across(x.start, x.end, y, 2, s.style.Rule)
		p.row(s, x, y, i)
	}
	ticks := a.ticks(a.Min, a.Max, min(8, int((x.end-x.start)/30)), s.style.Words)
	ticks = ends(a, ticks, s.style.Words)
	writeX(s, x, bottom-4, ticks, a.Title, rect{x.start, 0, x.end - x.start, s.h})
}

// ends keeps the labels at the two ends of a scale, and adds them if a round
// step missed them.
func ends(a Axis, ticks []tick, w Words) []tick {
	format := a.format(w.Plain)
	out := []tick{{at: a.Min, label: format(a.Min)}}
	room := (a.Max - a.Min) * 0.08
	for _, t := range ticks {
		if t.at > a.Min+room && t.at < a.Max-room {
			out = append(out, t)
		}
	}
	return append(out, tick{at: a.Max, label: format(a.Max)})
}

func (p Pairs) row(s *drawList, x scale, y float64, i int) {
	r := p.Rows[i]
	at := [2]point{{x.at(r.A), y}, {x.at(r.B), y}}
	if x.holds(r.A) && x.holds(r.B) {
		width, c := 1.5, mix(s.style.Ink, s.style.Paper, 0.35)
		if r.Strong {
			width, c = 3, s.style.Ink
		}
		if d := math.Abs(at[0].x - at[1].x); d < markerSize*2 {
			// Markers that would hide each other step apart up and down.
			step := markerSize * (1 - d/(markerSize*2))
			at[0].y -= step
			at[1].y += step
		} else {
			s.across(min(at[0].x, at[1].x), max(at[0].x, at[1].x), y, width, c)
		}
	}
	for k, v := range []float64{r.A, r.B} {
		if !x.holds(v) {
			continue
		}
		side := []Side{p.A, p.B}[k]
		marker(s, at[k], side.Look, s.style.colour(side.Look.Hue), markerSize*1.35)
		w := s.style.Words
		s.marks = append(s.marks, mark{at: at[k], series: side.Name, index: i, text: w.named(side.Name, w.valued(r.Name, p.scale().value(v, w)))})
	}
}

func (p Pairs) tabulate() grid {
	t := grid{head: []table.Cell{"name", table.Text(cmp.Or(p.A.Name, "first")), table.Text(cmp.Or(p.B.Name, "second")), "note"}}
	for _, r := range p.Rows {
		t.rows = append(t.rows, []table.Cell{table.Text(r.Name), table.Number(r.A), table.Number(r.B), table.Text(r.Note)})
	}
	return t
}

func (p Pairs) summary(w Words) string {
	var out []string
	for _, r := range p.Rows {
		part := w.Say(say.Of("{{.Name}}: {{.First}} {{.FirstValue}}, {{.Second}} {{.SecondValue}}", say.With{
			"Name": r.Name, "First": cmp.Or(p.A.Name, w.Say(say.Of("first"))), "FirstValue": p.scale().value(r.A, w),
			"Second": cmp.Or(p.B.Name, w.Say(say.Of("second"))), "SecondValue": p.scale().value(r.B, w)}))
		if r.Note != "" {
			part = w.Say(say.Of("{{.Said}} ({{.Note}})", say.With{"Said": part, "Note": r.Note}))
		}
		out = append(out, part)
	}
	return cmp.Or(sentences(out...), w.nothing(p.Empty))
}
