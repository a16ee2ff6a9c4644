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
	said       crumb.Verdict
	counts     bool // neither figure is doubtful, and something tells how far such figures may be trusted
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
		// One number of figures after the point, so that the difference is what is read.
		decimals := min(places(def, d.A), places(def, d.B))
		r := pairRow{name: lang.L(def.Name), a: cellOf(def, d.A, decimals, u), b: cellOf(def, d.B, decimals, u), change: nothing,
			verdict: verdictWord(d), tip: definition(def) + "\n\n" + u.Say(d.Why), said: d.Verdict,
			counts: (d.Apart > 0 || d.Limit > 0) && !d.Doubtful(), stands: d.Verdict == crumb.Differs}
		if a.Relative == b.Relative {
			r.unit = unitWord(def, a.Relative)
		}
		if d.A.Trust != crumb.Withheld && d.B.Trust != crumb.Withheld && comparable(def, a, b) {
			r.change = signed(def, change(d), decimals, u)
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

// unjudged takes away what is thought of the differences.
func unjudged(rows []pairRow) {
	for i := range rows {
		rows[i].verdict, rows[i].tip, rows[i].stands = "", "", false
	}
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

func cellOf(def crumb.Definition, f crumb.Measurement, decimals int, u measure.Units) string {
	switch f.Trust {
	case crumb.Withheld:
		return lang.L("withheld")
	case crumb.Doubtful:
		return lang.L("{{.Figure}} (doubtful)", map[string]any{"Figure": writeMeasured(def, f, decimals, u)})
	}
	return writeMeasured(def, f, decimals, u)
}

func signed(def crumb.Definition, v float64, decimals int, u measure.Units) string {
	v, _ = inUnit(def, v)
	words, zero := u.FixedNumber(math.Abs(v), decimals), u.FixedNumber(0, decimals)
	switch {
	case words == zero:
		return zero
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
	case crumb.Perhaps:
		switch {
		case math.Abs(d.Change) <= d.Apart:
			return lang.L("larger than a retake, within the uncertainty")
		case d.Limit == 0:
			return lang.L("larger than the uncertainty, but doubtful")
		}
		return lang.L("larger than a retake, but doubtful")
	case crumb.Alike:
		return lang.L("no larger than retaking would give")
	}
	return lang.L("cannot tell")
}

// pairHeading says what the two photos tell. Doubtful figures do not count.
func pairHeading(rows []pairRow, a, b crumb.Summary, retakes int) string {
	differ, perhaps, alike, all := 0, 0, 0, 0
	for _, r := range rows {
		if r.counts {
			all++
		}
		switch r.said {
		case crumb.Differs:
			differ++
		case crumb.Perhaps:
			perhaps++
		case crumb.Alike:
			alike++
		}
	}
	switch {
	case a.Measured(crumb.Porosity).Trust == crumb.Withheld && b.Measured(crumb.Porosity).Trust == crumb.Withheld:
		return lang.L("Neither photo can be measured")
	case a.Sensitivity != b.Sensitivity:
		return lang.L("Taken at two sensitivities, they cannot be compared")
	case differ > 0 && retakes == 0:
		return lang.L("{{.N}} of {{.All}} figures differ beyond their uncertainty", map[string]any{"N": differ, "All": all})
	case differ > 0:
		return lang.L("{{.N}} of {{.All}} figures differ by more than a retake would", map[string]any{"N": differ, "All": all})
	case perhaps > 0:
		return lang.L("No difference is sure")
	case alike > 0:
		return lang.L("No difference larger than a retake would give")
	case retakes == 0:
		return lang.L("Without retakes one cannot tell")
	}
	return lang.L("One cannot tell whether they differ")
}

// sameSlice tells whether two photos are noted as showing one slice.
func sameSlice(a, b *journal.Photo) bool {
	x, y := sliceOf(a).Same, sliceOf(b).Same
	return x != "" && (x == b.ID || x == y) || y != "" && y == a.ID
}

// retakeWords says what the differences are judged by.
func retakeWords(n int, same bool) string {
	switch {
	case same:
		return lang.L("These two show one slice: their differences are what retaking a photo gives.")
	case n == 0:
		return lang.L("Judged by the figures' own uncertainties. Photograph one slice twice or three times, each time anew, and say so with A: then it is judged by what retaking changes, too.")
	case n == 1:
		return lang.L("Judged by one slice that was photographed again, and by the figures' own uncertainties; one that is doubtful does not count.")
	}
	return lang.L("Judged by {{.N}} slices that were photographed again, and by the figures' own uncertainties; one that is doubtful does not count.", map[string]any{"N": n})
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
