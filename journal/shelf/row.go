package shelf

import (
	"math"
	"time"
)

// A Row is what the shelf knows of a bake.
type Row struct {
	ID      string
	At      time.Time // in the zone in which the baker saw it
	Flours  []Share   // each flour once
	AddIns  []string
	Culture string // empty without one
	Trial   string // empty without one
	Photos  int
	Crumb   bool   // one of the photos shows the crumb
	Text    string // what is looked through for words, in lower case
	Figures []Value
}

// A Share is one flour of a bake, in percent of the flour weighed.
type Share struct {
	Flour   string // its key
	Percent float64
}

// A Value is one figure of a bake. A NaN counts as missing.
type Value struct {
	Figure Metric
	Value  float64
}

// A Metric names something that was measured of bakes.
type Metric string

// Figures that a filter or an order names often; a row may hold others.
const (
	Hydration Metric = "hydration" // percent
	Salt      Metric = "salt"      // percent
	Score     Metric = "score"     // overall, 1 to 9
	Rise      Metric = "rise"      // greatest in bulk, against the start
	Loss      Metric = "loss"      // percent of the dough's weight
)

// Season is a quarter of the year, told by its first month: 12, 3, 6 or 9.
type Season int

// SeasonOf gives the quarter in which a time lies.
func SeasonOf(at time.Time) Season {
	switch at.Month() {
	case time.March, time.April, time.May:
		return 3
	case time.June, time.July, time.August:
		return 6
	case time.September, time.October, time.November:
		return 9
	}
	return 12
}

// Seasons lists the quarters in the order of the year.
func Seasons() []Season { return []Season{3, 6, 9, 12} }

var missing = math.NaN()
