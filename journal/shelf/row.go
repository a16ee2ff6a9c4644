package shelf

import (
	"math"
	"strings"
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

// What a bake's summary has. A row may hold others.
const (
	Hydration    Metric = "hydration"    // percent, the culture's own counted
	Salt         Metric = "salt"         // percent
	Score        Metric = "score"        // overall, 1 to 9
	Rise         Metric = "rise"         // greatest in bulk, against the start
	Loss         Metric = "loss"         // percent of the dough's weight
	Prefermented Metric = "prefermented" // percent
	Wholegrain   Metric = "wholegrain"   // percent
	Inoculation  Metric = "inoculation"  // percent
	DoughWeight  Metric = "dough weight" // grams
	Volume       Metric = "volume"       // specific, ml/g
	Height       Metric = "height"       // mm
	DoughTemp    Metric = "dough °C"
	InsideTemp   Metric = "inside °C"
	RoomTemp     Metric = "room °C"
	ColdHours    Metric = "cold hours"
	BulkHours    Metric = "bulk hours"
	ProofHours   Metric = "proof hours" // of the final proof in the warm
	CultureAge   Metric = "culture age" // days
)

// Families of metrics, each with a name of its own behind the prefix.
const (
	scorePrefix = "score of "
	crumbPrefix = "crumb "
	sharePrefix = "share of "
)

// ScoreOf names the score of an attribute.
func ScoreOf(attribute string) Metric { return Metric(scorePrefix + attribute) }

// Attribute gives the attribute, other than overall, whose score a metric is.
func (m Metric) Attribute() (attribute string, ok bool) {
	return strings.CutPrefix(string(m), scorePrefix)
}

// IsScore reports whether a metric is a judgement on the scale from 1 to 9.
func (m Metric) IsScore() bool { return m == Score || strings.HasPrefix(string(m), scorePrefix) }

// CrumbOf names a measure of the crumb.
func CrumbOf(measure string) Metric { return Metric(crumbPrefix + measure) }

// Crumb gives the measure of the crumb that a metric is.
func (m Metric) Crumb() (measure string, ok bool) { return strings.CutPrefix(string(m), crumbPrefix) }

// IsCrumb reports whether a metric is a measure of the crumb.
func (m Metric) IsCrumb() bool { return strings.HasPrefix(string(m), crumbPrefix) }

// ShareOf names the share of a flour.
func ShareOf(flour string) Metric { return Metric(sharePrefix + flour) }

// IsShare reports whether a metric is the share of a flour.
func (m Metric) IsShare() bool { return strings.HasPrefix(string(m), sharePrefix) }

// named is the figure after a flour was given another key.
func (m Metric) named(key, to string) Metric {
	if m == ShareOf(key) {
		return ShareOf(to)
	}
	return m
}

// Flour gives the flour whose share a metric is.
func (m Metric) Flour() (flour string, ok bool) { return strings.CutPrefix(string(m), sharePrefix) }

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
