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
// as it stands. Nought means too far for a figure to be worth showing; where
// single cells cannot be told, none of the measures that go by them is. Of the share of
// sure voids, a bound, it is how far that lay above the truth; it is taken off. Behind
// each stand the numbers of slices. The bound is
// that of split conformal prediction, taken for each clarity by itself (Vovk, Gammerman
// & Shafer 2005, Algorithmic Learning in a Random World, from memory). It was
// worked out on slices of both generators, phantom and foam, by
//
//	go test ./journal/crumb -run TestCalibration -v -calibrate
//
// and holds on others: TestStatedUncertaintyHolds. Of the sure voids,
// which lay above the truth in one of a hundred slices, next to nothing is taken off.
var offBy = map[MeasureID][clarities]float64{
	Porosity:       {0.022, 0.034, 0.130, 0.106, 0},     // 67 19 102 30 14
	CellDensity:    {0.064, 0.398, 0.246, 0, 0},         // 43 10 72 19 11
	MeanArea:       {0.068, 0.363, 0, 0, 0},             // 43 10 72 19 11
	MedianArea:     {0.110, 0.385, 0, 0, 0},             // 43 10 72 19 11
	MeanDiameter:   {0.033, 0.251, 0.422, 0, 0},         // 43 10 72 19 11
	MedianDiameter: {0.055, 0.177, 0.474, 0, 0},         // 43 10 72 19 11
	LargestArea:    {0.050, 0.105, 0, 0, 0},             // 67 19 102 30 14
	LargeShare:     {0.039, 0.075, 0.178, 0, 0},         // 67 19 102 30 14
	SmallToLarge:   {0.108, 0, 0, 0, 0},                 // 42 10 65 19 11
	WallThickness:  {0.032, 0.366, 0.217, 0, 0},         // 43 10 72 19 11
	Elongation:     {0.075, 0.074, 0, 0, 0},             // 67 19 102 30 14
	Direction:      {1.217, 12.032, 0, 0, 0},            // 56 16 65 24 9
	Alignment:      {0.049, 0.053, 0, 0, 0},             // 67 19 102 30 14
	EdgeToMiddle:   {0.097, 0.157, 0.087, 0.195, 0},     // 67 19 92 30 14
	TopToBottom:    {0.018, 0.125, 0.137, 0.089, 0.173}, // 67 19 92 30 14
	TextureWidth:   {0.137, 0.410, 0, 0, 0},             // 67 19 110 30 22
	CorrelationMM:  {0.142, 0.164, 0.259, 0.248, 0},     // 67 19 110 30 22
	SureVoids:      {0.001, 0.001, 0.001, 0.001, 0.001}, // 28 9 47 9 7
}

// inOwnUnit are the measures of which an error is told as it stands, not as a share of
// the figure: shares, ratios about 1 and angles.
var inOwnUnit = map[MeasureID]bool{Porosity: true, LargeShare: true, Elongation: true, Direction: true, Alignment: true,
	EdgeToMiddle: true, TopToBottom: true, SureVoids: true}

// margin widens all of it: the table rests on some dozens of slices each, and held for
// 89.7 % of 658 figures of other slices as it stands.
const margin = 1.25

// faultFactor widens what is stated of a figure that a fault of the photo touches.
const faultFactor = 2

// uncertainty is how far a figure may lie off, in its own unit; 0 where that is not
// known.
func uncertainty(id MeasureID, v float64, seen clarity, faulty bool) float64 {
	off := margin * offBy[id][seen]
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
