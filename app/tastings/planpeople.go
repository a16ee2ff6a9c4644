package tastings

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/journal/blind"
	"twinloaf/journal/limit"
)

// people asks who plates, who tastes, and how often.
func (v *planSection) people() fyne.CanvasObject {
	mode := 0
	if v.plan.Mode == blind.Alone {
		mode = 1
	}
	who := kit.NewSegments("", []string{lang.L("a helper who does not taste"), lang.L("the taster, alone")}, mode, func(i int) {
		v.change(lang.L("who plates"), func(p *blind.Plan) {
			p.Mode = blind.WithHelper
			if i == 1 {
				p.Mode = blind.Alone
				p.Tasters = slices.Clone(p.Tasters[:min(1, len(p.Tasters))])
				p.KeyOnPaper = false
			}
		})
	})
	v.who = kit.NewTextField("", lang.L("a name"))
	v.who.OnDone = v.addTaster
	if v.plan.Mode == blind.WithHelper {
		v.who.OnEnter(func() { v.addTaster(v.who.Text()) }) // and stays, for the next name
	}
	rounds := kit.NewQuantityField(kit.QuantityOptions{
		Measure: v.p.env.Units().Number("", 0).In(limit.Count), Large: true,
		Keep: func(n *float64) {
			if n != nil {
				v.change(lang.L("rounds"), func(p *blind.Plan) { p.Rounds = int(*n) })
			}
		},
	})
	v.sync = append(v.sync, func() { rounds.SetValue(float64(v.plan.Rounds)) })
	part := kit.Stack(2, kit.Section(lang.L("Who plates?")), who, kit.Gap(1), kit.Section(lang.L("Who tastes?")), v.tasters)
	if v.plan.Mode == blind.WithHelper || len(v.plan.Tasters) == 0 {
		part.Add(v.who)
	}
	part.Add(kit.Gap(1))
	part.Add(kit.Section(lang.L("How many rounds each?")))
	part.Add(kit.Row(4, kit.Width(look.Space(16), rounds), kit.Small(roundBites(v.plan))))
	if v.plan.Mode == blind.WithHelper {
		part.Add(kit.Gap(1))
		part.Add(kit.Section(lang.L("Where is the key of the seal?")))
		key := kit.NewSegments("", []string{lang.L("in this journal"), lang.L("on the helper's paper")}, 0, func(i int) {
			v.change(lang.L("where the key is"), func(p *blind.Plan) { p.KeyOnPaper = i == 1 })
		})
		part.Add(key)
		v.sync = append(v.sync, func() {
			at := 0
			if v.plan.KeyOnPaper {
				at = 1
			}
			key.SetChosen(at)
		})
		part.Add(kit.Small(lang.L("With the key in the journal, somebody with a copy of its folder could look without a trace. On the helper's paper it is a code of ten letters and digits, typed in to unseal; if the paper is lost, the tasting can only be ended.")))
	}
	return part
}

// roundBites says what a round asks of a taster.
func roundBites(p blind.Plan) string {
	n := p.Method.Samples()
	if p.Method.HasReference() {
		n++
	}
	return lang.L("A round is {{.N}} bites with a pause between them.", map[string]any{"N": n})
}

// addTaster takes names that were typed, one or several with commas.
func (v *planSection) addTaster(text string) {
	add := func(p *blind.Plan) {
		for name := range strings.SplitSeq(text, ",") {
			if name = strings.TrimSpace(name); name != "" && !slices.Contains(p.Tasters, name) {
				p.Tasters = append(slices.Clone(p.Tasters), name)
			}
		}
	}
	v.who.Empty()
	after := v.plan
	if add(&after); len(after.Tasters) != len(v.plan.Tasters) {
		v.change(lang.L("tasters"), add) // to whoever is in the plan by then
	}
}

// showTasters writes the tasters, each with a way to take them off.
func (v *planSection) showTasters() {
	v.tasters.Objects = nil
	for _, name := range v.plan.Tasters {
		v.tasters.Add(kit.NewPill(name, func() {
			v.change(lang.L("tasters"), func(p *blind.Plan) {
				p.Tasters = slices.DeleteFunc(slices.Clone(p.Tasters), func(s string) bool { return s == name })
			})
		}))
	}
	if len(v.plan.Tasters) == 0 {
		v.tasters.Add(kit.NewLine(kit.Span{Text: lang.L("nobody yet"), Color: look.ColorFaint}))
	}
	v.tasters.Refresh()
	v.form.Refresh() // it may have another height
}
