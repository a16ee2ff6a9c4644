package crumb

import "strings"

// A MeasureID names a measure in records and exports. It never changes its
// meaning; a new meaning gets a new ID.
type MeasureID string

// The measures, in the order in which they are shown.
const (
	Porosity       MeasureID = "porosity"
	CellDensity    MeasureID = "cell_density"
	MeanArea       MeasureID = "mean_cell_area"
	MedianArea     MeasureID = "median_cell_area"
	MeanDiameter   MeasureID = "mean_diameter"
	MedianDiameter MeasureID = "median_diameter"
	LargestArea    MeasureID = "largest_cell_area"
	LargeShare     MeasureID = "large_cell_share"
	SmallToLarge   MeasureID = "small_to_large"
	WallThickness  MeasureID = "wall_thickness"
	Elongation     MeasureID = "elongation"
	Direction      MeasureID = "main_direction"
	Alignment      MeasureID = "alignment"
	EdgeToMiddle   MeasureID = "edge_to_middle"
	TopToBottom    MeasureID = "top_to_bottom"
	TextureWidth   MeasureID = "texture_width"
	CorrelationMM  MeasureID = "correlation_length"
	SureVoids      MeasureID = "sure_voids"
)

// textures are the measures that need no cell to be told from its neighbour.
var textures = []MeasureID{TextureWidth, CorrelationMM, SureVoids}

// A Definition is what a screen or a report says about a measure.
type Definition struct {
	ID           MeasureID
	Name         string
	Unit         string // with a true length; "" for a plain ratio
	RelativeUnit string // without one, when it differs
	Means        string // what it tells a baker
	Defined      string // how it is worked out
	Source       string // where the measure was published
	Decimals     int    // sensible figures after the point
	Share        bool   // of a whole: kept from 0 to 1, and read in per cent
}

const (
	sapirstein = "Sapirstein, Roller & Bushuk 1994, Cereal Chemistry 71:383"
	relLength  = "% of slice width"
	relArea    = "(% of slice width)²"
)

