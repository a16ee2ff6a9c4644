package crumb

import (
	"fmt"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/journal"
	"twinloaf/journal/crumb"
	"twinloaf/journal/measure"
)

// A pairRow is one measure of two photos side by side.
type pairRow struct {
	name, unit string
	a, b       string
	change     string
	verdict    string
	tip        string
	known      bool // both figures' uncertainties are known
	stands     bool // the difference is larger than retaking would give
}

// withheld says that there is a figure of neither.
func (r pairRow) withheld() bool { return r.a == lang.L("withheld") && r.b == lang.L("withheld") }

// pairRows lays two summaries side by side.
func pairRows(a, b crumb.Summary, retakes [][]crumb.Summary, u measure.Units) []pairRow {
	var out []pairRow
	for _, d := range crumb.Compare(a, b, retakes...) {
		def, ok := crumb.Define(d.ID)
		if !ok {
			continue
		}
		r := pairRow{name: lang.L(def.Name), a: cellOf(def, d.A, u), b: cellOf(def, d.B, u), change: nothing,
			verdict: verdictWord(d), tip: definition(def) + "\n\n" + u.Say(d.Why), known: d.Apart > 0, stands: d.Verdict == crumb.Differs}
		if a.Relative == b.Relative {
			r.unit = unitWord(def, a.Relative)
		}
		if d.A.Trust != crumb.Withheld && d.B.Trust != crumb.Withheld && comparable(def, a, b) {
			r.change = signed(def, change(d), u)
		}
		if d.Limit > 0 {
			r.tip += "\n\n" + lang.L("Retaking the photo moves it by up to {{.Limit}}, 19 times in 20.", map[string]any{"Limit": writeUncertainty(def, d.Limit, 1, u)})
		}
		if d.Apart > 0 {
			r.tip += "\n\n" + lang.L("The uncertainties of both figures together, added as independent ones are, come to {{.Limit}}.", map[string]any{"Limit": writeUncertainty(def, d.Apart, 1, u)})
		}
		out = append(out, r)
	}
	return out
}

// comparable tells whether two figures are in one unit.
func comparable(def crumb.Definition, a, b crumb.Summary) bool {
	return a.Relative == b.Relative || def.RelativeUnit == "" && def.ID != crumb.SmallToLarge && def.ID != crumb.LargeShare
}

// change is how much greater b is; crumb.Compare works it out only where it may be
// judged.
func change(d crumb.Difference) float64 {
	if d.Change != 0 || d.ID == crumb.Direction {
		return d.Change
	}
	return d.B.Value - d.A.Value
}

func cellOf(def crumb.Definition, f crumb.Measurement, u measure.Units) string {
	switch f.Trust {
	case crumb.Withheld:
		return lang.L("withheld")
	case crumb.Doubtful:
		return lang.L("{{.Figure}} (doubtful)", map[string]any{"Figure": writeMeasured(def, f, u)})
	}
	return writeMeasured(def, f, u)
}

func signed(def crumb.Definition, v float64, u measure.Units) string {
	words := writeFigure(def, math.Abs(v), u)
	switch {
	case words == "0":
		return "0"
	case v < 0:
		return "−" + words
	}
	return "+" + words
}

func verdictWord(d crumb.Difference) string {
	switch d.Verdict {
	case crumb.Differs:
		if d.Limit == 0 {
			return lang.L("larger than the uncertainty")
		}
		return lang.L("larger than retaking would give")
	case crumb.Alike:
		return lang.L("no larger than retaking would give")
	}
	return lang.L("cannot tell")
}

// pairHeading says what the two photos tell.
func pairHeading(rows []pairRow, a, b crumb.Summary, retakes int) string {
	differ, judged, known := 0, 0, 0
	for _, r := range rows {
		if r.known {
			known++
		}
		if r.stands {
			differ++
		}
		if r.stands || r.verdict == lang.L("no larger than retaking would give") {
			judged++
		}
	}
	switch {
	case a.Measured(crumb.Porosity).Trust == crumb.Withheld && b.Measured(crumb.Porosity).Trust == crumb.Withheld:
		return lang.L("Neither photo can be measured")
	case a.Sensitivity != b.Sensitivity:
		return lang.L("Taken at two sensitivities, they cannot be compared")
	case differ > 0 && retakes == 0:
		return lang.L("{{.N}} of {{.All}} figures differ beyond their uncertainty", map[string]any{"N": differ, "All": known})
	case judged == 0 && retakes == 0:
		return lang.L("Without retakes one cannot tell")
	case judged == 0:
		return lang.L("One cannot tell whether they differ")
	case differ == 0:
		return lang.L("No difference larger than a retake would give")
	}
	return lang.L("{{.N}} of {{.All}} figures differ by more than a retake would", map[string]any{"N": differ, "All": judged})
}

// sameSlice tells whether two photos are noted as showing one slice.
func sameSlice(a, b *journal.Photo) bool {
	x, y := sliceOf(a).Same, sliceOf(b).Same
	return x != "" && (x == b.ID || x == y) || y != "" && y == a.ID
}

// retakesAside leaves the two photos at hand out when they show one slice: a
// difference judged by itself would never stand out.
func retakeWords(n int, same bool) string {
	switch {
	case same:
		return lang.L("These two show one slice: their differences are what retaking a photo gives.")
	case n == 0:
		return lang.L("Judged by the figures' own uncertainties. Photograph one slice twice or three times, each time anew, and say so with A: then it is judged by what retaking changes.")
	case n == 1:
		return lang.L("Judged by one slice that was photographed again.")
	}
	return lang.L("Judged by {{.N}} slices that were photographed again.", map[string]any{"N": n})
}

// evenScale gives the zooms at which a millimetre is as long on the screen in both
// views; 1 and 1 where that is not known. room and full are the sizes of a view and
// of its picture, perMM the pixels to a millimetre.
func evenScale(room [2]fyne.Size, full [2]fyne.Size, perMM [2]float64) [2]float64 {
	var points [2]float64 // to a millimetre, when the picture is seen whole
	for i := range 2 {
		fit := math.Min(float64(room[i].Width/full[i].Width), float64(room[i].Height/full[i].Height))
		points[i] = fit * perMM[i]
		if !(points[i] > 0) || math.IsInf(points[i], 0) {
			return [2]float64{1, 1}
		}
	}
	most := math.Max(points[0], points[1])
	return [2]float64{most / points[0], most / points[1]}
}

// letter names the two photos.
func letter(i int) string { return fmt.Sprintf("%c", 'A'+i) }
