package charts

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"twinloaf/journal/say"
	"twinloaf/journal/table"
)

func (l Lanes) check() error {
	if err := l.X.check("the X axis"); err != nil {
		return err
	}
	if !finite(l.Now) {
		return fmt.Errorf("the present lies at %v", l.Now)
	}
	for _, b := range l.Bands {
		if err := b.check(); err != nil {
			return err
		}
	}
	for _, lane := range l.Lanes {
		for _, b := range lane.Blocks {
			if !finite(b.From) || !finite(b.To) || b.To < b.From {
				return fmt.Errorf("lane %q: %q runs from %v to %v", lane.Name, b.Label, b.From, b.To)
			}
		}
	}
	return nil
}

func (l Lanes) reach() span {
	var xs span
	for _, lane := range l.Lanes {
		for _, b := range lane.Blocks {
			xs.add(b.From, b.To)
		}
		for _, t := range lane.Ticks {
			xs.add(t.At)
		}
	}
	return xs
}

func (l Lanes) draw(s *drawList) {
	xs := l.reach()
	if !xs.any {
		s.blank(s.style.Words.nothing(l.Empty))
		return
	}
	lo, hi := l.X.extent(xs)
	names := 0.0
	for _, lane := range l.Lanes {
		names = max(names, s.measure(lane.Name, s.name()))
	}
	names = min(names, s.w*0.3)
	bottom := s.h - edge - Plot{X: l.X}.axisHeight(s)
	row := (bottom - edge) / float64(len(l.Lanes))
	x := scale{lo: lo, hi: hi, start: edge + names + 16, end: s.w - 24}
	if x.end-x.start < 24 || row < 10 {
		s.cramped()
		return
	}
	area := rect{x.start, edge, x.end - x.start, bottom - edge}
	lp := &lanePainter{drawList: s, x: x, axis: l.X, place: placer{sh: s, bounds: rect{x.start - 2, 0, s.w - x.start, bottom}}}
	lp.bands(l.Bands, area)
	ticks := l.X.ticks(lo, hi, int(area.w/(s.style.size()*4.2)), s.style.Words)
	for _, t := range ticks {
		c := s.style.Rule
		if t.major {
			c = mix(c, s.style.Faint, 0.25)
		}
		s.upright(x.at(t.at), area.y, bottom, 1, c)
	}
	for i, lane := range l.Lanes {
		f := s.name()
		y := edge + row*(float64(i)+0.68)
		s.middle(point{edge, y}, s.fit(lane.Name, f, names), f, 0)
		lp.lane(lane, i, y, row)
	}
	for _, a := range lp.asks {
		lp.place.place(a)
	}
	if l.Now != 0 && x.holds(l.Now) {
		s.upright(x.at(l.Now), area.y, bottom, 1.5, s.style.Accent)
		s.disc(point{x.at(l.Now), area.y}, 3.5, s.style.Accent, s.style.Paper, 0)
	}
	writeX(s, x, bottom, ticks, l.X.Title, area)
}

type lanePainter struct {
	*drawList
	x     scale
	axis  Axis
	place placer
	asks  []ask
}

func (p *lanePainter) bands(bands []Band, area rect) {
	for _, b := range bands {
		from, to := max(b.From, p.x.lo), min(b.To, p.x.hi)
		if from >= to {
			continue
		}
		x0, x1 := p.x.at(from), p.x.at(to)
		p.block(rect{x0, area.y, x1 - x0, area.h}, fade(p.style.Faint, 0.08))
		p.asks = append(p.asks, ask{words: b.Label, font: p.label(), spots: []spot{{at: point{(x0 + x1) / 2, area.y + 2 + ascent*p.style.size()}, anchor: 0.5}}})
	}
}

func (p *lanePainter) lane(lane Lane, index int, y, row float64) {
	thick := min(10, row*0.26)
	p.across(p.x.start, p.x.end, y, 1, p.style.Rule)
	for i, b := range lane.Blocks {
		p.blockAt(lane, b, i, index, y, thick)
	}
	for i, t := range lane.Ticks {
		if !p.x.holds(t.At) {
			continue
		}
		at := p.x.at(t.At)
		c := p.style.Accent
		if t.Pale {
			c = mix(c, p.style.Paper, 0.6)
		}
		p.upright(at, y-thick*1.2-3, y-3, 2.5, c)
		p.place.dots = append(p.place.dots, point{at, y - thick})
		w := p.style.Words
		words := w.named(t.Label, p.axis.value(t.At, w))
		p.marks = append(p.marks, mark{at: point{at, y - thick*0.6 - 3}, panel: index, series: lane.Name, index: len(lane.Blocks) + i, text: w.named(lane.Name, words)})
	}
}

