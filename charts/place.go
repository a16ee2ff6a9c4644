package charts

import "math"

// A spot is where a text might go.
type spot struct {
	at     point // its baseline
	anchor float64
	leader bool // a thin line leads back to what it names
}

// An ask is a text looking for a place: the first spots are liked best.
type ask struct {
	words string
	font  lettering
	spots []spot
	from  point // where a leader begins
	name  bool  // the name of a series: goes to the key when there is no place
}

// placer finds places for texts so that none lies on another, and as few as
// can be on lines and points.
type placer struct {
	sh       *drawList
	bounds   rect
	taken    []rect
	segments [][2]point
	dots     []point
	rules    []float64 // the heights of grid lines, on which a text had better not sit
	ruled    float64   // how far to the right they reach
}

// dotRoom is how close to a point a text may come.
const dotRoom = 5

func (p *placer) avoid(pts []point) {
	for i := 1; i < len(pts); i++ {
		p.segments = append(p.segments, [2]point{pts[i-1], pts[i]})
	}
}

// place writes the text at its best spot and reports whether there was one.
func (p *placer) place(a ask) bool {
	if clean(a.words) == "" {
		return true
	}
	best, least := -1, math.Inf(1)
	var where rect
	for i, s := range a.spots {
		box := p.sh.bounds(s.at, a.words, a.font, s.anchor)
		if c := p.cost(box) + float64(i)*0.6; c < least {
			best, least, where = i, c, box
		}
	}
	if best < 0 {
		return false
	}
	s := a.spots[best]
	if s.leader {
		end := point{where.x - 2, where.y + where.h*0.55}
		p.sh.line([]point{a.from, end}, fade(a.font.colour, 0.5), 1, false)
	}
	p.taken = append(p.taken, where)
	p.sh.write(s.at, a.words, a.font, s.anchor)
	return true
}

// cost weighs what a box would cover; it is infinite on another text or
// outside the bounds.
func (p *placer) cost(box rect) float64 {
	if box.x < p.bounds.x-0.01 || box.right() > p.bounds.right()+0.01 || box.y < p.bounds.y-0.01 || box.bottom() > p.bounds.bottom()+0.01 {
		return math.Inf(1)
	}
	for _, t := range p.taken {
		if box.overlaps(t.grown(1)) {
			return math.Inf(1)
		}
	}
	sum := 0.0
	near := box.grown(dotRoom)
	for _, d := range p.dots {
		if d.x > near.x && d.x < near.right() && d.y > near.y && d.y < near.bottom() {
			sum += 6
		}
	}
	for _, y := range p.rules {
		if y > box.y && y < box.bottom() && box.x < p.ruled {
			sum += 1.5
		}
	}
	tight := box.grown(1)
	for _, s := range p.segments {
		if max(s[0].x, s[1].x) < tight.x || min(s[0].x, s[1].x) > tight.right() {
			continue
		}
		if _, _, hit := clipSegment(s[0], s[1], tight); hit {
			sum += 4
			if sum > 400 {
				break
			}
		}
	}
	return sum
}

// endSpots are the places for a series' name around its last point: to the
// right, then up and down from there, above, below and to the left.
func endSpots(at point, size float64) []spot {
	const gap = 10
	line := capital * size / 2
	out := []spot{{at: point{at.x + gap, at.y + line}}}
	step := size * 0.6
	for k := 1.0; k <= 2; k++ {
		out = append(out, spot{at: point{at.x + gap, at.y + line - k*step}}, spot{at: point{at.x + gap, at.y + line + k*step}})
	}
	above, below := at.y-gap, at.y+gap+capital*size
	out = append(out,
		spot{at: point{at.x, above}, anchor: 0.5}, spot{at: point{at.x, below}, anchor: 0.5},
		spot{at: point{at.x, above}, anchor: 1}, spot{at: point{at.x, below}, anchor: 1})
	for k := 3.0; k <= 24; k++ {
		out = append(out, spot{at: point{at.x + gap + 8, at.y + line - k*step}, leader: true}, spot{at: point{at.x + gap + 8, at.y + line + k*step}, leader: true})
	}
	return out
}
