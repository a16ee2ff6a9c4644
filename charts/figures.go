package charts

import "time"

// Bars shows one amount for each name, each with its value written on it. They
// stand side by side when the names fit below them, and lie in rows otherwise.
type Bars struct {
	Title string
	Bars  []Bar
	Unit  string
	// Format writes a value; nil for plain numbers.
	Format func(float64) string
	Empty  string
}

// A Bar is one amount of a Bars figure. NaN is a missing one.
type Bar struct {
	Name  string
	Value float64
	Pale  bool // out of the present choice
}

// Spark is a tiny histogram without axes, with a chosen range standing out.
type Spark struct {
	Name     string
	Edges    []float64 // rising, one more than Counts
	Counts   []float64
	From, To float64              // the chosen range; everything when equal
	Format   func(float64) string // writes an edge; nil for plain numbers
}

// Groups shows every value of several groups, side by side, with the median of
// each. Points are spread sideways by their place in the slice, so the same
// data always give the same picture.
type Groups struct {
	Title  string
	Y      Axis
	Groups []Group
	Empty  string
}

// A Group is one column of a Groups figure.
type Group struct {
	Name   string
	Look   SeriesStyle
	Values []float64 // NaN is left out
}

// Pairs shows two values on one scale in each row, as on a nine-point scale.
type Pairs struct {
	Scale Axis // 1 to 9 when no range is given
	A, B  Side
	Rows  []Pair
	Empty string
}

// A Side is one of the two that are compared.
type Side struct {
	Name string
	Look SeriesStyle
}

// A Pair is a row of a Pairs figure. A NaN is not drawn.
type Pair struct {
	Name   string
	A, B   float64
	Note   string // at the right end, "p 0.03"
	Strong bool   // the difference stands out from chance
}

// Slopes shows pairs of scores as lines from the left scale to the right one.
// Pairs that are alike are drawn as one line, the thicker the more there are.
type Slopes struct {
	Title       string
	Y           Axis
	Left, Right Side
	Pairs       [][2]float64 // a pair with a NaN is left out
	Empty       string
}

// Lanes lays timelines over each other: two to four bakes, or the plan of one
// and what was done.
type Lanes struct {
	X     Axis
	Lanes []Lane
	Bands []Band  // shaded stretches, such as nights
	Now   float64 // a line at the present; none when zero
	Empty string
}

// A Lane is one row of a Lanes figure.
type Lane struct {
	Name   string
	Blocks []Block
	Ticks  []Tick
}

// A Block is a stretch of a lane.
type Block struct {
	From, To float64
	Label    string
	Hue      Hue
	Pale     bool // a quiet stretch, such as a rest
	Planned  bool // an outline above the lane rather than a filled block
}

// A Tick is a moment in a lane.
type Tick struct {
	At    float64
	Label string // for its mark's text
	Pale  bool   // not yet done
}

// Calendar shows a year day by day, the deeper the colour the greater the count.
type Calendar struct {
	Year        int
	Counts      []int // the first is 1 January; may be shorter than the year
	Days        int   // how many are drawn, from 1 January; 0 is all of the year
	SundayFirst bool
	Describe    func(day time.Time, count int) string // a mark's text; has a default
}
