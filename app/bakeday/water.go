package bakeday

import (
	"cmp"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/dough"
	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/measure"
)

// learned is what earlier doughs say about friction.
type learned struct {
	formula.LearnedFriction
	known   bool
	kitchen formula.Kitchen // the same by weight
	water   *formula.Absorption
}

// learn asks every bake but one for its temperatures.
func learn(j journal.Source, but journal.ID) (learned, error) {
	bakes, err := journal.All[journal.Bake](j)
	if err != nil {
		return learned{}, err
	}
	var doughs []formula.MixedDough
	var weighed []formula.Measured
	for _, b := range bakes {
		if d, ok := b.MixedDough(); ok && b.ID != but {
			doughs = append(doughs, d)
		}
		if m, ok := b.Measured(); ok && b.ID != but {
			weighed = append(weighed, m)
		}
	}
	f, ok := formula.LearnFriction(doughs)
	wet, err := journal.WetDoughs(j)
	return learned{f, ok, formula.LearnKitchen(weighed), formula.LearnAbsorption(wet)}, err
}

// waterAdvice is what the water panel says.
type waterAdvice struct {
	// Water is the temperature to pour it at; nil while something is not known.
	Water *formula.Celsius
	// From says what it was worked out from.
	From string
	// Ice says how much of the water is ice; empty when none is needed.
	Ice string
	// Caution says why not to pour water like that; empty when one may.
	Caution string
}

// atKitchen fills up what was not measured: the room is as the kitchen usually is, and
// flour and levain are as warm as the room.
func atKitchen(w journal.WaterPlan, kitchen *formula.Celsius, levain bool) (filled journal.WaterPlan, all bool) {
	all = w.Room != nil && w.Flour != nil && (w.Levain != nil || !levain)
	w.Room = cmp.Or(w.Room, kitchen)
	w.Flour = cmp.Or(w.Flour, w.Room)
	if levain {
		w.Levain = cmp.Or(w.Levain, w.Room)
	}
	return w, all
}

// asKitchen says what was taken for what was not measured.
func asKitchen() string {
	return lang.L("Anything not measured is taken to be as warm as your kitchen.")
}

// adviseWater works out the water for a plan by the rule; levain says that there is one in
// the dough. What was not measured is taken to be as warm as the kitchen, and said.
func adviseWater(w journal.WaterPlan, levain bool, kitchen *formula.Celsius, l learned, water formula.Grams, u measure.Units) waterAdvice {
	t := func(c formula.Celsius) string { return u.Temperature().Write(math.Round(float64(c)*10) / 10) }
	if w.Wanted == nil {
		return waterAdvice{From: lang.L("Say how warm the dough should be.")}
	}
	w, all := atKitchen(w, kitchen, levain)
	if w.Flour == nil || w.Room == nil {
		return waterAdvice{From: lang.L("Say how warm the flour and the room are, or set your kitchen's usual temperature in the settings.")}
	}
	factors := w.Factors(levain)
	friction, words := frictionOf(w, l, u)
	water0 := formula.WaterTemperature(*w.Wanted, factors, friction)
	n, sum := 3, t(*w.Flour)+", "+t(*w.Room)
	if factors.HasLevain {
		n, sum = 4, sum+", "+t(factors.Levain)
	}
	out := waterAdvice{Water: &water0, From: lang.L("{{.N}} × {{.Wanted}}, minus {{.Sum}}, minus {{.Friction}}.", map[string]any{
		"N": n, "Wanted": t(*w.Wanted), "Sum": sum, "Friction": words})}
	if !all {
		out.From += " " + asKitchen()
	}
	out.Caution = u.Say(formula.CheckWater(water0).Line())
	if w.Tap != nil {
		out.Ice = iceWords(water, *w.Tap, water0, u)
	}
	return out
}

// byWeight works the water out anew by a balance of heat, where the weights are known and
// the baker has not set a friction. The rule's answer is told beside it.
func byWeight(a waterAdvice, b *journal.Bake, kitchen *formula.Celsius, l learned, u measure.Units) waterAdvice {
	bowl, w := b.Dough().Bowl(), b.Water
	if a.Water == nil || !bowl.Known() || w.Friction != nil {
		return a
	}
	w, all := atKitchen(w, kitchen, bowl.HasLevain())
	bowl.LevainAt = *w.Room
	if w.Levain != nil {
		bowl.LevainAt = *w.Levain
	}
	bowl.RoomAt, bowl.FlourAt = *w.Room, *w.Flour
	water := l.kitchen.WaterFor(bowl, *w.Wanted)
	t := func(c formula.Celsius) string { return u.Temperature().Write(math.Round(float64(c)*10) / 10) }
	data := map[string]any{"Rule": t(*a.Water), "N": l.kitchen.Doughs, "Off": u.Warmer().Write(float64(l.kitchen.Off))}
	out := waterAdvice{Water: &water, Caution: u.Say(formula.CheckWater(water).Line())}
	out.From = lang.L("Worked out from weights and temperatures, with a usual kitchen's figures for what mixing does.", data)
	if l.kitchen.Doughs > 0 {
		out.From = lang.L("Worked out from weights and temperatures, and from what mixing did to {{.N}} of your doughs; a dough strays by about {{.Off}}.", data)
	}
	out.From += " " + lang.L("The bakers' rule, which looks at temperatures alone, says {{.Rule}}.", data)
	if !all {
		out.From += " " + asKitchen()
	}
	if w.Tap != nil {
		out.Ice = iceWords(poured(dough.SideOf(b).Mix), *w.Tap, water, u)
	}
	return out
}

