package cultures

import (
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/journal/ferment"
	"twinloaf/journal/measure"
)

// A planLine is one line of a plan: when, and what to do.
type planLine struct{ when, words string }

// planWords say a plan line by line.
func planWords(b ferment.Build, now time.Time, u measure.Units) []planLine {
	words := u.SayAll(b.Words())
	var out []planLine
	for i, s := range b.Steps {
		out = append(out, planLine{u.When(s.At, now), words[i]})
	}
	return append(out, planLine{u.When(b.RipeAt, now), words[len(words)-1]})
}

// nearestWords offer what can be had instead.
func nearestWords(n ferment.Nearest, now time.Time, u measure.Units) string {
	return lang.L("{{.Amount}} can be ripe {{.When}} at {{.Temp}}", map[string]any{
		"Amount": grams(u, n.Amount), "When": clockAt(n.RipeAt, now, u), "Temp": u.Celsius(n.Temp)})
}
