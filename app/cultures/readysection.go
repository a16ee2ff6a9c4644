package cultures

import (
	"errors"
	"math"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/journal"
	"twinloaf/journal/ferment"
	"twinloaf/journal/limit"
	"twinloaf/journal/measure"
	"twinloaf/journal/say"
)

// readySection lists the conditions of readiness, each with its verdict, and the
// thresholds, which can be changed in place.
type readySection struct {
	page *culturePage
	box  *fyne.Container
	list *fyne.Container

	rise, within, inARow, age *kit.QuantityField
}

func newReadySection(p *culturePage) *readySection {
	r := &readySection{page: p, list: kit.Hanging()}
	u := p.env.Units()
	r.rise = r.threshold(lang.L("Rises to"), u.Times(), kit.NonZero(func(t *journal.Thresholds) *float64 { return &t.Rise }, 1))
	r.within = r.threshold(lang.L("within"), u.Number("h", 1).In(limit.Hours), kit.NonZero(func(t *journal.Thresholds) *time.Duration { return &t.Within }, time.Hour))
	r.inARow = r.threshold(lang.L("feedings in a row"), u.Number("", 0).In(limit.Count), kit.NonZero(func(t *journal.Thresholds) *int { return &t.Feedings }, 1))
	r.age = r.threshold(lang.L("days of age"), u.Number("", 1).In(limit.Days), kit.NonZero(func(t *journal.Thresholds) *time.Duration { return &t.MinAge }, 24*time.Hour))
	r.box = kit.Stack(3, kit.Section(lang.L("Ready to bake with?")), r.list,
		kit.Columns(look.Space(18), r.rise, r.within, r.inARow, r.age),
		kit.Small(lang.L("The thresholds are common practice, no source; change them to your own.")),
		kit.Small(u.Say(say.Of("The hours are those at {{.Temp}}; where it stands cooler it is given longer, at the rate of growth there (published, approximate).",
			say.With{"Temp": say.Celsius(ferment.ThresholdTemp, 0)}))))
	return r
}

// threshold is a field on one of the culture's thresholds; emptied, the usual figure
// stands again.
func (r *readySection) threshold(label string, m measure.Measure, bound kit.Bound[journal.Thresholds]) *kit.QuantityField {
	nought := func(text string) (float64, bool, error) {
		v, err := m.Parse(text)
		return 0, err == nil && v == 0, errors.New(lang.L("This must be more than 0."))
	}
	return kit.NewQuantityField(kit.QuantityOptions{Label: label, Measure: m, Instead: nought, Keep: func(v *float64) {
		r.page.env.Fail(journal.Edit(r.page.env.Journal, r.page.id, lang.L("when it counts as ready"), func(c *journal.Culture) { bound.Set(&c.Ready, v) }))
	}})
}

func (r *readySection) show(p *portrait) {
	th := p.life.Thresholds()
	r.rise.SetValue(float64(th.Rise))
	r.within.SetValue(th.Within.Hours())
	r.inARow.SetValue(float64(th.InARow))
	r.age.SetValue(th.MinAge.Hours() / 24)
	u := r.page.env.Units()
	r.list.Objects = nil
	for _, c := range p.ready.Conditions {
		word, color := verdictWord(c.Verdict)
		r.list.Add(kit.NewLine(kit.Span{Text: word, Bold: true, Color: color}))
		r.list.Add(kit.Body(conditionWords(c, p, u)))
	}
	r.box.Refresh()
}

// verdictWord says whether a condition is met.
func verdictWord(v ferment.Verdict) (string, fyne.ThemeColorName) {
	switch v {
	case ferment.Met:
		return lang.L("met"), look.ColorField
	case ferment.NotMet:
		return lang.L("not yet"), look.ColorInk
	}
	return lang.L("not known"), look.ColorFaint
}

// conditionWords say what a condition is and what the record shows of it.
func conditionWords(c ferment.Condition, p *portrait, u measure.Units) string {
	th := p.life.Thresholds()
	data := map[string]any{
		"Rise": u.Times().Write(float64(th.Rise)), "Hours": u.FormatNumber(th.Within.Hours(), 1),
		"Have": u.FormatNumber(c.Have, 0), "Want": u.FormatNumber(c.Want, 0),
	}
	switch c.Code {
	case ferment.ConditionSafe:
		if c.Verdict == ferment.NotMet {
			return lang.L("Mould, or pink or orange, was noted.")
		}
		if !p.life.Culture.Cleared.IsZero() {
			return lang.L("No mould and no pink or orange has been noted since you said that it was something else.")
		}
		return lang.L("No mould and no pink or orange has been noted.")
	case ferment.ConditionRises:
		if c.Verdict == ferment.Unknown {
			return lang.L("No feeding has been read long enough to see whether it rises to {{.Rise}} within {{.Hours}} h.", data)
		}
		return lang.L("Rises to {{.Rise}} within {{.Hours}} h: {{.Have}} of {{.Want}} feedings in a row that were read long enough.", data)
	case ferment.ConditionAge:
		if c.Verdict == ferment.Unknown {
			return lang.L("Its age is not known.")
		}
		data["Want"] = u.FormatNumber(c.Want, 1)
		return lang.N("{{.Have}} days old ({{.Want}} needed).", int(math.Round(c.Have)), data)
	case ferment.ConditionAcid:
		if c.Titrated {
			data["Have"], data["Want"] = u.FormatNumber(c.Have, 1), u.FormatNumber(c.Want, 1)
			return lang.L("Its acidity came to {{.Have}} ml per 10 g; {{.Want}} would be four fifths of what its feedings that rose in time came to.", data)
		}
		data["Have"], data["Want"] = u.FormatNumber(c.Have, 2), u.FormatNumber(c.Want, 1)
		return lang.L("It came down to pH {{.Have}}; a ripe culture comes to {{.Want}} or below (common practice, no source).", data)
	}
	if len(c.Evidence) == 0 {
		return lang.L("No smell has been noted.")
	}
	for _, r := range p.life.Readings {
		if string(r.ID) == c.Evidence[0] {
			data["Smell"], data["When"] = smellsText(r.Smells), u.When(r.At, p.now)
		}
	}
	return lang.L("Smelled {{.Smell}}, {{.When}}; it should be sour, fruity or milky.", data)
}
