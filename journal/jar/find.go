package jar

import (
	"image"
	"math"
)

// Find looks for the jar on the first picture: the two upright edges that go together
// best, and between them the two level edges below which most changes. It is a guess to
// be looked at: false when nothing stands out. Top is left where the sides end, or near
// the picture's upper end.
//
// Projections of the picture's gradient (Duda & Hart 1973, Pattern Classification and
// Scene Analysis, on edges), each the median over its length, so that a thing that crosses
// it counts little.
func Find(img *image.RGBA) (Marks, bool) {
	g := grid(img)
	left, right, ok := g.sides()
	if !ok {
		return Marks{}, false
	}
	level, bottom, ok := g.level(left, right)
	if !ok {
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

// sides finds the two columns with the strongest edges over the middle of the picture
// that lie a jar's width apart.
func (g *lumas) sides() (left, right int, ok bool) {
	var edge [gridWidth]float64
	for x := 2; x < gridWidth-2; x++ {
		var v []float64
		for y := gridHeight * 4 / 10; y < gridHeight*85/100; y++ {
			v = append(v, math.Abs(g[y][x+1]-g[y][x-1]))
		}
		edge[x] = median(v)
	}
	best := 0.0
	for l := 4; l < gridWidth*7/10; l++ {
		for r := l + gridWidth*15/100; r < min(gridWidth-4, l+gridWidth*75/100); r++ {
			// A jar is near the middle, mostly.
			off := math.Abs(float64(l+r)/2-gridWidth/2) / gridWidth
			if s := math.Sqrt(edge[l]*edge[r]) * (1 - off); s > best {
				best, left, right = s, l, r
			}
		}
	}
	return left, right, best > 0.02
}

// level finds, between the sides, the line below which all is lighter or darker than
// above, and the bottom.
func (g *lumas) level(left, right int) (level, bottom int, ok bool) {
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
	return level, bottom, best > 0.08
}
