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
	partClear  = 0.988 // and where no grain frays them
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
	case fill > 0 && fill < partClear:
		return inPart
	}
	return clearly
}

// offBy is, for each measure and clarity, how far nine in ten drawn slices lay off the
// truth at most: as a share of the figure, or for the measures that inOwnUnit names,
// as it stands, and for those of direction times what pointing gives. Nought means too far for a figure to be worth showing; where
// single cells cannot be told, none of the measures that go by them is. Behind
// each stand the numbers of slices. The bound is
// that of split conformal prediction, taken for each clarity by itself (Vovk, Gammerman
// & Shafer 2005, Algorithmic Learning in a Random World, from memory). It was
// worked out on slices of both generators, phantom and foam, by
//
//	go test ./journal/crumb -run TestCalibration -v -calibrate
//
// and holds on others: TestStatedUncertaintyHolds. The sure voids are a bound themselves.
var offBy = map[MeasureID][clarities]float64{
	Porosity:       {0.017, 0.034, 0.131, 0.094, 0},     // 124 39 210 49 0
	CellDensity:    {0.028, 0.309, 0.282, 0, 0},         // 82 23 156 0 0
	MeanArea:       {0.053, 0.363, 0, 0, 0},             // 82 23 0 0 0
	MedianArea:     {0.066, 0, 0, 0, 0},                 // 82 23 0 0 0
	MeanDiameter:   {0.027, 0.258, 0.376, 0, 0},         // 82 23 156 0 0
	MedianDiameter: {0.034, 0.236, 0.424, 0, 0},         // 82 23 156 0 0
	LargestArea:    {0.044, 0.067, 0, 0, 0},             // 124 39 0 0 0
	LargeShare:     {0.005, 0.058, 0.181, 0, 0},         // 124 39 210 0 0
	SmallToLarge:   {0.108, 0, 0, 0, 0},                 // 81 0 0 0 0
	WallThickness:  {0.039, 0.172, 0.201, 0, 0},         // 82 23 156 0 0
	Elongation:     {0.069, 0.135, 0, 0, 0},             // 97 32 0 0 0
	Direction:      {0.593, 0.872, 0, 0, 0},             // 81 25 0 0 0
	Alignment:      {0.013, 0.021, 0, 0, 0},             // 97 32 0 0 0
	EdgeToMiddle:   {0.080, 0.118, 0.105, 0.143, 0},     // 124 39 210 49 0
	TopToBottom:    {0.014, 0.036, 0.123, 0.117, 0.163}, // 124 39 210 49 36
	TextureWidth:   {0.128, 0.340, 0, 0, 0},             // 124 39 0 0 0
	CorrelationMM:  {0.143, 0.122, 0.234, 0.431, 0},     // 124 39 219 50 0
}

// inOwnUnit are the measures of which an error is told as it stands, not as a share of
// the figure: shares, ratios about 1 and angles.
var inOwnUnit = map[MeasureID]bool{Porosity: true, LargeShare: true, Elongation: true, Direction: true, Alignment: true,
	EdgeToMiddle: true, TopToBottom: true, SureVoids: true}

// margin widens all of it: the table rests on some dozens of slices each, which lie nearer to it than others do.
const margin = 1.25

// doubtTimes is how many times farther off than in a clear photo a figure may lie and still be good.
const doubtTimes = 2.5

// faultFactor widens what is stated of a figure that a fault of the photo touches.
const faultFactor = 2

// uncertainty is how far a figure may lie off, in its own unit; 0 where that is not
// known.
func uncertainty(id MeasureID, values map[MeasureID]float64, seen clarity, faulty bool) float64 {
	off := margin * offBy[id][seen]
	if !inOwnUnit[id] {
		off *= math.Abs(values[id])
	}
	off /= pointing(id, values)
	if faulty {
		off *= faultFactor
	}
	return off
}

// pointing is how much the cells point anywhere, for the measures that go by that: of
// nearly round cells, or such as lie any way, the direction is soon another. Of other measures it is 1.
func pointing(id MeasureID, values map[MeasureID]float64) float64 {
	switch stretch := math.Max(0.05, values[Elongation]-1); id {
	case Alignment:
		return stretch
	case Direction:
		return stretch * math.Max(leastAlignment, values[Alignment])
	}
	return 1
}

// touched are the measures that a clarity makes doubtful, and those that it withholds.
// What lies off by no more than doubtTimes as far as in a clear photo is neither.
func (c clarity) touched() (doubtful, withheld []MeasureID) {
	for _, d := range definitions {
		off, known := offBy[d.ID]
		switch {
		case !known:
		case off[c] == 0:
			withheld = append(withheld, d.ID)
		case off[c] > doubtTimes*off[clearly]:
			doubtful = append(doubtful, d.ID)
		}
	}
	return doubtful, withheld
}
