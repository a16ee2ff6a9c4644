package charts

import "fmt"

// A Series is points joined by a line, or points alone, or a line alone.
type Series struct {
	Name string
	Look SeriesStyle
	X, Y []float64 // of equal length; NaN leaves a gap

	// Off is how far each value may lie off: a bar of that length up and down. nil, or one for
	// each point; 0 draws none.
	Off []float64

	Draw    Drawn
	LeftOut []bool   // nil, or one for each point: drawn hollow and pale, not joined
	Gap     float64  // a line breaks where two points lie further apart in X; 0 never
	Quiet   bool     // no direct label at its end
	Mute    bool     // nothing of it can be pointed at
	Piled   bool     // points that lie on one another are drawn as one, with their number
	Notes   []string // nil, or one for each point, added to its mark's text
}

// Drawn says which parts of a series are drawn.
type Drawn int

// The ways to draw a series. A long line, such as a temperature log, is drawn
// as the least and greatest value in each column of pixels, so nothing that
// happened is lost.
const (
	LineAndPoints Drawn = iota
	Points
	Line
	Steps // a line that holds each value until the next; for cumulative curves
)

// A Ribbon is the band of uncertainty around a curve.
type Ribbon struct {
	Name         string
	Look         SeriesStyle
	X, Low, High []float64 // of equal length; NaN leaves a gap
}

// Bins is a histogram: Counts[i] lies between Edges[i] and Edges[i+1].
type Bins struct {
	Name   string
	Look   SeriesStyle
	Edges  []float64 // rising, one more than Counts
	Counts []float64
}

// A Band shades a stretch of X, "the usual lull".
type Band struct {
	From, To float64
	Label    string
	Look     SeriesStyle // only the hue is used; the accent when it is zero
}

// A Level is a horizontal line of reference.
type Level struct {
	At     float64
	Label  string
	Dashed bool
}

// Events are short ticks below the panel's floor, such as feedings.
type Events struct {
	Name   string
	X      []float64
	Labels []string // nil, or one for each tick, for its mark's text
}

func (s Series) check() error {
	if len(s.X) != len(s.Y) {
		return fmt.Errorf("series %q has %d X values and %d Y values", s.Name, len(s.X), len(s.Y))
	}
	if s.LeftOut != nil && len(s.LeftOut) != len(s.X) {
		return fmt.Errorf("series %q has %d points and %d flags for leaving out", s.Name, len(s.X), len(s.LeftOut))
	}
	if s.Off != nil && len(s.Off) != len(s.X) {
		return fmt.Errorf("series %q has %d points and %d uncertainties", s.Name, len(s.X), len(s.Off))
	}
	if s.Notes != nil && len(s.Notes) != len(s.X) {
		return fmt.Errorf("series %q has %d points and %d notes", s.Name, len(s.X), len(s.Notes))
	}
	return nil
}

func (r Ribbon) check() error {
	if len(r.X) != len(r.Low) || len(r.X) != len(r.High) {
		return fmt.Errorf("ribbon %q has %d X values, %d low and %d high ones", r.Name, len(r.X), len(r.Low), len(r.High))
	}
	return nil
}

func (b Bins) check() error { return checkBins(b.Name, b.Edges, b.Counts) }

func checkBins(name string, edges, counts []float64) error {
	if len(counts) == 0 && len(edges) == 0 {
		return nil
	}
	if len(edges) != len(counts)+1 {
		return fmt.Errorf("histogram %q has %d counts and %d edges, not one more", name, len(counts), len(edges))
	}
	for i, e := range edges {
		if !finite(e) || i > 0 && e <= edges[i-1] {
			return fmt.Errorf("histogram %q: edge %d does not rise", name, i+1)
		}
	}
	return nil
}

func (b Band) check() error {
	if !finite(b.From) || !finite(b.To) || b.To < b.From {
		return fmt.Errorf("band %q runs from %v to %v", b.Label, b.From, b.To)
	}
	return nil
}

func (l Level) check() error {
	if !finite(l.At) {
		return fmt.Errorf("level %q lies at %v", l.Label, l.At)
	}
	return nil
}

func (e Events) check() error {
	if e.Labels != nil && len(e.Labels) != len(e.X) {
		return fmt.Errorf("events %q has %d ticks and %d labels", e.Name, len(e.X), len(e.Labels))
	}
	return nil
}
