package tastings

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/journal/blind"
)

// roundGuide are the steps of laying out the plates of one round, alone. What
// comes after the tasting is told when the round is handed in.
func roundGuide(p blind.Plan) []blind.GuideStep {
	out := slices.DeleteFunc(blind.Guide(p), func(s blind.GuideStep) bool { return !s.EachRound })
	// The last two are tasting itself, and keeping the slips.
	return out[:max(0, len(out)-2)]
}

// laying reports whether plates are still to be laid out before this step.
func (p *scorePage) laying(step blind.Turn) bool {
	if p.plan.Mode != blind.Alone || step.Sample > 0 || step.Phase == blind.PhaseAllergens || step.Phase == blind.PhaseAnswer || step.Phase == blind.PhaseDone {
		return false
	}
	if p.laidRound != step.Round {
		p.laid, p.laidRound = 0, step.Round
	}
	return p.laid < len(roundGuide(p.plan))
}

// showLaying tells one step of laying out the plates of a round.
func (p *scorePage) showLaying(step blind.Turn) {
	guide := roundGuide(p.plan)
	g := guide[p.laid]
	column := kit.Stack(5)
	if p.laid == 0 && step.Round > 0 {
		column.Add(kit.Lead(kit.Span{Text: lang.L("First slide each folded slip of the last round out without opening it, into an envelope or cup marked with the round and the place."), Color: look.ColorFaint}))
	}
	column.Add(guideText(p.env.Units().Say(g.Title), p.env.Units().Say(g.Words)))
	if p.laid == 0 {
		slips := slices.Clone(step.Serving.Slips)
		slices.Sort(slips) // in an order that says nothing
		column.Add(kit.Lead(kit.Span{Text: lang.L("The slips of this round: {{.Slips}}. Your list says which loaf goes with which.", map[string]any{"Slips": listed(slips)})}))
		if step.Serving.OpenReference > 0 {
			column.Add(kit.Lead(kit.Span{Text: lang.L("The reference is {{.Loaf}}.", map[string]any{"Loaf": p.plan.Loaves[step.Serving.OpenReference-1].Name}), Bold: true}))
		}
	}
	if g.EyesShut {
		column.Add(kit.Strong(lang.L("With your eyes shut.")))
	}
	next := func() { p.laid++; p.refresh() }
	words := lang.L("Done")
	if p.laid == len(guide)-1 {
		words = lang.L("The plates are out")
	}
	hint := kit.Row(3,
		kit.NewLine(kit.Span{Text: lang.L("Step {{.N}} of {{.Of}}", map[string]any{"N": p.laid + 1, "Of": len(guide)}), Color: look.ColorFaint}))
	if p.laid > 0 {
		hint.Add(kit.NewButton(lang.L("Back"), func() { p.laid--; p.refresh() }))
	} else {
		hint.Add(kit.NewButton(lang.L("They are out already"), func() { p.laid = len(guide); p.refresh() }))
	}
	p.put(p.roundWords(step), column, p.wayOut(hint), kit.InkButton(words, next))
}

// showSlips asks for the codes found under the plates of one round, after the
// last score.
func (p *scorePage) showSlips(round int) {
	serving, _ := p.session.Setting().Serving(0, round)
	found := make([]string, len(serving.Samples))
	act := kit.InkButton(lang.L("Enter them"), nil)
	column := kit.Stack(6, kit.Heading(lang.L("Turn over the slips of round {{.N}}", map[string]any{"N": round + 1})),
		kit.Lead(kit.Span{Text: lang.L("Open the slips of this round and say which code lay under which plate.")}))
	slips := slices.Clone(serving.Slips)
	slices.Sort(slips)
	rows := make([][]*choicePlate, len(found))
	show := func() {
		for i, row := range rows {
			for k, c := range row {
				c.choose(found[i] == slips[k])
			}
		}
		kit.SetEnabled(act, !slices.Contains(found, ""))
	}
	for i, place := range serving.Samples {
		line := kit.Row(3, kit.Width(120, kit.NewLine(kit.Span{Text: label(place), Size: look.TextTitle, Serif: true})))
		for _, code := range slips {
			c := newChoicePlate(code, false, 72, func() {
				for k := range found {
					if found[k] == code {
						found[k] = "" // a slip lies under one plate
					}
				}
				found[i] = code
				show()
			})
			rows[i] = append(rows[i], c)
			line.Add(c)
		}
		column.Add(line)
	}
	show()
	act.OnTapped = func() {
		p.step(func(s *blind.Session) error { return s.EnterSlips(round, found...) })
	}
	wanted := len(p.session.SlipsWanted())
	p.put(lang.N("{{.N}} rounds to turn over", wanted, map[string]any{"N": wanted}), column,
		kit.Faint(lang.L("A slip that was entered wrongly can no longer be changed after unsealing.")), act)
}

// listed writes words one after another.
func listed(words []string) string {
	last := len(words) - 1
	if last < 1 {
		return strings.Join(words, "")
	}
	return lang.L("{{.Some}} and {{.Last}}", map[string]any{"Some": strings.Join(words[:last], ", "), "Last": words[last]})
}
