package charts

import (
	"math"
	"strings"
	"unicode"
	"unicode/utf8"

	"twinloaf/journal/say"
)

// Plain writes a number to four figures, but to whole ones at the coarsest and nine decimals
// at the finest, with the decimal mark of w; a dash stands for one that is not finite.
func (w Words) Plain(v float64) string {
	if !finite(v) {
		return "–"
	}
	if v == 0 {
		return "0"
	}
	places := 3 - int(math.Floor(math.Log10(math.Abs(v))))
	return w.Number(v, min(max(places, 0), 9))
}

// Percent writes a fraction of one in hundredths with the decimal mark of w.
func (w Words) Percent(v float64) string {
	if !finite(v) {
		return "–"
	}
	return w.Number(v*100, 1) + "\u00A0%"
}

// decimals writes numbers with the decimals a step between them needs.
func (w Words) decimals(step float64) func(float64) string {
	places := min(max(0, -int(math.Floor(math.Log10(step)+1e-9))), 12)
	return func(v float64) string { return w.Fixed(v, places) }
}

// value writes a value of the axis with its unit.
func (a Axis) value(v float64, w Words) string {
	switch {
	case !finite(v):
		return w.Say(say.Of("missing"))
	case a.Zone != nil:
		return w.moment(moment(v, a.Zone))
	case a.Names != nil && v >= 1 && int(v) <= len(a.Names):
		return a.Names[int(v)-1]
	}
	if a.Ratio {
		return w.Times(v)
	}
	return withUnit(a.format(w.Plain)(v), a.Unit)
}

// format is the axis' own way to write a value, or else the one given.
func (a Axis) format(otherwise func(float64) string) func(float64) string {
	if a.Format != nil {
		return a.Format
	}
	return otherwise
}

// place writes an X value as a reader would name it: "day of age 3".
func (a Axis) place(v float64, w Words) string {
	words := a.value(v, w)
	if a.Zone == nil && a.Unit == "" && a.Title != "" && len(a.Title) <= 24 && !strings.ContainsAny(a.Title, ",·(") {
		return w.Say(say.Of("{{.Axis}} {{.Value}}", say.With{"Axis": a.Title, "Value": words}))
	}
	return words
}

func withUnit(value, unit string) string {
	if unit == "" {
		return value
	}
	return value + "\u00A0" + unit
}

// sentence begins with a capital and ends with a full stop, or with what ends a
// sentence in its own script.
func sentence(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return ""
	}
	s = string(unicode.ToUpper(r)) + s[n:]
	if last, _ := utf8.DecodeLastRuneInString(s); !strings.ContainsRune(".!?。！？।", last) {
		s += "."
	}
	return s
}

// sentences puts what there is to say one after another.
func sentences(said ...string) string {
	var out []string
	for _, s := range said {
		if s != "" {
			out = append(out, sentence(s))
		}
	}
	return strings.Join(out, " ")
}
