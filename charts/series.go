package charts

import (
	"math"

	"twinloaf/journal/say"
)

// lastPoint is the index of the last point a line is drawn to, -1 if none.
func (s Series) lastPoint() int {
	for i := len(s.X) - 1; i >= 0; i-- {
		if s.joined(i) {
			return i
		}
	}
	return -1
}

func (s Series) joined(i int) bool {
	return finite(s.X[i]) && finite(s.Y[i]) && !(s.LeftOut != nil && s.LeftOut[i])
}

func (s Series) paint(p *panelPainter) {
	c := p.hue(s.Look.Hue)
	long := s.long(p)
	if s.Draw != Points {
		width := 2.0
		if long {
			width = 1.2
		}
		for _, run := range s.runs(p, long) {
			for _, piece := range clipLine(run, p.area) {
				p.line(piece, c, width, s.Look.Dashed)
				p.avoid(piece)
			}
		}
	}
	s.points(p, long)
	if s.Quiet || s.Draw == Points || p.keyed {
		return
	}
	for i := s.lastPoint(); i >= 0; i-- {
		if s.joined(i) && p.holds(s.X[i], s.Y[i]) {
			at := p.at(s.X[i], s.Y[i])
			f := p.named(s.Look)
			p.asks = append(p.asks, ask{words: s.Name, font: f, spots: endSpots(at, f.size), from: at, name: true})
			return
		}
	}
}

// long reports whether the line has so many points in order that columns of
// pixels stand for them.
func (s Series) long(p *panelPainter) bool {
	if s.Draw != Line || float64(len(s.X)) < 2*p.area.w*p.scale {
		return false
	}
	last := math.Inf(-1)
	for _, x := range s.X {
		if finite(x) {
			if x < last {
				return false
			}
			last = x
		}
	}
	return true
}

// runs are the lines between the gaps.
func (s Series) runs(p *panelPainter, long bool) [][]point {
	var out [][]point
	var run []point
	end := func() {
		if len(run) > 0 {
			out, run = append(out, run), nil
		}
	}
	last := -1
	for i := range s.X {
		if s.LeftOut != nil && s.LeftOut[i] {
			continue
		}
		if !s.joined(i) {
			end()
			last = -1
			continue
		}
		at := p.at(s.X[i], s.Y[i])
		if last >= 0 && s.Gap > 0 && s.X[i]-s.X[last] > s.Gap {
			end()
		}
		if s.Draw == Steps && len(run) > 0 {
			run = append(run, point{at.x, run[len(run)-1].y})
		}
		run = append(run, at)
		last = i
	}
	end()
	if long {
		for i := range out {
			out[i] = thin(out[i], 1/p.scale)
		}
	}
	return out
}

// thin keeps of the points in each column of a line the first, the highest,
// the lowest and the last, in the order in which they came.
func thin(pts []point, column float64) []point {
	var out []point
	for i := 0; i < len(pts); {
		col := math.Floor(pts[i].x / column)
		low, high, end := i, i, i
		for end < len(pts) && math.Floor(pts[end].x/column) == col {
			if pts[end].y < pts[low].y {
				low = end
			}
			if pts[end].y > pts[high].y {
				high = end
			}
			end++
		}
		out = append(out, pts[i])
		for _, k := range []int{min(low, high), max(low, high), end - 1} {
			if p := pts[k]; p != out[len(out)-1] {
				out = append(out, p)
			}
		}
		i = end
	}
	return out
}

// points draws the markers and notes where every point lies. Of a long line,
// one point for each column of layout can be pointed at.
func (s Series) points(p *panelPainter, long bool) {
	c := p.hue(s.Look.Hue)
	piled := s.Piled && s.Draw == Points
	if piled {
		s.paintPiles(p, c)
	}
	column := math.Inf(-1)
	for i := range s.X {
		if !finite(s.X[i]) || !finite(s.Y[i]) || !p.holds(s.X[i], s.Y[i]) {
			continue
		}
		at := p.at(s.X[i], s.Y[i])
		if long {
			if at.x < column+1 {
				continue
			}
			column = at.x
		}
		left := s.LeftOut != nil && s.LeftOut[i]
		if off := s.off(i); off > 0 {
			s.bar(p, i, off, left)
		}
		if piled && !left {
			continue // drawn above
		}
		switch {
		case left:
			look := s.Look
			look.Hollow = true
			marker(p.drawList, at, look, mix(c, p.style.Paper, 0.35), markerSize)
		case s.Draw == LineAndPoints || s.Draw == Points:
			marker(p.drawList, at, s.Look, c, markerSize)
		}
		if !long {
			p.dots = append(p.dots, at)
		}
		if !s.Mute {
			p.marks = append(p.marks, mark{at: at, panel: p.panel, series: s.Name, index: i, text: s.say(p, i, left)})
		}
	}
}

// off is how far a value may lie off; 0 where that is not known.
func (s Series) off(i int) float64 {
	if s.Off == nil || !finite(s.Off[i]) {
		return 0
	}
	return math.Max(0, s.Off[i])
}

// capWidth is how wide the ends of a bar are, to either side.
const capWidth = 3.5

// bar draws how far a value may lie off.
func (s Series) bar(p *panelPainter, i int, off float64, pale bool) {
	c := p.hue(s.Look.Hue)
	if pale {
		c = mix(c, p.style.Paper, 0.35)
	}
	low, high := p.at(s.X[i], s.Y[i]-off), p.at(s.X[i], s.Y[i]+off)
	for _, line := range [][]point{{low, high},
		{{low.x - capWidth, low.y}, {low.x + capWidth, low.y}}, {{high.x - capWidth, high.y}, {high.x + capWidth, high.y}}} {
		for _, piece := range clipLine(line, p.area) {
			p.line(piece, c, 1.2, false)
			p.avoid(piece)
		}
	}
}

func (s Series) say(p *panelPainter, i int, left bool) string {
	w := p.style.Words
	value := p.yAxis.value(s.Y[i], w)
	if off := s.off(i); off > 0 {
		value += " ± " + p.yAxis.value(off, w)
	}
	words := w.named(s.Name, w.valued(p.xAxis.place(s.X[i], w), value))
	if s.Notes != nil && s.Notes[i] != "" {
		words += " · " + s.Notes[i]
	}
	if left {
		words += " · " + w.Say(say.Of("left out"))
	}
	return words
}
