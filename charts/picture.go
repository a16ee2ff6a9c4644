package charts

import (
	"image"
	"math"
)

// A Picture is a drawn chart and where its marks lie on it.
type Picture struct {
	Image *image.RGBA // opaque, origin at (0, 0), no spare stride
	Marks []Mark      // in drawing order: a later mark lies above an earlier one

	scale float64
}

// A Mark is something drawn that stands for one value, and can be pointed at.
type Mark struct {
	X, Y   float64         // its centre, in device pixels
	Area   image.Rectangle // what it covers, for bars, blocks and cells; empty for points
	Panel  int             // which panel of a Plot it lies in, from 0
	Series string          // the name of the series, row or lane it belongs to
	Index  int             // its place in that series' slices, from 0
	Text   string          // its value in words, "Gorse, 3: 1.9×"
}

// reach is how far from a point, in layout units, a pointer still means it.
const reach = 16

// At finds the mark meant by a pointer at (x, y) in device pixels: the nearest
// point within a finger's reach, else the topmost bar, block or cell under the
// pointer. It reports false when the pointer is on bare paper.
func (p Picture) At(x, y float64) (Mark, bool) {
	best, found := Mark{}, false
	nearest := reach * p.scale
	for _, m := range p.Marks {
		if !m.Area.Empty() {
			continue
		}
		// A later mark at the same distance is drawn on top, so it wins.
		if d := math.Hypot(m.X-x, m.Y-y); d <= nearest {
			best, nearest, found = m, d, true
		}
	}
	if found {
		return best, true
	}
	at := image.Pt(int(math.Floor(x)), int(math.Floor(y)))
	for i := len(p.Marks) - 1; i >= 0; i-- {
		if at.In(p.Marks[i].Area) {
			return p.Marks[i], true
		}
	}
	return Mark{}, false
}

// mark is a Mark still in layout units.
type mark struct {
	at     point
	area   rect
	panel  int
	series string
	index  int
	text   string
}

func (m mark) scaled(scale float64) Mark {
	out := Mark{X: m.at.x * scale, Y: m.at.y * scale, Panel: m.panel, Series: m.series, Index: m.index, Text: m.text}
	if m.area.w > 0 && m.area.h > 0 {
		out.Area = image.Rect(
			int(math.Floor(m.area.x*scale)), int(math.Floor(m.area.y*scale)),
			int(math.Ceil(m.area.right()*scale)), int(math.Ceil(m.area.bottom()*scale)))
	}
	return out
}
