package cultures

import (
	"time"

	"fyne.io/fyne/v2"

	"twinloaf/app/look"
	"twinloaf/journal/measure"
)

// minute is how often a page looks at the clock.
const minute = time.Minute

// millimetres is the face of a height in a jar: a length of a few centimetres that is
// read to the millimetre, by whoever does not think in inches.
func millimetres(u measure.Units) measure.Measure {
	if u.Ounces {
		return u.Length()
	}
	m := u.Length()
	m.Unit = "mm"
	m.Format = func(v float64) string { return u.FormatNumber(v, 1) }
	parse := u.Number("mm", 1).Parse
	m.Parse = func(text string) (float64, error) {
		if v, err := parse(text); err == nil {
			return v, nil
		}
		return u.Length().Parse(text)
	}
	return m
}

// thumbSize is that of a jar among others.
func thumbSize() fyne.Size { return fyne.NewSize(look.Space(22), look.Space(18)) }
