package crumb

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/pages"
	"twinloaf/app/past"
	"twinloaf/journal/crumb"
	"twinloaf/journal/measure"
)

// A row is one measure as the baker reads it.
type row struct {
	id          crumb.MeasureID
	name        string
	value, unit string
	mark        string // why it is not to be taken as it stands
	tip         string // what it means, how it is worked out, where that was published
	trust       crumb.Trust
}

// label is the measure's name, marked where it is not to be taken as it stands.
func (r row) label() string {
	if r.mark == "" {
		return r.name
	}
	return r.name + " · " + r.mark
}

// nothing stands for a figure that is withheld.
const nothing = "–"

// rowsOf lists every measure of a summary, in the order of the definitions.
func rowsOf(s crumb.Summary, u measure.Units) []row {
	defs := crumb.Definitions()
	out := make([]row, len(defs))
	for i, d := range defs {
		f := s.Measured(d.ID)
		r := row{id: d.ID, name: lang.L(d.Name), trust: f.Trust, value: nothing, mark: trustWord(f.Trust), tip: definition(d)}
		if f.Trust != crumb.Withheld {
			r.value, r.unit = writeMeasured(d, f, places(d, f), u), unitWord(d, s.Relative)
		}
		if f.Off > 0 {
			r.tip += "\n\n" + lang.L("± says within what the true figure lay in at least nine of ten drawn slices as clear as this photo.")
		}
		for _, why := range reasons(s, d.ID, u) {
			r.tip += "\n\n" + why
		}
		out[i] = r
	}
	return out
}

// trustWord marks what is not to be taken as it stands.
func trustWord(t crumb.Trust) string {
	switch t {
	case crumb.Doubtful:
		return lang.L("doubtful")
	case crumb.Withheld:
		return lang.L("withheld")
	}
	return ""
}

// inUnit gives a figure in the unit that it is read in, a share in per cent, and its
// sensible figures after the point.
func inUnit(d crumb.Definition, v float64) (float64, int) {
	if d.Share {
		return 100 * v, d.Decimals - 2
	}
	return v, d.Decimals
}

func writeFigure(d crumb.Definition, v float64, u measure.Units) string {
	return u.FormatNumber(inUnit(d, v))
}

// writeUncertainty writes an uncertainty with some figures more than its measure has.
func writeUncertainty(d crumb.Definition, v float64, more int, u measure.Units) string {
	v, decimals := inUnit(d, v)
	return pages.Uncertainty(v, decimals+more, u)
}

// places is how many figures after the point are given: those that are sensible for the
// measure, or what the uncertainty leaves of them.
func places(d crumb.Definition, f crumb.Measurement) int {
	off, decimals := inUnit(d, f.Off)
	if off > 0 {
		return pages.Places(off, decimals)
	}
	return decimals
}

// writeMeasured writes a figure with its uncertainty. What is a bound says so.
func writeMeasured(d crumb.Definition, f crumb.Measurement, decimals int, u measure.Units) string {
	v, _ := inUnit(d, f.Value)
	off, _ := inUnit(d, f.Off)
	switch {
	case d.ID == crumb.SureVoids:
		return "≥ " + u.FixedNumber(v, decimals)
	case off > 0:
		return pages.WithUncertainty(v, off, decimals, u)
	}
	return u.FixedNumber(v, decimals)
}

// unitWord is the unit of a figure taken with or without a true length.
func unitWord(d crumb.Definition, relative bool) string {
	if d.Share {
		return "%"
	}
	unit := d.BesideFigure(relative)
	if unit == "" {
		return ""
	}
	return lang.L(unit)
}

// definition tells what a measure means, how it is worked out and where it was
// published.
func definition(d crumb.Definition) string {
	return lang.L(d.Means) + "\n\n" + lang.L(d.Defined) + "\n\n" + lang.L("Source: {{.Source}}", map[string]any{"Source": lang.L(d.Source)})
}

