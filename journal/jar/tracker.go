package jar

import (
	"fmt"
	"image"
	"math"
)

// A Tracker knows a jar from the first picture of a series. Look may be called from
// several goroutines at once.
type Tracker struct {
	marks Marks
	rows  int
	unit  float64 // the height of the level, in rows
	level int     // the row next to it
	first sight
	about backdrop
	zero  Strip
}

// NewTracker makes one from the first picture, upright, and the marks on it. A picture
// of which the jar is some 200 to 300 pixels high is enough.
func NewTracker(first *image.RGBA, marks Marks) (*Tracker, error) {
	if err := marks.Check(); err != nil {
		return nil, err
	}
	pixels := (marks.Bottom - marks.Top) * float64(first.Rect.Dy())
	t := &Tracker{marks: marks, rows: min(mostRows, int(pixels))}
	if t.rows < 24 {
		return nil, fmt.Errorf("%w: %.0f pixels from bottom to top", ErrMarks, pixels)
	}
	t.unit = float64(t.rows) * (marks.Bottom - marks.Level) / (marks.Bottom - marks.Top)
	t.level = int(math.Round(t.unit))
	if t.level < 4 || t.level > t.rows-4 {
		return nil, fmt.Errorf("%w: the level is at row %d of %d", ErrMarks, t.level, t.rows)
	}
	t.first, t.about = sightOf(first), backdropOf(first, marks)
	t.zero = stripOf(first, marks, Move{Zoom: 1, Sure: 1}, t.rows)
	return t, nil
}

// A sight is what of a picture tells how the camera has moved, whichever the jar.
type sight struct {
	windows [2]window
	detail  []float64
}

func sightOf(img *image.RGBA) sight {
	s := sight{detail: detailOf(img)}
	for i, h := range halves {
		s.windows[i] = windowOf(img, h[0], h[1])
	}
	return s
}

// sureEnough is the peak of a correlation below which nothing is known of the camera.
const sureEnough = 0.05

// Look reads one picture, of the same size as the first.
func (t *Tracker) Look(img *image.RGBA) Strip {
	return t.look(img, sightOf(img))
}

func (t *Tracker) look(img *image.RGBA, now sight) Strip {
	mv := move(t.first.windows, now.windows)
	if mv.Sure < sureEnough {
		mv = Move{Zoom: 1, Sure: mv.Sure}
	} else {
		mv = t.about.align(now.detail, mv)
	}
	return stripOf(img, t.marks, mv, t.rows)
}

// rowOf is the row of a rise, riseOf the rise of a row.
func (t *Tracker) rowOf(rise float64) float64 { return rise * t.unit }
func (t *Tracker) riseOf(row float64) float64 { return row / t.unit }
