package charts

import (
	"cmp"
	"image/color"
)

// The depths at which layers lie, lowest first.
const (
	depthBand = iota
	depthArea
	depthLevel
	depthSeries
	depthEvents
	depths
)

// panelPainter is what a layer needs to draw itself in a panel.
type panelPainter struct {
	*drawList
	placer
	area         rect
	x, y         scale
	xAxis, yAxis Axis
	panel        int
	keyed        bool // lines are named in the key
	asks         []ask
}

func (p *panelPainter) holds(x, y float64) bool { return p.x.holds(x) && p.y.holds(y) }

func (p *panelPainter) at(x, y float64) point { return point{p.x.at(x), p.y.at(y)} }

func (p *panelPainter) hue(h Hue) color.NRGBA { return p.style.colour(h) }

func (Band) depth() int   { return depthBand }
func (Ribbon) depth() int { return depthArea }
func (Bins) depth() int   { return depthArea }
func (Level) depth() int  { return depthLevel }
func (Series) depth() int { return depthSeries }
func (Events) depth() int { return depthEvents }

// Bands and levels bend to the data: they do not widen an axis.
func (Band) reach(_, _ *span)     {}
func (Level) reach(_, _ *span)    {}
func (e Events) reach(x, _ *span) { x.add(e.X...) }

func (s Series) reach(x, y *span) {
	for i, v := range s.Y {
		if finite(v) && finite(s.X[i]) {
			x.add(s.X[i])
			y.add(v-s.off(i), v+s.off(i))
		}
	}
}

func (r Ribbon) reach(x, y *span) {
	for i, v := range r.X {
		if finite(v) && finite(r.Low[i]) && finite(r.High[i]) {
			x.add(v)
			y.add(r.Low[i], r.High[i])
		}
	}
}

func (b Bins) reach(x, y *span) {
	if len(b.Counts) == 0 {
		return
	}
	x.add(b.Edges...)
	y.add(0)
	y.add(b.Counts...)
}

func (b Band) paint(p *panelPainter) {
	from, to := max(b.From, p.x.lo), min(b.To, p.x.hi)
	if from > to {
		return
	}
	hue := cmp.Or(b.Look.Hue, Accent)
	x0, x1 := p.x.at(from), p.x.at(to)
	p.block(rect{x0, p.area.y, x1 - x0, p.area.h}, fade(p.hue(hue), 0.09))
	f := p.label()
	base := p.area.y + 4 + ascent*f.size
	half := p.drawList.measure(b.Label, f) / 2
	mid := min(max((x0+x1)/2, p.area.x+half), max(p.area.right()-half, p.area.x+half))
	var spots []spot
	for row := range 4 {
		spots = append(spots, spot{at: point{mid, base + float64(row)*f.size*leading}, anchor: 0.5})
	}
	p.asks = append(p.asks, ask{words: b.Label, font: f, spots: spots})
}

func (l Level) paint(p *panelPainter) {
	if !p.y.holds(l.At) {
		return
	}
	y := p.y.at(l.At)
	c := mix(p.style.Rule, p.style.Faint, 0.4)
	pts := []point{{p.area.x, y}, {p.area.right(), y}}
	if l.Dashed {
		p.line(pts, c, 1.2, true)
	} else {
		p.across(p.area.x, p.area.right(), y, 1, c)
	}
	f := p.label()
	above, below := y-4, y+4+ascent*f.size
	p.asks = append(p.asks, ask{words: l.Label, font: f, spots: []spot{
		{at: point{p.area.x + 6, above}}, {at: point{p.area.right() - 2, above}, anchor: 1},
		{at: point{p.area.x + p.area.w/2, above}, anchor: 0.5},
		{at: point{p.area.x + 6, below}}, {at: point{p.area.right() - 2, below}, anchor: 1},
	}})
}

func (e Events) paint(p *panelPainter) {
	for i, x := range e.X {
		if !p.x.holds(x) {
			continue
		}
		at := p.x.at(x)
		y := p.area.bottom() + 4
		p.upright(at, y, y+6, 2, p.style.Faint)
		w := p.style.Words
		words := p.xAxis.place(x, w)
		if e.Labels != nil && e.Labels[i] != "" {
			words = w.valued(words, e.Labels[i])
		}
		p.marks = append(p.marks, mark{at: point{at, y + 3}, panel: p.panel, series: e.Name, index: i, text: w.named(e.Name, words)})
	}
}

func (b Bins) paint(p *panelPainter) {
	c := p.hue(b.Look.Hue)
	floor := p.y.at(min(max(0, p.y.lo), p.y.hi))
	for i, n := range b.Counts {
		from, to := max(b.Edges[i], p.x.lo), min(b.Edges[i+1], p.x.hi)
		if !finite(n) || n == 0 || from >= to {
			continue
		}
		x0, x1 := p.x.at(from), p.x.at(to)
		y := p.y.at(min(max(n, p.y.lo), p.y.hi))
		r := rect{x0, min(y, floor), max(x1-x0-1, 1), max(floor, y) - min(y, floor)}
		p.block(r, fade(c, 0.3))
		p.across(r.x, r.right(), y, 2, c)
		w := p.style.Words
		words := w.valued(w.between(p.xAxis.value(b.Edges[i], w), p.xAxis.value(b.Edges[i+1], w)), p.yAxis.value(n, w))
		p.marks = append(p.marks, mark{at: point{(x0 + x1) / 2, y}, area: r, panel: p.panel, series: b.Name, index: i, text: w.named(b.Name, words)})
	}
}

func (r Ribbon) paint(p *panelPainter) {
	c := fade(p.hue(r.Look.Hue), 0.2)
	for _, run := range r.runs(p) {
		p.polygon(clipArea(run, p.area), c)
	}
}

// runs are the polygons between the gaps of a ribbon.
func (r Ribbon) runs(p *panelPainter) [][]point {
	var out [][]point
	var low, high []point
	end := func() {
		if len(low) > 1 {
			for i := len(low) - 1; i >= 0; i-- {
				high = append(high, low[i])
			}
			out = append(out, high)
		}
		low, high = nil, nil
	}
	for i, x := range r.X {
		if !finite(x) || !finite(r.Low[i]) || !finite(r.High[i]) {
			end()
			continue
		}
		low = append(low, p.at(x, r.Low[i]))
		high = append(high, p.at(x, r.High[i]))
	}
	end()
	return out
}
