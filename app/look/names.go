package look

import (
	"strconv"

	"fyne.io/fyne/v2"
)

// Names of colours that Fyne's own themes do not have. Ask for them with
// theme.Color.
const (
	ColorPaper   fyne.ThemeColorName = "twinloaf.paper"
	ColorRaised  fyne.ThemeColorName = "twinloaf.raised"
	ColorInk     fyne.ThemeColorName = "twinloaf.ink"
	ColorFaint   fyne.ThemeColorName = "twinloaf.faint"
	ColorRule    fyne.ThemeColorName = "twinloaf.rule"
	ColorEdge    fyne.ThemeColorName = "twinloaf.edge"
	ColorCrust   fyne.ThemeColorName = "twinloaf.crust"
	ColorOnCrust fyne.ThemeColorName = "twinloaf.oncrust"
	ColorField   fyne.ThemeColorName = "twinloaf.field"
	ColorEmber   fyne.ThemeColorName = "twinloaf.ember"
	ColorNight   fyne.ThemeColorName = "twinloaf.night"
	ColorWash    fyne.ThemeColorName = "twinloaf.wash"
	ColorVeil    fyne.ThemeColorName = "twinloaf.veil"
	ColorFocus   fyne.ThemeColorName = "twinloaf.focus"
	ColorDough   fyne.ThemeColorName = "twinloaf.dough"
	ColorRest    fyne.ThemeColorName = "twinloaf.rest"
)

const seriesPrefix = "twinloaf.series"

// ColorSeries names the colour of the data series with index i (from 0). After
// the sixth they begin again: double them by a shape and a label.
func ColorSeries(i int) fyne.ThemeColorName {
	n := len(Palette{}.Series)
	return fyne.ThemeColorName(seriesPrefix + strconv.Itoa(((i%n)+n)%n))
}

// Sizes of text, in Fyne's device-independent points.
const (
	TextSmall   float32 = 12 // units, origins, keys
	TextBody    float32 = 14 // nearly everything
	TextLead    float32 = 16 // a paragraph that opens a page
	TextLarge   float32 = 18 // the title of a part of a page
	TextTitle   float32 = 24 // a figure that matters
	TextHeading float32 = 32 // the state of things, once per page
	TextFigure  float32 = 56 // the one figure of a page: minutes to the next turn
	TextCode    float32 = 160
)

// Space gives a distance of n steps on the grid of four points.
func Space(n float32) float32 { return 4 * n }

// Radius is the roundness of a corner.
const Radius float32 = 6