var definitions = []Definition{
	{Porosity, "Open area", "", "", "How open the crumb looks: 30 % means that three tenths of the face is cell.",
		"Cell pixels over crumb pixels, crust left out; cells cut by the crumb's edge count with the part that shows, unless that is thinner than 0.45 mm (without a true length 0.45 % of the slice's width).",
		"Void fraction: Zghal, Scanlon & Sapirstein 1999, Cereal Chemistry 76:734; Baravalle, Patow & Delrieux 2015", 3, true},
	{CellDensity, "Cells", "per cm²", "per (10 % of slice width)²", "How many cells there are. Many small ones make a fine crumb.",
		"Number of cells over the crumb's area; a cell cut by the crumb's edge counts half, and not at all where what shows of it is thinner than 0.45 mm (without a true length 0.45 % of the slice's width).",
		sapirstein + "; half weight at the edge: stereological counting rule, from memory", 1, false},
	{MeanArea, "Mean cell area", "mm²", relArea, "The size of a cell on average. A few large holes pull it up.",
		"Area of all cells over their number. A cell cut by the crumb's edge counts half, with the part that shows: without such cells the mean would come out too small, since the edge cuts large ones most often.",
		sapirstein + "; area fraction over number per area: Underwood 1970, Quantitative Stereology, from memory", 2, false},
	{MedianArea, "Median cell area", "mm²", relArea, "Half the cells are smaller than this. Large holes hardly move it.",
		"Median area of the cells that lie wholly in the crumb.", "Definition of the median; sizes as in " + sapirstein, 2, false},
	{MeanDiameter, "Mean diameter", "mm", relLength, "How wide a cell is on average.",
		"Mean over whole cells of the diameter of a circle as large as the cell.", "Equivalent diameter: ISO 9276-6:2008, from memory", 2, false},
	{MedianDiameter, "Median diameter", "mm", relLength, "Half the cells are narrower than this.",
		"Median over whole cells of the diameter of a circle as large as the cell.", "Equivalent diameter: ISO 9276-6:2008, from memory", 2, false},
	{LargestArea, "Largest cell", "mm²", relArea, "The largest single opening. A tunnel or a tear shows here.",
		"Area of the largest cell, one cut by the edge with the part that shows.", "Definition", 1, false},
	{LargeShare, "Share in large cells", "", "", "How much of the openness is large holes rather than fine cells.",
		"Area of cells of at least the chosen diameter over the area of all cells.",
		"Cumulative distribution by area: ISO 9276-1:1998, from memory", 2, true},
	{SmallToLarge, "Small-to-large ratio", "", "", "How many small cells stand against each large one: high for a fine, even crumb.",
		"Number of cells below 4 mm² over the number of larger ones; without a true length the border is 4 (% of slice width)².",
		sapirstein + "; Gonzales-Barron & Butler 2006, Journal of Food Engineering 74:268 (the border of 4 mm² from memory)", 1, false},
	{WallThickness, "Wall thickness", "mm", relLength, "How much crumb stands between one cell and the next.",
		"Mean length of the runs of wall between two cells, along rows and columns alike.",
		"Mean free path by chords: Underwood 1970, Quantitative Stereology, from memory", 2, false},
	{Elongation, "Elongation", "", "", "How stretched the cells are: 1 is round, 2 is twice as long as wide.",
		"Mean over whole cells, weighted by area, of the long over the short axis of the ellipse with the cell's second moments.",
		"Second moments: Hu 1962, IRE Transactions on Information Theory 8:179, from memory", 2, false},
	{Direction, "Main direction", "°", "", "Which way the cells lean, from 0 (level) through 90 (upright) to 180.",
		"Mean axis of the cells with the angle doubled, each weighted by area and by how stretched it is.",
		"Axial mean: Mardia & Jupp 2000, Directional Statistics, from memory", 0, false},
	{Alignment, "Alignment", "", "", "How far the cells agree on that direction: 0 not at all, 1 wholly. Below 0.2 the direction means nothing.",
		"Length of the mean vector of the doubled angles, weighted as for the main direction.",
		"Mean resultant length: Mardia & Jupp 2000, Directional Statistics, from memory", 2, false},
	{EdgeToMiddle, "Edge / middle openness", "", "", "1 is even; below 1 the crumb is closer under the crust than in the middle.",
		"Open share of the outer half of the crumb's area, by depth below its edge, over that of the inner half.",
		"Our own; evenness by zones is common practice, no source", 2, false},
	{TopToBottom, "Top / bottom openness", "", "", "1 is even; above 1 the upper half is the more open one.",
		"Open share of the upper half of the crumb's area, as the photo stands, over that of the lower half.",
		"Our own; evenness by zones is common practice, no source", 2, false},
	{TextureWidth, "Texture width", "mm", relLength, "How wide the dark places are on average. It needs no cell to be told from the next. It may be compared between photos in like light.",
		"The crumb at 4 pixels to the mm is closed by octagons of growing width; the mean of their widths, weighted by what each fills beyond the one before.",
		"Granulometry: Matheron 1975, Random Sets and Integral Geometry; of a grey picture: Maragos 1989, IEEE Transactions on Pattern Analysis and Machine Intelligence 11:701, both from memory", 2, false},
	{CorrelationMM, "Correlation length", "mm", relLength, "How far one goes before the crumb's brightness has nothing to do any more with where one came from: long for a coarse crumb. It stands longest where cells cannot be counted, and may be compared between photos in like light.",
		"Distance at which the autocorrelation of the evened brightness, at 4 pixels to the mm, falls to 1/e; mean of level and upright.",
		"Correlation length: Torquato 2002, Random Heterogeneous Materials, from memory", 2, false},
	{SureVoids, "Share of sure voids", "", "", "How much of the face is holes that are beyond doubt: the least that is open, not all of it. It is not to be compared between photos, since it grows with their contrast.",
		"Share of the crumb in places at least 2.25 mm wide (without a true length 2.25 % of the slice's width) that lie below the walls' level by four times their grain, and by at least three quarters of the way down to the cells' level.",
		"Opening by a disc: Serra 1982, Image Analysis and Mathematical Morphology, from memory; how deep is our own, set on drawn slices", 3, true},
}

// Definitions returns every measure in the order in which it is shown. The
// slice is the caller's own.
func Definitions() []Definition { return append([]Definition(nil), definitions...) }

// Define returns the definition of a measure.
func Define(id MeasureID) (Definition, bool) {
	for _, d := range definitions {
		if d.ID == id {
			return d, true
		}
	}
	return Definition{}, false
}

// UnitFor returns the unit that goes with a figure taken with or without a
// true length.
func (d Definition) UnitFor(relative bool) string {
	if relative && d.RelativeUnit != "" {
		return d.RelativeUnit
	}
	return d.Unit
}

// BesideFigure is UnitFor in fewer letters.
func (d Definition) BesideFigure(relative bool) string {
	return strings.ReplaceAll(d.UnitFor(relative), "of slice width", "of width")
}

// MethodSources lists the published source of each step of the method, in
// order, for a screen that explains how the figures came about.
func MethodSources() []string {
	return []string{
		"Outline: colour distance from the picture's border (our own), parted by Otsu 1979.",
		"Even light: normalised convolution of the wall pixels, Knutsson & Westin 1993.",
		"Threshold half-way between wall and cell level: Ridler & Calvard 1978, with medians.",
		"Connected components: Rosenfeld & Pfaltz 1966. Distance: Felzenszwalb & Huttenlocher 2012.",
		"Splitting of touching cells: watershed by flooding, Vincent & Soille 1991, with a neck rule of our own.",
		"Axes from second moments: Hu 1962.",
		"Blur from the steepest edges, after the edge-width idea of Marziliano et al. 2002.",
		"These references are given from memory.",
	}
}
