package cultures

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
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

// whenField asks when something was, and tells each time that is understood; noteField asks for
// a few words on it.
func whenField(env *pages.Env, at *time.Time, then func()) *kit.WhenField {
	f := kit.NewWhenField(kit.WhenOptions{Label: lang.L("When"), Units: env.Units(), Now: env.Now, OnChanged: func(t time.Time) {
		*at = t
		then()
	}})
	f.SetTime(*at)
	return f
}

func noteField(note *string) *kit.TextField {
	f := kit.NewTextField(lang.L("Note"), lang.L("in a few words"))
	f.SetText(*note)
	f.OnChanged = func(text string) { *note = text }
	return f
}

// keepButtons are those of a dialog in which something is written down, or altered: then it
// can be deleted as well.
func keepButtons(yes string, keep func(), altered bool, bin func()) []fyne.CanvasObject {
	main := kit.PrimaryButton(yes, keep).WithKey(lang.L("Enter"))
	if altered {
		return []fyne.CanvasObject{kit.QuietButton(lang.L("Delete"), bin), main}
	}
	return []fyne.CanvasObject{main}
}
