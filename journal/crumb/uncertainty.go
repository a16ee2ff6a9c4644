package crumb

import (
	"math"
	"slices"
)

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
	partClear  = 0.989 // and where no grain frays them: 437 slices of foam fill 0.9887 at most, and of 315 of phantom one fills less than 0.989
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

// offBy is, for each measure and clarity, how far nineteen in twenty drawn slices lay off the
// truth at most, so that each measure holds in nine of ten even of a few dozen: as a share of the figure, or for the measures
// that inOwnUnit names, as it stands; over the photo's own strain. Nought means too far for a figure to be worth showing; where
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
	Porosity:       {0.021, 0.035, 0.151, 0.119, 0},     // 158 49 272 60 43
	CellDensity:    {0.041, 0.329, 0.358, 0, 0},         // 100 32 200 40 31
	MeanArea:       {0.074, 0.346, 0, 0, 0},             // 100 32 200 40 31
	MedianArea:     {0.099, 0, 0, 0, 0},                 // 100 32 200 40 31
	MeanDiameter:   {0.046, 0.275, 0.374, 0, 0},         // 100 32 200 40 31
	MedianDiameter: {0.050, 0.279, 0.460, 0, 0},         // 100 32 200 40 31
	LargestArea:    {0.049, 0.103, 0, 0, 0},             // 158 49 272 60 43
	LargeShare:     {0.007, 0.071, 0.250, 0, 0},         // 158 49 272 60 43
	SmallToLarge:   {0.132, 0, 0, 0, 0},                 // 98 30 184 39 30
	WallThickness:  {0.065, 0.315, 0.222, 0, 0},         // 100 32 200 40 31
	Elongation:     {0.049, 0.097, 0, 0, 0},             // 128 41 222 50 37
	Direction:      {1.761, 2.521, 0, 0, 0},             // 110 31 105 39 27
	Alignment:      {0.042, 0.082, 0, 0, 0},             // 128 41 222 50 37
	EdgeToMiddle:   {0.091, 0.112, 0.175, 0.169, 0},     // 155 47 268 59 43
	TopToBottom:    {0.015, 0.038, 0.225, 0.143, 0.188}, // 158 49 272 60 43
	TextureWidth:   {0.158, 0.190, 0, 0, 0},             // 158 49 282 62 59
	CorrelationMM:  {0.128, 0.139, 0.302, 0.452, 0},     // 158 49 282 62 59
}

// inOwnUnit are the measures of which an error is told as it stands, not as a share of
// the figure: shares, ratios about 1 and angles.
var inOwnUnit = map[MeasureID]bool{Porosity: true, LargeShare: true, Elongation: true, Direction: true, Alignment: true,
	EdgeToMiddle: true, TopToBottom: true, SureVoids: true}

// margin widens all of it: the table rests on some dozens of slices each, which lie nearer to it than others do. Without
// it, of 120 slices on which nothing was set, the elongation held in 32 of 36 that are good; with it in 34, and no measure in
// fewer than nine of ten.
const margin = 1.15

// doubtTimes is how many times farther off than in a clear photo a figure may lie and still be good.
const doubtTimes = 2

// faultFactor widens what is stated of a figure that a fault of the photo touches.
const faultFactor = 2

// uncertainty is how far a figure may lie off, in its own unit; 0 where that is not
// known.
func uncertainty(id MeasureID, values map[MeasureID]float64, p *partition, faulty bool) float64 {
	off := margin * offBy[id][p.seen] * p.strain(id, values)
	if !inOwnUnit[id] {
		off *= math.Abs(values[id])
	}
	if faulty {
		off *= faultFactor
	}
	return off
}

// What strain is measured by: what makes it 1, as it is in drawn slices about, and its least.
const (
	usualStretch, leastStretch = 0.5, 0.05  // elongation less 1
	usualBlur, leastBlur       = 0.14, 0.03 // of the correlation length
	usualSway, leastSway       = 0.12, 0.05
	usualFew, leastFew         = 0.14, 0.10
	usualRare, leastRare       = 0.17, 0.03 // 1 over the square root of how many there are of what is rarer
	usualOpen, leastOpen       = 0.33, 0.05
	usualContrast              = 9.0  // over grain
	mostContrast               = 20.0 // more says nothing
)

