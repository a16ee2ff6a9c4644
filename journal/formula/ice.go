package formula

import (
	"fmt"

	"twinloaf/journal/say"
)

// latentHeat is what melting ice takes up, in degrees by which as much water
// cools: 80 °C (144 °F).
const latentHeat = 80

// iceShare is the part, 0 to 1, of the water's weight to replace with ice so
// that tap water comes to the temperature wanted: (tap - wanted) / (tap + 80).
// It is 0 when the tap is cold enough.
//
// Source: handbooks of professional baking give it in Fahrenheit, as (tap -
// wanted) / (tap + 112). A printed table of it stands in
// testdata/formula/ice.csv; it goes below freezing, where the formula can be
// reckoned but no water can be had.
func iceShare(tap, wanted Celsius) float64 {
	if tap <= wanted {
		return 0
	}
	return float64((tap - wanted) / (tap + latentHeat))
}

// IcedWater is water with ice, together as much as the formula asks for.
type IcedWater struct {
	Ice, Water Grams
}

// ErrFrozen is returned when the water wanted is colder than water can be.
var ErrFrozen = say.NewError("water that cold is ice")

// Ice splits the formula's water into ice and tap water. There is no ice in it
// when the tap is cold enough already.
func Ice(water Grams, tap, wanted Celsius) (IcedWater, error) {
	if !usable(float64(water)) {
		return IcedWater{}, fmt.Errorf("ice for %g g of water: %w", float64(water), ErrNotAWeight)
	}
	if wanted < 0 {
		return IcedWater{}, fmt.Errorf("ice for water of %g °C: %w", float64(wanted), ErrFrozen)
	}
	ice := water * Grams(iceShare(tap, wanted))
	return IcedWater{Ice: ice, Water: water - ice}, nil
}
