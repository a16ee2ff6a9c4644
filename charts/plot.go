package charts

import (
	"cmp"
	"fmt"
	"math"
	"time"

	"twinloaf/journal/table"
)

// A Plot is one or more panels, one under the other, over a shared X axis.
type Plot struct {
	X      Axis
	Panels []Panel
	Empty  string // what is written when there is nothing to show; has a default, and stands alone where there is no panel
}

// A Panel is one plot area with layers drawn over each other. Bands lie lowest,
// then ribbons and bins, then levels, then series; within a kind, later layers
// lie above earlier ones.
type Panel struct {
	Title  string
	Y      Axis
	Height float64 // its share of the height against the other panels; 1 when zero
	XHere  bool    // the X axis is written below this panel and not below the last
	Layers []Layer
}

// An Axis is one direction of a panel.
type Axis struct {
	Title string // with the unit unless ticks carry it: "dough temperature, °C"
	Unit  string // written after the highest tick of a Y axis and in marks: "°C"

	// A fixed range, when Max is greater than Min. Otherwise the range is what
	// the data and Include need. Include holds values that must be in view,
	// such as the level a ratio starts from.
	Min, Max float64
	Include  []float64

	// Names are those of the rows 1, 2 and so on, from below. Each has a tick of its
	// own in place of figures.
	Names []string

	Whole  bool                 // ticks fall on whole numbers only
	Ratio  bool                 // values are written "1.50×", ticks as briefly as they can be
	Format func(float64) string // writes a value; nil for plain numbers

	// Zone makes this an axis of time: values are Unix seconds (see Seconds)
	// and ticks fall on hours, midnights and months as clocks in Zone show them.
	Zone *time.Location
}

// A Layer is something drawn in a panel: Series, Ribbon, Bins, Band, Level or
// Events.
type Layer interface {
	check() error
	depth() int
	reach(x, y *span)
	paint(*panelPainter)
	rows(x, y Axis) [][]table.Cell
	summary(x, y Axis, w Words) string
}

func (p Plot) check() error {
	if len(p.Panels) == 0 && p.Empty == "" {
		return fmt.Errorf("a plot needs at least one panel")
	}
	if err := p.X.check("the X axis"); err != nil {
		return err
	}
	for i, panel := range p.Panels {
		if err := panel.check(); err != nil {
			return fmt.Errorf("panel %d: %w", i+1, err)
		}
	}
	return nil
}

func (p Panel) check() error {
	if err := p.Y.check("its Y axis"); err != nil {
		return err
	}
	if p.Height < 0 || !finite(p.Height) {
		return fmt.Errorf("its height is %v", p.Height)
	}
	for i, l := range p.Layers {
		if l == nil {
			return fmt.Errorf("layer %d is missing", i+1)
		}
		if err := l.check(); err != nil {
			return fmt.Errorf("layer %d: %w", i+1, err)
		}
	}
	return nil
}

// check looks at the axis that the figure calls by a name.
func (a Axis) check(name string) error {
	if !finite(a.Min) || !finite(a.Max) {
		return fmt.Errorf("%s: its range is %v to %v", name, a.Min, a.Max)
	}
	if a.Max < a.Min {
		return fmt.Errorf("%s: its range ends (%v) before it begins (%v)", name, a.Max, a.Min)
	}
	if a.Max > a.Min && a.Max-a.Min < 1e-12*max(1, math.Abs(a.Min), math.Abs(a.Max)) {
		return fmt.Errorf("%s: its range, %v to %v, is too narrow", name, a.Min, a.Max)
	}
	return nil
}

func (p Plot) tabulate() grid {
	t := grid{head: []table.Cell{"panel", "layer", "name", p.X.heading("x"), "value", "low", "high", "note"}}
	for i, panel := range p.Panels {
		name := cmp.Or(panel.Title, fmt.Sprint(i+1))
		for _, l := range panel.Layers {
			for _, row := range l.rows(p.X, panel.Y) {
				t.rows = append(t.rows, append([]table.Cell{table.Text(name)}, row...))
			}
		}
	}
	return t
}

func (p Plot) summary(w Words) string {
	var out []string
	for _, panel := range p.Panels {
		out = append(out, panel.Title)
		for _, l := range panel.Layers {
			out = append(out, l.summary(p.X, panel.Y, w))
		}
	}
	return cmp.Or(sentences(out...), w.nothing(p.Empty))
}