// strain is by how many times farther than others as clear a figure of this photo may lie off. The longer cells
// are, the farther is their elongation; the nearer to round, or the less alike they lie, the farther is their direction. Grain
// fills up with what is narrow. Blur runs the crumb's brightness together, and the correlation length errs by as much.
// What goes by the sizes of cells, or by where they lie, errs the more the fewer there are; small to large, the fewer there
// are of the rarer of the two, as a count does (Poisson 1837, from memory); and what compares two open shares, the smaller they are. Where cells are seen in part, it hangs on where the line
// between wall and cell is drawn, and on few cells. Errors over what makes them large, in split conformal
// prediction: Papadopoulos, Proedrou, Vovk & Gammerman 2002, European Conference on
// Machine Learning, from memory.
func (p *partition) strain(id MeasureID, values map[MeasureID]float64) float64 {
	few := (leastFew + p.few) / (leastFew + usualFew)
	stretch := math.Max(leastStretch, values[Elongation]-1) / usualStretch
	switch {
	case id == Elongation:
		return stretch
	case id == Alignment:
		return 1 / stretch
	case id == Direction:
		return few / (stretch * math.Max(leastAlignment, values[Alignment]))
	case id == TextureWidth && p.seen <= grainy:
		return few * usualContrast / math.Min(p.grain, mostContrast)
	case id == CorrelationMM && p.seen <= grainy:
		return (leastBlur + p.blur/values[id]) / (leastBlur + usualBlur)
	case id == SmallToLarge:
		v := values[id]
		rarer := math.Max(1, float64(p.whole)*math.Min(1, v)/(1+v))
		return (leastRare + 1/math.Sqrt(rarer)) / (leastRare + usualRare)
	case slices.Contains(bySize, id):
		return few
	case (id == CellDensity || id == WallThickness) && p.seen <= grainy:
		return few
	case (id == EdgeToMiddle || id == TopToBottom) && p.seen <= grainy:
		return usualOpen / math.Max(leastOpen, values[Porosity])
	case (id == EdgeToMiddle || id == TopToBottom) && p.seen == inPart:
		return few * (leastSway + p.sway[id]) / (leastSway + usualSway)
	}
	return 1
}

// bySize are the measures of how large a cell is on average.
var bySize = []MeasureID{MeanArea, MedianArea, MeanDiameter, MedianDiameter}

// fewness is 1 over the square root of how many cells, all alike, would make up the area that these do, and
// be as sure: of a hundred of one size it is 0.1, and 0.34 where one of them makes up a third of the area. Kish
// 1965, Survey Sampling, calls that number a sample's effective size (from memory). It is 1 without cells.
func fewness(cells []region) float64 {
	sum, squares := 0.0, 0.0
	for _, c := range cells {
		a := float64(c.Area)
		sum += a
		squares += a * a
	}
	if sum == 0 {
		return 1
	}
	return math.Sqrt(squares) / sum
}

// sway is by how much what compares two parts of the face changes from a line between wall and cell
// that lets only the darkest pass for cells to one that lets all pass but the brightest.
func (f *Prepared) sway() map[MeasureID]float64 {
	at := func(share float64) map[MeasureID]float64 {
		line := uint16(f.levels.cell + share*(f.levels.wall-f.levels.cell))
		values := map[MeasureID]float64{}
		f.shares(values, func(i int) bool { return f.rel[i] < line })
		return values
	}
	low, high, out := at(0.2), at(0.8), map[MeasureID]float64{}
	for _, id := range []MeasureID{EdgeToMiddle, TopToBottom} {
		out[id] = 1 // where nothing is dark enough to tell
		if d := math.Abs(high[id] - low[id]); d < 1 {
			out[id] = d
		}
	}
	return out
}

// touched are the measures that a clarity makes doubtful, and those that it withholds.
// What lies off by no more than doubtTimes as far as in a clear photo is neither, but for the edge against
// the middle where cells are seen in part or hardly told: how much of them is lost may differ between the two.
func (c clarity) touched() (doubtful, withheld []MeasureID) {
	for _, d := range definitions {
		off, known := offBy[d.ID]
		switch {
		case !known:
		case off[c] == 0:
			withheld = append(withheld, d.ID)
		case off[c] > doubtTimes*off[clearly] || c >= inPart && d.ID == EdgeToMiddle:
			doubtful = append(doubtful, d.ID)
		}
	}
	return doubtful, withheld
}
