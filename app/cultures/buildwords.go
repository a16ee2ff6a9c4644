package cultures

import (
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/journal/ferment"
)

// A planLine is one line of a plan: when, and what to do.
type planLine struct{ when, words string }

// planWords say a plan line by line.
func planWords(b ferment.Build, now time.Time, u kit.Units) []planLine {
	var out []planLine
	for _, s := range b.Steps {
		data := map[string]any{
			"Keep": grams(u, float64(s.Kept)), "Flour": grams(u, float64(s.Flour)), "Water": grams(u, float64(s.Water)), "Total": grams(u, float64(s.Total())),
			"Off": grams(u, float64(s.ThrowAway)),
		}
		words := lang.L("Keep {{.Keep}}, add {{.Flour}} flour and {{.Water}} water; there will be {{.Total}}.", data)
		if s.ThrowAway >= 0.5 {
			words = joined(words, lang.L("{{.Off}} come off first: bake with them or throw them away.", data))
		}
		out = append(out, planLine{u.When(s.At, now), words})
	}
	data := map[string]any{"Amount": grams(u, float64(b.Amount)), "Back": grams(u, float64(b.KeepBack))}
	last := planLine{u.When(b.RipeAt, now), lang.L("Ripe. Take {{.Amount}} and keep {{.Back}} back.", data)}
	if b.KeepBack <= 0 {
		last.words = lang.L("Ripe. Take {{.Amount}}. Nothing is kept back: keep a piece of the culture elsewhere.", data)
	}
	return append(out, last)
}

// planRests says what the hours of a plan rest on.
func planRests(b ferment.Build, u kit.Units) string {
	data := map[string]any{"N": b.Feedings, "Off": grams(u, float64(b.ThrowAway))}
	if b.Feedings == 0 {
		return lang.L("Guessing from published rates, approximate: no feeding of this culture has been followed to its peak. {{.Off}} are thrown away in all.", data)
	}
	return lang.L("From its own past feedings ({{.N}}), approximate. {{.Off}} are thrown away in all.", data)
}

// nearestWords offer what can be had instead.
func nearestWords(n ferment.Nearest, now time.Time, u kit.Units) string {
	return lang.L("{{.Amount}} ripe {{.When}} at {{.Temp}} can be had", map[string]any{
		"Amount": grams(u, float64(n.Amount)), "When": clockAt(n.RipeAt, now, u), "Temp": u.Temperature().Write(float64(n.Temp))})
}
