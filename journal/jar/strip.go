package jar

import (
	"image"
	"math"
)

// Cells lie between the sides of the jar in so many columns.
const columns = 6

// mostRows is how many rows of cells there are at most from bottom to top.
const mostRows = 240

// dim is added to luma where it is divided by, so that black is no trouble.
const dim = 2

// A cellLook is what a cell looks like.
type cellLook struct {
	Luma    float32 // logarithm
	Blue    float32 // Cb and Cr over luma
	Red     float32
	Texture float32 // logarithm of the mean difference of neighbours, over luma
}

// A Strip is what one picture shows between the sides of a jar.
type Strip struct {
	Move  Move
	rows  int
	cells []cellLook // row by row from the bottom up
	side  []cellLook // what is beside the jar, row by row
	// Light is the mean luma of the cells, 0 to 255.
	Light float64
}

func (s *Strip) at(row, column int) cellLook { return s.cells[row*columns+column] }

// stripOf reads the cells of a picture, where the jar has moved to.
func stripOf(img *image.RGBA, m Marks, mv Move, rows int) Strip {
	w, h := float64(img.Rect.Dx()), float64(img.Rect.Dy())
	s := Strip{Move: mv, rows: rows, cells: make([]cellLook, rows*columns), side: make([]cellLook, rows)}
	// Away from the glass, where it shines and bends.
	inset := 0.12 * (m.Right - m.Left)
	left, right := m.Left+inset, m.Right-inset
	toX := func(x float64) int { return int(math.Round((0.5 + (x-0.5)*mv.Zoom + mv.DX) * w)) }
	beside := 0.5 * (m.Right - m.Left)
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
		one, _ := cellOf(img, toX(m.Left-beside), toX(m.Left-0.1*beside), y0, y1)
		two, _ := cellOf(img, toX(m.Right+0.1*beside), toX(m.Right+beside), y0, y1)
		s.side[r] = cellLook{Luma: (one.Luma + two.Luma) / 2, Blue: (one.Blue + two.Blue) / 2, Red: (one.Red + two.Red) / 2, Texture: (one.Texture + two.Texture) / 2}
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
	over := luma + dim
	return cellLook{
		Luma: float32(math.Log(over)), Blue: float32(0.564 * (b - luma) / over), Red: float32(0.713 * (r - luma) / over),
		Texture: float32(math.Log(0.01 + rough/m/over)),
	}, luma
}