// reasons are the sentences of the flags that touch a measure.
func reasons(s crumb.Summary, id crumb.MeasureID, u measure.Units) []string {
	var out []string
	for _, f := range s.Flags {
		if len(f.Affects) == 0 || slices.Contains(f.Affects, id) {
			out = append(out, u.Say(f.Line()))
		}
	}
	return out
}

// A fault is what is wrong with a photo, and what follows from it.
type fault struct {
	severity crumb.Trust
	reason   string
	follows  string
	do       string // what helps the next time; empty where another of its kind said it
}

// faultsOf lists what is wrong with a photo, the worst first.
func faultsOf(s crumb.Summary, u measure.Units) []fault {
	var stop, doubt []fault
	told := map[crumb.FlagKind]bool{}
	for _, f := range s.Flags {
		one := fault{severity: f.Severity, reason: u.Say(f.Line()), follows: follows(f)}
		if do := f.Do(); !told[f.Kind] && !do.IsZero() {
			one.do, told[f.Kind] = u.Say(do), true
		}
		if f.Severity == crumb.Withheld {
			stop = append(stop, one)
		} else {
			doubt = append(doubt, one)
		}
	}
	return append(stop, doubt...)
}

func follows(f crumb.Flag) string {
	if crumb.AllButTexture(f.Affects) {
		if f.Severity == crumb.Withheld {
			return lang.L("All figures but the texture's are withheld.")
		}
		return lang.L("All figures but the texture's are doubtful.")
	}
	if len(f.Affects) == 0 {
		if f.Severity == crumb.Withheld {
			return lang.L("All figures are withheld.")
		}
		return lang.L("All figures are doubtful.")
	}
	var names []string
	for _, id := range f.Affects {
		if d, ok := crumb.Define(id); ok {
			names = append(names, past.InSentence(lang.L(d.Name)))
		}
	}
	what := map[string]any{"Figures": strings.Join(names, ", ")}
	if f.Severity == crumb.Withheld {
		return lang.L("Withheld: {{.Figures}}.", what)
	}
	return lang.L("Doubtful: {{.Figures}}.", what)
}

// heading says in words what came of measuring.
func heading(s crumb.Summary, u measure.Units) string {
	for _, f := range s.Flags {
		if f.Kind == crumb.NotFound {
			return lang.L("The slice was not found: draw its outline")
		}
	}
	open, density := s.Measured(crumb.Porosity), s.Measured(crumb.CellDensity)
	if open.Trust == crumb.Withheld {
		if s.Measured(crumb.CorrelationMM).Trust != crumb.Withheld {
			return lang.L("The cells cannot be told apart, only the texture")
		}
		return lang.L("This photo cannot be measured")
	}
	cells := u.FormatNumber(density.Value, 0)
	if density.Off > 0 {
		d, _ := crumb.Define(crumb.CellDensity)
		cells = writeMeasured(d, density, places(d, density), u)
	}
	what := map[string]any{"Share": pages.OpenShare(open, u), "Cells": strings.ReplaceAll(cells, " ", "\u00a0")}
	doubtful := open.Trust == crumb.Doubtful
	switch {
	case density.Trust == crumb.Withheld || s.Relative:
		if doubtful {
			return lang.L("Perhaps {{.Share}} % open", what)
		}
		return lang.L("{{.Share}} % open", what)
	case doubtful:
		return lang.L("Perhaps {{.Share}} % open, {{.Cells}}\u00a0cells/cm²", what)
	}
	return lang.L("{{.Share}} % open, {{.Cells}}\u00a0cells/cm²", what)
}

