package histories

import (
	"time"

	"twinloaf/journal"
	"twinloaf/journal/ferment"
	"twinloaf/journal/formula"
	"twinloaf/journal/say"
)

// errNoSeed tells that a levain is built from nothing.
var errNoSeed = say.NewError("no culture goes into the levain")

// Ripening is when a levain is ripe after it was built, and what that rests on.
type Ripening struct {
	ferment.Expected
	Temp     formula.Celsius
	Feedings int // of the culture that it rests on; 0 is a guess
}

// Ripening foretells when a levain of the culture is ripe at a temperature, by what its
// own feedings showed before a time.
func (l *CultureHistory) Ripening(build journal.LevainBuild, temp formula.Celsius, before time.Time) (Ripening, error) {
	seed, all := formula.Grams(0), formula.Grams(0)
	for _, in := range build.Lines {
		all += in.Grams
		if in.Role == formula.Culture {
			seed += in.Grams
		}
	}
	if seed <= 0 || all <= seed {
		return Ripening{}, errNoSeed
	}
	f := l.Forecaster(before)
	e, err := f.Expect(float64(all/seed), temp)
	return Ripening{Expected: e, Temp: temp, Feedings: f.Feedings()}, err
}
