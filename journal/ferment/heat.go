package ferment

// Heat is one way in which cultures answer to warmth, and how many of ten unknown
// cultures are thought to do so (our own guess, and wide on purpose: what a culture
// shows soon outweighs it).
type Heat struct {
	Growth GrowthModel
	Of10   float64
}

// heats are the answers to warmth among which a forecast finds a culture's own.
//
// The first is the yeast of the rules of thumb at [SteepYeast], shy of heat. The
// others are cardinal temperatures of yeasts that Salvadó et al. 2011 (Appl
// Environ Microbiol 77:2292) give in their abstract: best 26.2 and highest 38.4 °C
// for S. bayanus var. uvarum, 32.3 and 45.4 °C for S. cerevisiae, baker's yeast,
// which lives in many home cultures; lowest 1.3 to 4.3 °C over their strains, of which
// 3 is taken. The one between them is ours.
func heats() []Heat {
	return []Heat{
		{SteepYeast(), 3},
		{Cardinal{Min: 3, Opt: 26.2, Max: 38.4}, 1.5},
		{Cardinal{Min: 3, Opt: 29.3, Max: 41.9}, 3},
		{Cardinal{Min: 3, Opt: 32.3, Max: 45.4}, 2.5},
	}
}

// The published points and strains are close together between these
// temperatures; outside, a forecast rests on the culture's own past or on nothing.
const (
	coldestShared Celsius = 15
	warmestShared Celsius = 30
)
