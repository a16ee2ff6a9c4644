package crumb

import "math"

// A clarity is how well the cells of a photo can be told from its walls. It decides
// how far each figure may lie off the truth.
type clarity int

const (
	clearly clarity = iota // well above the walls' grain, and seen as a whole
	grainy                 // the walls' grain comes near the cells' depth
	inPart                 // a part of each cell's floor is as bright as the walls
	weakly                 // the grain is so strong that single cells cannot be told
	hardly                 // so strong that cell and wall can hardly be told
	clarities
)

// Limits between them, set on drawn slices: see offBy.
const (
	grainDoubt = 5.5 // contrast over grain
	grainStop  = 4.2
	grainLost  = 3.0
	partDoubt  = 0.975 // how well the cells fill their ellipses
)

func clarityOf(contrast, fill float64) clarity {
	switch {
	case contrast < grainLost:
		return hardly
	case contrast < grainStop:
		return weakly
	case fill > 0 && fill < partDoubt:
		return inPart
	case contrast < grainDoubt:
		return grainy
	}
	return clearly
}

// offBy is, for each measure and clarity, how far nine in ten drawn slices lay off the
// truth at most: as a share of the figure, or for the measures that inOwnUnit names,
// as it stands. Nought means too far for a figure to be worth showing. The bound is
// that of split conformal prediction, taken for each clarity by itself (Vovk, Gammerman
// & Shafer 2005, Algorithmic Learning in a Random World, from memory). It was
// worked out on slices of both generators, phantom and foam, by
//
//	go test ./journal/crumb -run TestCalibration -v -calibrate
//
// and holds on others: TestStatedUncertaintyHolds.
var offBy = map[MeasureID][clarities]float64{}

// inOwnUnit are the measures of which an error is told as it stands, not as a share of
// the figure: shares, ratios about 1 and angles.
var inOwnUnit = map[MeasureID]bool{Porosity: true, LargeShare: true, Elongation: true, Direction: true, Alignment: true,
	EdgeToMiddle: true, TopToBottom: true, SureVoids: true}

// faultFactor widens what is stated of a figure that a fault of the photo touches.
const faultFactor = 2

// uncertainty is how far a figure may lie off, in its own unit; 0 where that is not
// known.
func uncertainty(id MeasureID, v float64, seen clarity, faulty bool) float64 {
	off := offBy[id][seen]
	if !inOwnUnit[id] {
		off *= math.Abs(v)
	}
	if faulty {
		off *= faultFactor
	}
	return off
}

// touched are the measures that a clarity makes doubtful, and those that it withholds.
// What lies off by no more than twice as far as in a clear photo is neither.
func (c clarity) touched() (doubtful, withheld []MeasureID) {
	for _, d := range definitions {
		off := offBy[d.ID]
		switch {
		case off[c] == 0:
			withheld = append(withheld, d.ID)
		case off[c] > 2*off[clearly]:
			doubtful = append(doubtful, d.ID)
		}
	}
	return doubtful, withheld
}
