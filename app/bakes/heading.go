package bakes

import (
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/past"
	"twinloaf/journal"
	"twinloaf/journal/measure"
)

// readHeading says which bake it is that is read, and how it came out: what is read has no
// field for its name.
func readHeading(b *journal.Bake) string {
	data := map[string]any{"Name": past.Name(b.Name), "Score": b.Overall()}
	if b.Overall() > 0 {
		return lang.L("{{.Name}}: {{.Score}} out of 9", data)
	}
	return lang.L("{{.Name}}: how did it come out?", data)
}

// bakeHeading says how far a bake has come, which is what to do next.
func bakeHeading(b *journal.Bake, empty bool, u measure.Units, now time.Time) string {
	when := map[string]any{"When": u.When(b.At, now)}
	score, loss := b.Overall(), b.Outcome.BakeLoss()
	switch {
	case b.InBin():
		return lang.L("This bake is in the bin")
	case b.State == journal.Planned:
		return lang.L("Planned: {{.When}}", when)
	case b.State == journal.Running:
		return lang.L("Under way since {{.When}}", when)
	case empty:
		return lang.L("What goes in?")
	case score > 0 && loss != nil:
		return lang.L("{{.Score}} out of 9, bake loss {{.Loss}} %", map[string]any{
			"Score": score, "Loss": u.FormatNumber(float64(*loss), 1)})
	case score > 0:
		return lang.L("{{.Score}} out of 9", map[string]any{"Score": score})
	case len(b.Ingredients) == 0 && len(b.Levains) == 0:
		return lang.L("What went in?")
	}
	return lang.L("How did it come out?")
}

// bakeEyebrow stands above the heading: the day of the bake.
func bakeEyebrow(b *journal.Bake, u measure.Units, now time.Time) string {
	at := b.At.In(now.Location())
	return lang.L("Bake, {{.Weekday}} {{.Day}}", map[string]any{"Weekday": lang.L(at.Weekday().String()), "Day": u.Day(at, now)})
}