// taken says at which setting the figures were taken.
func taken(s crumb.Summary, u measure.Units) string {
	words := []string{lang.L("Sensitivity {{.Setting}}", map[string]any{"Setting": settingWord(s.Sensitivity, u)})}
	if s.Counted > 0 {
		words = append(words, lang.N("{{.N}} cells", s.Counted, map[string]any{"N": s.Counted}))
	}
	if s.Relative {
		words = append(words, lang.L("no true length: sizes are shares of the slice's width"))
	} else {
		words = append(words, lang.L("{{.N}} pixels to the mm", map[string]any{"N": u.FormatNumber(s.PxPerMM, 1)}))
	}
	if s.Straightened {
		words = append(words, lang.L("straightened by four corners"))
	}
	if s.Corrected > 0 {
		words = append(words, lang.N("{{.N}} corrections by hand", s.Corrected, map[string]any{"N": s.Corrected}))
	}
	switch {
	case s.FoundByItself:
		words = append(words, lang.L("slice found by itself"))
	case s.Chosen:
		words = append(words, lang.L("slice found, and chosen by hand"))
	default:
		words = append(words, lang.L("outline drawn by hand"))
	}
	return strings.Join(append(words, lang.L("version {{.N}} of the method", map[string]any{"N": s.Method})), " · ")
}

// settingWord writes a sensitivity: 0 is the program's own.
func settingWord(v float64, u measure.Units) string {
	switch {
	case v == 0:
		return lang.L("normal")
	case v > 0:
		return "+" + u.FormatNumber(v, 1)
	}
	return "−" + u.FormatNumber(-v, 1)
}

// nudged says what another sensitivity changed; nothing where it is the same.
func nudged(before, after crumb.Summary, u measure.Units) string {
	if before.Sensitivity == after.Sensitivity {
		return ""
	}
	open, _ := crumb.Define(crumb.Porosity)
	a, b := before.Measured(crumb.Porosity), after.Measured(crumb.Porosity)
	what := map[string]any{"From": signedSetting(before.Sensitivity, u), "To": signedSetting(after.Sensitivity, u),
		"OpenA": writeFigure(open, a.Value, u), "OpenB": writeFigure(open, b.Value, u), "A": before.Counted, "B": after.Counted}
	if a.Trust == crumb.Withheld || b.Trust == crumb.Withheld {
		return lang.L("At {{.To}} rather than {{.From}}: {{.B}} cells rather than {{.A}}.", what)
	}
	return lang.L("At {{.To}} rather than {{.From}}: open area {{.OpenB}} % rather than {{.OpenA}} %, {{.B}} cells rather than {{.A}}.", what)
}

// signedSetting writes a sensitivity as a number.
func signedSetting(v float64, u measure.Units) string {
	if v == 0 {
		return "0"
	}
	return settingWord(v, u)
}

// step is how far one nudge goes.
const step = 0.1

// nudge moves a sensitivity by steps, within what there is.
func nudge(v float64, steps int) float64 {
	n := int(v/step+0.5*sign(v)) + steps
	return float64(max(-10, min(10, n))) / 10
}

func sign(v float64) float64 {
	if v < 0 {
		return -1
	}
	return 1
}

// cellWords says how large a cell is.
func cellWords(c crumb.Cell, number int, s crumb.Summary, u measure.Units) string {
	area, _ := crumb.Define(crumb.MeanArea)
	width, _ := crumb.Define(crumb.MeanDiameter)
	words := lang.L("Cell {{.N}}: {{.Area}} {{.AreaUnit}}, as wide as a circle of {{.Width}} {{.WidthUnit}}", map[string]any{
		"N": number, "Area": u.FormatNumber(c.Area, 2), "AreaUnit": unitWord(area, s.Relative),
		"Width": u.FormatNumber(c.Diameter, 2), "WidthUnit": unitWord(width, s.Relative)})
	switch {
	case c.AtEdge:
		words += " · " + lang.L("cut by the crumb's edge: counted half, its whole size not known")
	case c.AddIn:
		words += " · " + lang.L("coloured unlike the crumb: perhaps no cell")
	}
	return words
}

// fitnessHead says how far the photo is fit for measuring; what is wrong stands below it.
func fitnessHead(s crumb.Summary) string {
	switch fit, _ := s.Fitness(); fit {
	case crumb.Fit:
		return lang.L("This photo is fit for measuring.")
	case crumb.FitInPart:
		return lang.L("This photo is fit for measuring in part.")
	}
	return lang.L("This photo is not fit for measuring.")
}
