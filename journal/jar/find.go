package jar

import (
	"cmp"
	"image"
	"math"
	"slices"
)

// Find looks for a jar on the first picture: two upright edges that go together, and between
// them two level edges below which much changes, the most of both. It is a guess to
// be looked at: false when nothing stands out. Top is left where the sides end, or near
// the picture's upper end. Where jars that are known already stand is not looked.
//
// Projections of the picture's gradient (Duda & Hart 1973, Pattern Classification and
// Scene Analysis, on edges), each the median over its length, so that a thing that crosses
// it counts little.
func Find(img *image.RGBA, known ...Marks) (Marks, bool) {
	g := grid(img)
	best, left, right, level, bottom := 0.0, 0, 0, 0, 0
	for _, p := range g.sides(known) {
		// What lies between two jars has upright edges as well, but no dough.
		l, b, much := g.level(p.left, p.right)
		if much > leastLevel && p.score*much > best {
			best, left, right, level, bottom = p.score*much, p.left, p.right, l, b
		}
	}
	if best == 0 {
		return Marks{}, false
	}
	m := Marks{
		Left: float64(left) / gridWidth, Right: float64(right) / gridWidth,
		Bottom: float64(bottom) / gridHeight, Level: float64(level) / gridHeight, Top: 0.05,
	}
	if room := m.Level - 2.6*(m.Bottom-m.Level); room > m.Top {
		m.Top = room // nothing rises to more than that
	}
	return m, m.Check() == nil
}

// The grid that is looked at, whatever the size of the picture.
const (
	gridWidth  = 200
	gridHeight = 240
)

type lumas [gridHeight][gridWidth]float64 // logarithms

func grid(img *image.RGBA) *lumas {
	g := new(lumas)
	w, h := img.Rect.Dx(), img.Rect.Dy()
	for y := range gridHeight {
		for x := range gridWidth {
			sum, n := 0.0, 0.0
			for py := y * h / gridHeight; py < max(y*h/gridHeight+1, (y+1)*h/gridHeight); py++ {
				for px := x * w / gridWidth; px < max(x*w/gridWidth+1, (x+1)*w/gridWidth); px++ {
					p := img.Pix[img.PixOffset(px, py):]
					sum += 0.299*float64(p[0]) + 0.587*float64(p[1]) + 0.114*float64(p[2])
					n++
				}
			}
			g[y][x] = math.Log(sum/n + dim)
		}
	}
	return g
}

// A pair is two columns that may be the sides of a jar.
type pair struct {
	left, right int
	score       float64
}

// How much has to change at the sides of a jar and at its level, in logarithms.
const (
	leastSides = 0.02
	leastLevel = 0.08
)

// sides finds the pairs of columns with the strongest edges over the middle of the picture
// that lie a jar's width apart, the best first, none next to a better one.
func (g *lumas) sides(known []Marks) []pair {
	var edge [gridWidth]float64
	for x := 2; x < gridWidth-2; x++ {
		var v []float64
		for y := gridHeight * 4 / 10; y < gridHeight*85/100; y++ {
			v = append(v, math.Abs(g[y][x+1]-g[y][x-1]))
		}
		edge[x] = median(v)
	}
	for _, m := range known {
		const margin = 0.02
		for x := range edge {
			if at := float64(x) / gridWidth; at > m.Left-margin && at < m.Right+margin {
				edge[x] = math.NaN()
			}
		}
	}
	apart := func(l, r int) bool { // no known jar is between them
		return !slices.ContainsFunc(edge[l:r+1], math.IsNaN)
	}
	var all []pair
	for l := 4; l < gridWidth*7/10; l++ {
		for r := l + gridWidth*15/100; r < min(gridWidth-4, l+gridWidth*75/100); r++ {
			// A jar is near the middle, mostly.
			off := math.Abs(float64(l+r)/2-gridWidth/2) / gridWidth
			if s := math.Sqrt(edge[l]*edge[r]) * (1 - off); s > leastSides && apart(l, r) {
				all = append(all, pair{l, r, s})
			}
		}
	}
	slices.SortFunc(all, func(a, b pair) int { return cmp.Compare(b.score, a.score) })
	const most, near = 40, 4
	var out []pair
	for _, p := range all {
		if len(out) < most && !slices.ContainsFunc(out, func(o pair) bool { return max(p.left-o.left, o.left-p.left, p.right-o.right, o.right-p.right) < near }) {
			out = append(out, p)
		}
	}
	return out
}

// level finds, between the sides, the line below which all is lighter or darker than
// above, and the bottom, and how much that is.
func (g *lumas) level(left, right int) (level, bottom int, much float64) {
	inset := (right - left) / 6
	var row [gridHeight]float64
	for y := range row {
		var v []float64
		for x := left + inset; x <= right-inset; x++ {
			v = append(v, g[y][x])
		}
		row[y] = median(v)
	}
	step := func(y, over int) float64 { // the mean below less the mean above
		sum := 0.0
		for k := 1; k <= over; k++ {
			sum += row[min(gridHeight-1, y+k-1)] - row[max(0, y-k)]
		}
		return sum / float64(over)
	}
	best := 0.0
	for l := gridHeight * 3 / 10; l < gridHeight*85/100; l++ {
		for b := l + gridHeight*6/100; b < min(gridHeight-3, l+gridHeight/2); b++ {
			up, down := step(l, 8), step(b, 3)
			if up*down >= 0 {
				continue // what comes on at the level goes off at the bottom
			}
			if s := math.Min(math.Abs(up), math.Abs(down)) + 0.3*math.Abs(up); s > best {
				best, level, bottom = s, l, b
			}
		}
	}
	return level, bottom, best
}