func (p *lanePainter) blockAt(lane Lane, b Block, i, index int, y, thick float64) {
	from, to := max(b.From, p.x.lo), min(b.To, p.x.hi)
	if from > to {
		return
	}
	x0, x1 := p.x.at(from), p.x.at(to)
	c := p.style.colour(b.Hue)
	r := rect{x0, y, x1 - x0, thick}
	if b.Planned {
		r.h = max(3, thick*0.55)
		r.y = y - r.h - 1
		q := rect{p.snap(r.x) + 0.5, p.snap(r.y) + 0.5, max(r.w-1, 1), r.h - 1}
		p.outline([]point{{q.x, q.y}, {q.right(), q.y}, {q.right(), q.bottom()}, {q.x, q.bottom()}}, p.style.Paper, mix(c, p.style.Paper, 0.25), 1)
	} else {
		fill := c
		if b.Pale {
			fill = mix(c, p.style.Paper, 0.62)
		}
		p.block(r, fill)
	}
	f := p.label()
	over, under := y-6, y+thick+3+ascent*f.size
	if b.Planned {
		over = r.y - 4
	}
	mid := min(max((x0+x1)/2, p.x.start), p.x.end)
	spots := []spot{
		{at: point{mid, over}, anchor: 0.5}, {at: point{x0, over}}, {at: point{x1, over}, anchor: 1},
		{at: point{mid, under}, anchor: 0.5}, {at: point{x0, under}}, {at: point{x1, under}, anchor: 1},
	}
	if slices.ContainsFunc(lane.Ticks, func(t Tick) bool { return t.At >= b.From && t.At <= b.To }) {
		spots = spots[3:] // its ticks stand over it
	}
	p.asks = append(p.asks, ask{words: b.Label, font: f, spots: spots})
	w := p.style.Words
	words := w.between(p.axis.value(b.From, w), p.axis.value(b.To, w))
	if b.Planned {
		words = w.Say(say.Of("{{.Said}} as planned", say.With{"Said": words}))
	}
	words = w.named(b.Label, words)
	p.marks = append(p.marks, mark{at: point{(x0 + x1) / 2, r.y + r.h/2}, area: rect{r.x, r.y, max(r.w, 4), r.h}.grown(1), panel: index, series: lane.Name, index: i, text: w.named(lane.Name, words)})
}

func (l Lanes) tabulate() grid {
	t := grid{head: []table.Cell{"lane", "what", "from", "to", "note"}}
	for _, lane := range l.Lanes {
		for _, b := range lane.Blocks {
			note := table.Cell("")
			if b.Planned {
				note = "planned"
			}
			t.rows = append(t.rows, []table.Cell{table.Text(lane.Name), table.Text(b.Label), l.X.cell(b.From), l.X.cell(b.To), note})
		}
		for _, k := range lane.Ticks {
			t.rows = append(t.rows, []table.Cell{table.Text(lane.Name), table.Text(k.Label), l.X.cell(k.At), "", ""})
		}
	}
	return t
}

func (l Lanes) summary(w Words) string {
	var out []string
	for _, lane := range l.Lanes {
		var parts []string
		for _, b := range lane.Blocks {
			part := w.Say(say.Of("{{.What}} {{.From}} to {{.To}}", say.With{
				"What": cmp.Or(b.Label, w.Say(say.Of("block"))), "From": l.X.value(b.From, w), "To": l.X.value(b.To, w)}))
			if b.Planned {
				part = w.Say(say.Of("{{.Said}} as planned", say.With{"Said": part}))
			}
			parts = append(parts, part)
		}
		if n := len(lane.Ticks); n > 0 {
			parts = append(parts, w.Say(say.N("{{.N}} tick", "{{.N}} ticks", n)))
		}
		if len(parts) > 0 {
			out = append(out, w.valued(lane.Name, strings.Join(parts, "; ")))
		}
	}
	return cmp.Or(sentences(out...), w.nothing(l.Empty))
}
