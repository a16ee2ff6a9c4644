package crumb

import "math"

// Trust says how far a figure may be relied on.
type Trust int

// The degrees of trust, best first.
const (
	Good     Trust = iota // no fault was seen
	Doubtful              // shown, with the reason for doubt beside it
	Withheld              // not shown: the photo cannot give it
)

func (t Trust) String() string {
	return [...]string{"good", "doubtful", "withheld"}[t]
}

// A Measurement is one measure of one photo. Value is 0 when it is withheld.
type Measurement struct {
	ID    MeasureID
	Value float64
	Trust Trust
	// Off is how far the truth lay from Value at most in nine of ten drawn slices, at least, as
	// clear as this photo, in Value's own unit; 0 where that is not known, as at a
	// sensitivity other than 0, on which nothing was tried.
	Off float64 `json:",omitempty"`
}

// A SizeClass counts the whole cells with an equivalent diameter of at least
// From and less than To.
type SizeClass struct {
	From, To float64 // mm, or per cent of the slice's width
	Count    int
	Area     float64 // of all of them, mm² or (per cent of width)²
}

// A Summary is the part of a result worth keeping. It is plain data.
type Summary struct {
	Method        int     // MethodVersion at the time of measuring
	Sensitivity   float64 // -1 to 1, 0 as it comes
	PxPerMM       float64 // of the photo; when Relative, pixels per hundredth of the outline's width
	WorkPxPerMM   float64 // of the working picture
	Relative      bool    // no true length was known
	LargeFrom     float64 // diameter from which a cell is large, in the unit of the sizes
	Outline       Outline // in photo pixels
	FoundByItself bool    // the outline was found, not drawn
	Chosen        bool    `json:",omitempty"` // the outline was found, and then chosen by hand
	FaceArea      float64 // crumb area, mm² or (per cent of width)²
	Straightened  bool    `json:",omitempty"` // a sheet's corners took out the tilt, and gave the scale
	Corrected     int     `json:",omitempty"` // corrections by hand that changed anything
	Counted       int     // cells seen, those at the edge included
	Contrast      float64 `json:",omitempty"` // of the cells over the walls' own grain, in its standard deviations
	Figures       []Measurement
	Flags         []Flag
	Sizes         []SizeClass
}

// Measured returns the figure of a measure. It is withheld when the summary does
// not have it.
func (s Summary) Measured(id MeasureID) Measurement {
	for _, f := range s.Figures {
		if f.ID == id {
			return f
		}
	}
	return Measurement{ID: id, Trust: Withheld}
}

// SizesTrust says how far the size classes may be relied on: as far as the mean
// cell area.
func (s Summary) SizesTrust() Trust { return s.Measured(MeanArea).Trust }

// Cumulative returns for each size class the share of cells, and of cell area,
// in it and all smaller ones.
func (s Summary) Cumulative() (byNumber, byArea []float64) {
	byNumber, byArea = make([]float64, len(s.Sizes)), make([]float64, len(s.Sizes))
	n, a := 0.0, 0.0
	for i, c := range s.Sizes {
		n += float64(c.Count)
		a += c.Area
		byNumber[i], byArea[i] = n, a
	}
	for i := range s.Sizes {
		byNumber[i] /= math.Max(1, n)
		byArea[i] /= math.Max(1e-300, a)
	}
	return byNumber, byArea
}

// A Cell is one cell in the units of its summary.
type Cell struct {
	At           Point   // centroid in the photo
	Area         float64 // mm², or (per cent of width)²
	Diameter     float64 // equivalent diameter
	Major, Minor float64 // axes of the ellipse of equal moments
	Angle        float64 // degrees anticlockwise from the horizontal, 0 to 180
	AtEdge       bool    // cut by the crumb's edge: counts half, and of the sizes in the mean area alone
	AddIn        bool    // coloured unlike the crumb: perhaps no cell at all
}

// A Result is a summary with the cells and the pictures behind it.
type Result struct {
	Summary
	Cells []Cell

	w, h   int
	frame  frame
	labels []int32
	crumb  []bool
	rgb    []uint8

	largeOff float64 // what is stated of the share in large cells at least; 0 where cells are not seen clearly
}

// SetLargeFrom sets the equivalent diameter from which a cell counts as large,
// in the unit of the sizes, and works out the share in large cells again.
// Nothing has to be looked at anew for it.
func (r *Result) SetLargeFrom(diameter float64) {
	r.LargeFrom = diameter
	for i, f := range r.Figures {
		if f.ID == LargeShare && f.Trust != Withheld {
			r.Figures[i].Value = largeShare(r.Cells, diameter)
			if r.largeOff > 0 {
				r.Figures[i].Off = r.offLarge()
			}
		}
	}
}

// offLarge is how far the share in large cells may lie off where cells are seen clearly: as far as is stated of
// it, or as far as it would change if every diameter were as far off as diameters may be, since one great
// cell on the other side of the limit is a tenth of all.
func (r *Result) offLarge() float64 {
	off := margin * offBy[MeanDiameter][clearly]
	v := largeShare(r.Cells, r.LargeFrom)
	return max(r.largeOff, largeShare(r.Cells, r.LargeFrom*(1-off))-v, v-largeShare(r.Cells, r.LargeFrom*(1+off)))
}

// largeShare is the share of all cells' area in cells of at least a diameter.
func largeShare(cells []Cell, from float64) float64 {
	large, all := 0.0, 0.0
	for _, c := range cells {
		all += c.Area
		if c.Diameter >= from {
			large += c.Area
		}
	}
	if all == 0 {
		return 0
	}
	return large / all
}

// sizeEdges are diameters a tenth of a decade apart, the R10 series of
// preferred numbers (ISO 3:1973), so that any two histograms share their
// classes.
var sizeEdges = [...]float64{0.25, 0.315, 0.4, 0.5, 0.63, 0.8, 1, 1.25, 1.6, 2, 2.5, 3.15, 4, 5, 6.3, 8, 10, 12.5, 16, 20, 25, 31.5, 40, 50, 63, 80, 100, 200}

func sizeClasses(cells []Cell) []SizeClass {
	classes := make([]SizeClass, len(sizeEdges)-1)
	for i := range classes {
		classes[i].From, classes[i].To = sizeEdges[i], sizeEdges[i+1]
	}
	for _, c := range cells {
		if c.AtEdge {
			continue
		}
		for i := range classes {
			if c.Diameter < classes[i].To || i == len(classes)-1 {
				classes[i].Count++
				classes[i].Area += c.Area
				break
			}
		}
	}
	return classes
}
