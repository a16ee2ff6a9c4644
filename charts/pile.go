package charts

import (
	"image/color"
	"math"
	"slices"
	"strconv"

	"twinloaf/journal/say"
)

// pileReach is how near to one another points lie that would hide each other.
const pileReach = markerSize

// A pile is points that lie on one another, by their place in the series.
type pile struct {
	at point // of the first, or the middle of piles put together
	of []int
}

// piles gathers the points of a series that would hide each other, in the order in
// which the first of each comes.
func (s Series) piles(p *panelPainter) []pile {
	var out []pile
	type cell struct{ x, y int }
	in := map[cell][]int{} // the piles whose first point lies in a square of the reach
	for i := range s.X {
		if !s.joined(i) || !p.holds(s.X[i], s.Y[i]) {
			continue
		}
		at := p.at(s.X[i], s.Y[i])
		here := cell{int(math.Floor(at.x / pileReach)), int(math.Floor(at.y / pileReach))}
		best, nearest := -1, pileReach
		for x := here.x - 1; x <= here.x+1; x++ {
			for y := here.y - 1; y <= here.y+1; y++ {
				for _, k := range in[cell{x, y}] {
					if d := math.Hypot(out[k].at.x-at.x, out[k].at.y-at.y); d <= nearest {
						best, nearest = k, d
					}
				}
			}
		}
		if best < 0 {
			best = len(out)
			in[here] = append(in[here], best)
			out = append(out, pile{at: at})
		}
		out[best].of = append(out[best].of, i)
	}
	return toldApart(out)
}

// toldApart makes one pile of those whose markers would lie over one another's number.
func toldApart(piles []pile) []pile {
	const most = 2 * 3 * markerSize // as far as two markers reach
	type cell struct{ x, y int }
	in := map[cell][]int{} // the piles kept, by the square they lie in
	gone := make([]bool, len(piles))
	square := func(at point) cell { return cell{int(math.Floor(at.x / most)), int(math.Floor(at.y / most))} }
	covering := func(k int) int {
		here := square(piles[k].at)
		for x := here.x - 1; x <= here.x+1; x++ {
			for y := here.y - 1; y <= here.y+1; y++ {
				for _, other := range in[cell{x, y}] {
					if !gone[other] && piles[k].covers(piles[other]) {
						return other
					}
				}
			}
		}
		return -1
	}
	for k := range piles {
		for other := covering(k); other >= 0; other = covering(k) {
			piles[k] = piles[k].with(piles[other])
			gone[other] = true
		}
		in[square(piles[k].at)] = append(in[square(piles[k].at)], k)
	}
	var out []pile
	for k, l := range piles {
		if !gone[k] {
			out = append(out, l)
		}
	}
	slices.SortFunc(out, func(a, b pile) int { return a.of[0] - b.of[0] })
	return out
}

// covers says whether two piles cannot be told from one another: the markers of two that
// have a number meet, or a single point lies under that of a pile.
func (l pile) covers(other pile) bool {
	far := math.Hypot(l.at.x-other.at.x, l.at.y-other.at.y)
	switch a, b := len(l.of), len(other.of); {
	case a > 1 && b > 1:
		return far < l.radius()+other.radius()
	case a > 1 || b > 1:
		return far < max(l.radius(), other.radius())
	}
	return false
}

// with puts two piles together, in the middle of their points.
func (l pile) with(other pile) pile {
	a, b := float64(len(l.of)), float64(len(other.of))
	return pile{
		at: point{(l.at.x*a + other.at.x*b) / (a + b), (l.at.y*a + other.at.y*b) / (a + b)},
		of: slices.Sorted(slices.Values(slices.Concat(l.of, other.of))),
	}
}

// radius of a pile's marker: its area grows with how many lie there, and it has room
// for their number.
func (l pile) radius() float64 {
	if len(l.of) == 1 {
		return markerSize
	}
	return min(max(markerSize*math.Sqrt(float64(len(l.of))), 6.5), 3*markerSize)
}

// paintPiles draws one marker for all points that lie on one another, larger the more
// they are, with their number. Each point can still be pointed at in its turn.
func (s Series) paintPiles(p *panelPainter, c color.NRGBA) {
	piles := s.piles(p)
	for _, l := range piles {
		marker(p.drawList, l.at, s.Look, c, l.radius())
		p.dots = append(p.dots, l.at)
	}
	ink := p.style.Paper
	if s.Look.Hollow {
		ink = c
	}
	for _, l := range piles { // the numbers after all markers, so that none is covered
		n := len(l.of)
		if n > 1 {
			p.middle(l.at, strconv.Itoa(n), lettering{size: 9, bold: true, colour: ink}, 0.5)
		}
		for k, i := range l.of {
			if s.Mute {
				break
			}
			words := s.say(p, i, false)
			if n > 1 {
				words += " · " + p.style.Words.Say(say.Of("{{.Which}} of {{.All}} here", say.With{"Which": k + 1, "All": n}))
			}
			p.marks = append(p.marks, mark{at: l.at, panel: p.panel, series: s.Name, index: i, text: words})
		}
	}
}