// frictionOf is the friction reckoned with, and where it comes from.
func frictionOf(w journal.WaterPlan, l learned, u measure.Units) (formula.CelsiusDiff, string) {
	switch {
	case w.Friction != nil:
		f := formula.CelsiusDiff(*w.Friction)
		return f, lang.L("{{.Diff}} friction (yours)", map[string]any{"Diff": u.Warmer().Write(float64(f))})
	case l.known:
		return l.Median, lang.N("{{.Diff}} of friction, learned from {{.N}} doughs", l.Doughs, map[string]any{"Diff": u.Warmer().Write(float64(l.Median)), "N": l.Doughs})
	}
	return 0, lang.L("no friction (none known yet)")
}

func iceWords(water formula.Grams, tap, wanted formula.Celsius, u measure.Units) string {
	iced, err := formula.Ice(water, tap, max(0, wanted))
	if err != nil {
		return ""
	}
	g := func(w formula.Grams) string { return u.Weight().Write(math.Round(float64(w))) }
	switch {
	case iced.Ice <= 0 && wanted > tap+0.5:
		return lang.L("Warmer than your tap water: heat it.")
	case iced.Ice < 0.5:
		return lang.L("As it comes from the tap.")
	}
	return lang.L("Tap water is too warm: use {{.Ice}} of ice and {{.Water}} of tap water.", map[string]any{"Ice": g(iced.Ice), "Water": g(iced.Water)})
}

// poured is the water that is weighed for the final dough.
func poured(m dough.Mix) formula.Grams {
	var sum formula.Grams
	for _, in := range m.Ingredients {
		if in.Role == formula.Water {
			sum += in.Grams
		}
	}
	return sum
}

// waterPanel asks for the temperatures and says what water to pour.
type waterPanel struct {
	object fyne.CanvasObject
	edit   func(label string, change func(*journal.WaterPlan))
	units  measure.Units

	fill                []func(*journal.WaterPlan)
	water               *kit.Readout
	from, ice, cautions *kit.Text
}

func newWaterPanel(u measure.Units, edit func(string, func(*journal.WaterPlan))) *waterPanel {
	w := &waterPanel{units: u, edit: edit, from: kit.Faint(""), ice: kit.Body(""),
		cautions: kit.NewText(kit.Span{Color: look.ColorEmber})}
	w.water = kit.NewReadout(lang.L("Water"), true)
	row := kit.Tiles(look.Space(32), 6)
	add := func(label, derived string, m measure.Measure, of func(*journal.WaterPlan) **formula.Celsius) {
		bound := kit.Optional(of)
		f := kit.NewQuantityField(kit.QuantityOptions{Label: label, Derived: derived, Measure: m,
			Keep: func(v *float64) { edit(label, func(w *journal.WaterPlan) { bound.Set(w, v) }) }})
		w.fill = append(w.fill, func(p *journal.WaterPlan) { f.Set(bound.Get(p)) })
		row.Add(f)
	}
	t := u.Temperature()
	add(lang.L("Target dough temperature"), lang.L("How warm the dough should be right after mixing. Usual: 24 to 27 °C, 75 to 80 °F, for wheat (common practice, no source)."), t,
		func(w *journal.WaterPlan) **formula.Celsius { return &w.Wanted })
	add(lang.L("Flour"), "", t, func(w *journal.WaterPlan) **formula.Celsius { return &w.Flour })
	add(lang.L("Room"), "", t, func(w *journal.WaterPlan) **formula.Celsius { return &w.Room })
	add(lang.L("Levain"), lang.L("With a levain the rule has four temperatures, without one three."), t, func(w *journal.WaterPlan) **formula.Celsius { return &w.Levain })
	add(lang.L("Tap"), lang.L("The cold tap, let run. It tells whether ice is needed."), t, func(w *journal.WaterPlan) **formula.Celsius { return &w.Tap })
	add(lang.L("Friction"), dough.Define(formula.FigureFriction, lang.L("Leave it empty to have it learned from your doughs.")), u.Warmer(),
		func(w *journal.WaterPlan) **formula.Celsius { return &w.Friction })
	add(lang.L("Water used"), lang.L("How warm the water was in the end."), t, func(w *journal.WaterPlan) **formula.Celsius { return &w.Water })
	add(lang.L("Actual dough temperature"), lang.L("Measured right after mixing."), t, func(w *journal.WaterPlan) **formula.Celsius { return &w.Dough })
	w.object = kit.Stack(2, kit.Section(lang.L("Water")), row, w.water, w.from, w.ice, w.cautions)
	return w
}

// show shows the temperatures and the advice.
func (w *waterPanel) show(p journal.WaterPlan, a waterAdvice) {
	for _, fill := range w.fill {
		fill(&p)
	}
	if t := w.units.Temperature(); a.Water != nil {
		w.water.Set(t.Format(math.Round(float64(*a.Water)*10)/10), t.Unit, "", a.From)
	} else {
		w.water.Set("–", "", "", "") // keeps its place until something is known
	}
	w.from.SetText(a.From)
	w.ice.Say(a.Ice)
	w.cautions.Say(a.Caution)
}
