package jar

import (
	"image"
	"math"
)

// Cells lie between the sides of the jar in so many columns.
const columns = 6

// Where is looked, in widths of the jar: so far within its sides, away from the glass, where it
// shines and bends, and from and to how far beside it.
const (
	inset                = 0.12
	besideFrom, besideTo = 0.05, 0.5
	besideAt             = (besideFrom + besideTo) / 2
)

// mostRows is how many rows of cells there are at most from bottom to top.
const mostRows = 240

// dim is added to luma where it is divided by, so that black is no trouble.
const dim = 2

// A cellLook is what a cell looks like, all in logarithms: light of another strength and
// another colour, which makes each of the three colours so many times as bright, adds the same
// to every cell.
type cellLook struct {
	Luma    float32 // mean of the logarithms of red, green and blue, each weighed as in luma
	Blue    float32 // blue over green
	Red     float32 // red over green
	Texture float32 // logarithm of the mean difference of neighbours, over luma
}

func (k cellLook) luma() float32 { return k.Luma }
func (k cellLook) blue() float32 { return k.Blue }
func (k cellLook) red() float32  { return k.Red }

// A Strip is what one picture shows between the sides of a jar.
type Strip struct {
	Move  Move
	rows  int
	cells []cellLook    // row by row from the bottom up
	sides [2][]cellLook // what is beside the jar at its left and its right, row by row
	// Light is the mean luma of the cells, 0 to 255.
	Light float64
}

func (s *Strip) at(row, column int) cellLook { return s.cells[row*columns+column] }

// stripOf reads the cells of a picture, where the jar has moved to.
func stripOf(img *image.RGBA, m Marks, mv Move, rows int) Strip {
	w, h := float64(img.Rect.Dx()), float64(img.Rect.Dy())
	s := Strip{Move: mv, rows: rows, cells: make([]cellLook, rows*columns), sides: [2][]cellLook{make([]cellLook, rows), make([]cellLook, rows)}}
	wide := m.Right - m.Left
	left, right := m.Left+inset*wide, m.Right-inset*wide
	toX := func(x float64) int { return int(math.Round((0.5 + (x-0.5)*mv.Zoom + mv.DX) * w)) }
	for r := range rows {
		from := m.Bottom + (m.Top-m.Bottom)*float64(r)/float64(rows)
		to := m.Bottom + (m.Top-m.Bottom)*float64(r+1)/float64(rows)
		y0, y1 := (0.5+(to-0.5)*mv.Zoom+mv.DY)*h, (0.5+(from-0.5)*mv.Zoom+mv.DY)*h
		for c := range columns {
			x0 := toX(left + (right-left)*float64(c)/columns)
			x1 := toX(left + (right-left)*float64(c+1)/columns)
			k, luma := cellOf(img, x0, x1, y0, y1)
			s.cells[r*columns+c] = k
			s.Light += luma / float64(rows*columns)
		}
		s.sides[0][r], _ = cellOf(img, toX(m.Left-besideTo*wide), toX(m.Left-besideFrom*wide), y0, y1)
		s.sides[1][r], _ = cellOf(img, toX(m.Right+besideFrom*wide), toX(m.Right+besideTo*wide), y0, y1)
	}
	return s
}

// covered gives the pixel rows that a cell from y0 to y1 covers, each with how much
// of it.
func covered(y0, y1 float64, height int, do func(y int, weight float64)) {
	for y := max(0, int(y0)); y < min(height, int(math.Ceil(y1))); y++ {
		weight := min(y1, float64(y+1)) - max(y0, float64(y))
		if weight > 0 {
			do(y, weight)
		}
	}
}

func cellOf(img *image.RGBA, x0, x1 int, y0, y1 float64) (cellLook, float64) {
	x0, x1 = max(0, x0), min(img.Rect.Dx(), x1)
	var r, g, b, rough, n, m float64
	covered(y0, y1, img.Rect.Dy(), func(y int, weight float64) {
		row := img.Pix[y*img.Stride:]
		before := -1.0
		for x := x0; x < x1; x++ {
			p := row[4*x : 4*x+3 : 4*x+3]
			pr, pg, pb := float64(p[0]), float64(p[1]), float64(p[2])
			r, g, b, n = r+weight*pr, g+weight*pg, b+weight*pb, n+weight
			luma := 0.299*pr + 0.587*pg + 0.114*pb
			if before >= 0 {
				rough += weight * math.Abs(luma-before)
				m += weight
			}
			before = luma
		}
	})
	if n == 0 || m == 0 {
		return cellLook{}, 0
	}
	r, g, b = r/n, g/n, b/n
	luma := 0.299*r + 0.587*g + 0.114*b
	red, green, blue := math.Log(r+dim), math.Log(g+dim), math.Log(b+dim)
	return cellLook{
		Luma: float32(0.299*red + 0.587*green + 0.114*blue), Blue: float32(blue - green), Red: float32(red - green),
		Texture: float32(math.Log(0.01 + rough/m/(luma+dim))),
	}, luma
}
