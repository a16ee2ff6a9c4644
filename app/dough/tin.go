package dough

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/journal/formula"
	"twinloaf/journal/measure"
)

// tinDialog asks for a tin and a kind of bread, and makes each loaf as heavy as fits.
type tinDialog struct {
	scale *Scale
	units measure.Units

	tin   formula.Tin
	water float64 // that fills it, in grams; 0 when its measures are to count
	space float64 // millilitres for a gram of dough
	dough formula.TinDough
	ok    bool

	sheet  *kit.Dialog
	factor *kit.QuantityField
	result *kit.Text
}

func tinBreadWords() []string {
	words := map[formula.TinBread]string{
		formula.TinLidded:    lang.L("White, yeast, lid on"),
		formula.TinWhite:     lang.L("White, yeast, open tin"),
		formula.TinSourdough: lang.L("White sourdough"),
		formula.TinWhole:     lang.L("Wholegrain wheat or spelt"),
		formula.TinMixed:     lang.L("About half rye"),
		formula.TinRye:       lang.L("Rye"),
	}
	var out []string
	for _, b := range formula.TinBreads() {
		out = append(out, words[b])
	}
	return out
}

// askTin opens the dialog.
func askTin(win fyne.Window, s *Scale, u measure.Units) *tinDialog {
	t := &tinDialog{scale: s, units: u}
	field := func(label, derived string, m measure.Measure, set func(float64)) *kit.QuantityField {
		return kit.NewQuantityField(kit.QuantityOptions{Label: label, Measure: m, Derived: derived,
			Keep: func(v *float64) { set(kit.OrZero(v)); t.show() },
		})
	}
	length := field(lang.L("Length"), lang.L("Inside, at the rim. Of a round tin the diameter."), u.Length(), func(v float64) { t.tin.Length = v })
	width := field(lang.L("Width"), lang.L("Inside, at the rim. Left empty, the tin is round."), u.Length(), func(v float64) { t.tin.Width = v })
	depth := field(lang.L("Depth"), lang.L("Inside, from the rim straight down."), u.Length(), func(v float64) { t.tin.Depth = v })
	baseLength := field(lang.L("Base length"), lang.L("Left empty, as at the rim."), u.Length(), func(v float64) { t.tin.BaseLength = v })
	baseWidth := field(lang.L("Base width"), lang.L("Left empty, as at the rim."), u.Length(), func(v float64) { t.tin.BaseWidth = v })
	water := field(lang.L("Or the water that fills it"), lang.L("Stand the tin on the scale, fill it to the rim with water, and weigh the water. It counts before the measures."),
		u.Weight(), func(v float64) { t.water = v })
	breads := formula.TinBreads()
	t.space = breads[1].Space()
	t.factor = field(lang.L("Room for a gram of dough"), lang.L("The tin's volume over the weight of the dough. If a loaf of yours filled its tin well, take that one's figure."),
		u.Number("ml/g", 2), func(v float64) { t.space = v })
	t.factor.SetValue(t.space)
	kind := kit.NewChoiceField(lang.L("Kind of bread"), "", tinBreadWords(), func(i int) {
		t.space = breads[i].Space()
		t.factor.SetValue(t.space)
		t.show()
	})
	kind.SetChosen(1)
	t.result = kit.Body("")
	content := kit.Stack(4,
		kit.Columns(look.Space(24), length, width, depth), kit.Columns(look.Space(24), baseLength, baseWidth, water),
		kit.Columns(look.Space(40), kind, t.factor), t.result,
		kit.Small(lang.L("Leave the width empty for a round tin, and the base where its walls are straight. The factors are common practice, no source.")))
	t.sheet = kit.ShowDialog(win, kit.DialogOptions{Title: lang.L("Dough for a tin"), Content: content, OnEnter: t.use, Width: 620, Scroll: true, Passing: true,
		Buttons: []fyne.CanvasObject{kit.PrimaryButton(lang.L("Make each loaf that heavy"), t.use).WithKey(lang.L("Enter"))}})
	t.show()
	win.Canvas().Focus(length.Entry()) // the field is not drawn yet, and knows no canvas
	return t
}

// show says what fits into the tin.
func (t *tinDialog) show() {
	volume, err := formula.Millilitres(t.water), error(nil)
	if t.water == 0 {
		tin := t.tin
		tin.Round = tin.Width == 0
		volume, err = tin.Volume()
	}
	if err == nil {
		t.dough, err = formula.DoughFor(volume, t.space)
	}
	t.ok = err == nil
	words := lang.L("Measure the tin inside, or weigh the water that fills it.")
	if t.ok {
		g := func(g formula.Grams) string { return t.units.Weight().Write(math.Round(float64(g)/5) * 5) }
		words = lang.L("It holds {{.Volume}}: about {{.Dough}} of dough. Bakers would give it {{.Least}} to {{.Most}}.", map[string]any{
			"Volume": t.units.Volume().Write(float64(volume)), "Dough": g(t.dough.Grams), "Least": g(t.dough.Least), "Most": g(t.dough.Most)})
	}
	t.result.SetText(words)
	if t.sheet != nil {
		t.sheet.Refresh()
	}
}

// use makes each loaf as heavy as fits.
func (t *tinDialog) use() {
	if !t.ok || !t.sheet.Ready() {
		return
	}
	n, each := max(1, t.scale.holder.Mix().Loaves), formula.Grams(math.Round(float64(t.dough.Grams)/5)*5)
	change, err := t.scale.holder.Mix().scaled(func(f formula.Formula) (formula.Formula, error) { return f.ScaleToLoaves(n, each) })
	if err != nil {
		return // no dough yet that could be scaled
	}
	if t.scale.holder.Do(lang.L("dough for a tin"), change) {
		t.sheet.Close()
	}
}
