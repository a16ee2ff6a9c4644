package cultures

import (
	"reflect"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/ferment"
	"twinloaf/journal/formula"
	"twinloaf/journal/histories"
	"twinloaf/journal/limit"
	"twinloaf/journal/measure"
)

// readDialog is a reading being written down. Each of its keys sets the cursor in a
// field or notes a sign at once, so that a reading takes two keys: R, and its own.
type readDialog struct {
	env   *pages.Env
	life  *histories.CultureHistory
	form  *readForm
	began journal.Reading // as it was when the dialog was opened
	sheet *kit.Dialog

	height        *kit.TextField
	start         *kit.QuantityField
	when          *kit.WhenField
	meaning       *kit.Text
	bubbles       *kit.Segments
	smells        []*kit.Pill
	signs         map[ferment.Sign]*kit.Pill
	trends        map[ferment.Trend]*kit.Pill
	cautions      *kit.Text
	acidity       *kit.Text
	temp, ph      *kit.QuantityField
	photo         *kit.Text
	stopPreparing func()
}

// read opens the dialog for a new reading.
func read(env *pages.Env, l *histories.CultureHistory) *readDialog {
	s := &readDialog{env: env, life: l, form: &readForm{rec: journal.Reading{Culture: l.Culture.ID, At: env.Now()}}}
	s.show(lang.L("Check on {{.Name}}", map[string]any{"Name": nameOf(l.Culture)}))
	return s
}

// reread opens the dialog on a reading that was written down before.
func reread(env *pages.Env, l *histories.CultureHistory, r *journal.Reading) *readDialog {
	s := &readDialog{env: env, life: l, form: &readForm{rec: *r}}
	s.show(lang.L("The reading of {{.When}}", map[string]any{"When": env.Units().Moment(r.At, env.Now())}))
	return s
}

func (s *readDialog) show(title string) {
	s.form.feeding, s.stopPreparing = lastFeeding(s.life, s.form.rec.At), func() {}
	s.began = s.form.rec
	content := kit.Stack(4,
		s.heightPart(),
		kit.Rule(),
		s.lookPart(),
		kit.Rule(),
		s.measuredPart(),
	)
	s.sheet = kit.ShowDialog(s.env.Window, kit.DialogOptions{
		Title: title, Content: content, Width: 760, Scroll: true, Buttons: keepButtons(lang.L("Save"), s.keep, s.form.rec.ID != "", s.bin), OnEnter: s.keep, Keys: s.keys(), Holds: s.holds,
		Aside:    kit.Small(lang.L("Never taste a culture to judge it.")),
		OnClosed: func() { s.stopPreparing() },
	})
	s.changed()
}

// holds says whether anything was noted since the dialog was opened, by its keys too.
func (s *readDialog) holds() bool {
	return !reflect.DeepEqual(s.form.rec, s.began) || s.form.startMM != nil || s.form.picture != nil
}

// keys are those that work while no field is being typed in.
func (s *readDialog) keys() []kit.Key {
	keys := []kit.Key{
		{Name: "H", Do: s.height.Focus},
		{Name: "T", Do: s.temp.Focus},
		{Name: "A", Do: s.ph.Focus},
		{Name: "L", Do: func() { s.sign(ferment.SignGreyLiquid) }},
		{Name: "M", Do: func() { s.sign(ferment.SignMould) }},
		{Name: "P", Do: func() { s.sign(ferment.SignPinkOrange) }},
		{Name: "J", Do: s.pickPhoto},
	}
	for t, key := range trendKeys {
		keys = append(keys, kit.Key{Name: key, Do: func() { s.trend(t) }})
	}
	for i := range bubbleWords() {
		keys = append(keys, kit.Key{Name: string(rune('0' + i)), Do: func() { s.bubble(i) }})
	}
	for i, smell := range ferment.Smells() {
		keys = append(keys, kit.Key{Name: smellKeys[i], Do: func() { s.smell(i, smell) }})
	}
	return keys
}

// smellKeys are those of the smells, in the order of their scale.
var smellKeys = [...]string{"N", "Y", "F", "S", "V", "O"}

// trend notes which way the level is going, or that again as not noted.
func (s *readDialog) trend(t ferment.Trend) {
	if s.form.rec.Trend == string(t) {
		t = ferment.TrendUnnoted
	}
	s.form.rec.Trend = string(t)
	s.changed()
}

// trendKeys are those of the trends.
var trendKeys = map[ferment.Trend]string{ferment.TrendRising: "R", ferment.TrendTop: "I", ferment.TrendFallen: "D"}

func trendsOffered() []ferment.Trend {
	return []ferment.Trend{ferment.TrendRising, ferment.TrendTop, ferment.TrendFallen}
}

// trendWord says which way a level goes.
func trendWord(t ferment.Trend) string {
	switch t {
	case ferment.TrendRising:
		return lang.L("still rising")
	case ferment.TrendTop:
		return lang.L("about at its highest")
	case ferment.TrendFallen:
		return lang.L("already falling")
	}
	return ""
}

func (s *readDialog) heightPart() fyne.CanvasObject {
	u := s.env.Units()
	s.height = kit.NewTextField(lang.L("Height (H)"), lang.L("1.8, 80 % or 92 mm"))
	s.height.SetText(s.form.heightText(u))
	s.height.OnChanged = func(text string) {
		if err := s.form.setHeight(text, u); err != nil {
			s.height.SetProblem(u.ErrorText(err))
			return
		}
		s.height.SetProblem("")
		s.changed()
	}
	s.start = kit.NewQuantityField(kit.QuantityOptions{Label: lang.L("At the mark"), Measure: millimetres(u),
		Keep: func(v *float64) {
			s.form.startMM = v
			s.changed()
		}})
	s.showMark()
	s.when = whenField(s.env, &s.form.rec.At, func() {
		s.form.feeding = lastFeeding(s.life, s.form.rec.At)
		s.showMark()
		s.changed()
	})
	s.meaning = kit.Small("")
	s.photo = kit.Small("")
	s.trends = map[ferment.Trend]*kit.Pill{}
	trends := kit.Flow(1.5)
	for _, t := range trendsOffered() {
		pill := kit.NewChoicePill(trendWord(t)+" · "+trendKeys[t], s.form.rec.Trend == string(t), func() { s.trend(t) })
		s.trends[t] = pill
		trends.Add(pill)
	}
	return kit.Stack(2, kit.Columns(look.Space(30), s.height, s.start, s.when), s.meaning, kit.AfterLabel(labelColumn, lang.L("The level"), trends),
		kit.Row(3, kit.NewButton(lang.L("Measure on a photo"), s.pickPhoto).WithKey("J"), s.photo))
}

// showMark shows the height of the mark that the reading is read against.
func (s *readDialog) showMark() {
	if mm, ok := s.form.mark(); ok {
		s.start.SetValue(mm)
	} else {
		s.start.Clear()
	}
}

// labelColumn is the width of the labels before the choices of the sheet.
var labelColumn = look.Space(27)

func (s *readDialog) lookPart() fyne.CanvasObject {
	chosen := -1
	if b := s.form.rec.Bubbles; b != nil {
		chosen = *b
	}
	s.bubbles = kit.NewSegments("", bubbleWords(), chosen, s.bubble)
	smells := kit.Flow(1.5)
	for i, smell := range ferment.Smells() {
		pill := kit.NewChoicePill(smellPill(smell, smellKeys[i], 0), false, nil)
		pill.OnTapped = func() { s.smell(i, smell) }
		s.smells = append(s.smells, pill)
		smells.Add(pill)
	}
	s.signs = map[ferment.Sign]*kit.Pill{}
	signs := kit.Flow(1.5)
	for _, x := range []struct {
		sign ferment.Sign
		word string
	}{
		{ferment.SignGreyLiquid, lang.L("liquid on top · L")},
		{ferment.SignMould, lang.L("mould · M")},
		{ferment.SignPinkOrange, lang.L("pink or orange · P")},
	} {
		pill := kit.NewChoicePill(x.word, false, func() { s.sign(x.sign) })
		s.signs[x.sign] = pill
		signs.Add(pill)
	}
	s.cautions = kit.NewText(kit.Span{Color: look.ColorEmber, Bold: true})
	return kit.Stack(2.5, s.cautions, kit.AfterLabel(labelColumn, lang.L("Bubbles (0 to 4)"), s.bubbles),
		kit.AfterLabel(labelColumn, lang.L("Smell"), kit.Stack(1.5, smells, kit.Small(lang.L("Tap a smell again for clear and strong.")))),
		kit.AfterLabel(labelColumn, lang.L("Signs"), signs))
}

// smellPill is the word on the pill of a smell with its strength.
func smellPill(smell ferment.Smell, key string, strength int) string {
	word := smellWord(smell)
	if strength > 0 {
		word = smellsText(map[string]int{string(smell): strength})
	}
	return word + " · " + key
}

func (s *readDialog) measuredPart() fyne.CanvasObject {
	u := s.env.Units()
	r := &s.form.rec
	field := func(label string, m measure.Measure, bound kit.Bound[journal.Reading]) *kit.QuantityField {
		f := kit.NewQuantityField(kit.QuantityOptions{Label: label, Measure: m,
			Keep: func(v *float64) { bound.Set(r, v); s.changed() }})
		f.Set(bound.Get(r))
		return f
	}
	s.temp = field(lang.L("Temperature (T)"), u.Temperature(), kit.Optional(func(r *journal.Reading) **formula.Celsius { return &r.Temp }))
	s.ph = field(lang.L("pH (A)"), u.Number("", 2).In(limit.PH), kit.Optional(func(r *journal.Reading) **float64 { return &r.PH }))
	tta := field(lang.L("Titrated, 0.1 M NaOH"), u.Number("ml", 1).In(limit.Volume), kit.Optional(func(r *journal.Reading) **float64 { return &r.TTA }))
	sample := field(lang.L("of a sample of"), u.Number("g", 1).In(limit.Weight), kit.Optional(func(r *journal.Reading) **formula.Grams { return &r.TTASampleG }))
	end := field(lang.L("to pH"), u.Number("", 1).In(limit.PH), kit.Optional(func(r *journal.Reading) **float64 { return &r.TTAEndPH }))
	s.acidity = kit.Small("")
	titration := kit.Stack(3, kit.Columns(look.Space(22), tta, sample, end),
		kit.Small(lang.L("Sodium hydroxide burns skin and eyes from a strength of 2 % (Regulation (EC) 1272/2008, Annex VI); 0.1 M has 0.4 %, and is made from stronger. Wear gloves and goggles, and keep it away from children.")))
	titrate := kit.NewLink(lang.L("Write down a titration"), nil)
	unfold := func(open bool) {
		kit.SetVisible(titration, open)
		kit.SetVisible(titrate, !open)
	}
	titrate.OnTapped = func() {
		unfold(true)
		s.sheet.Refresh()
		tta.Focus()
	}
	unfold(r.TTA != nil || r.TTASampleG != nil || r.TTAEndPH != nil)
	return kit.Stack(3, kit.Columns(look.Space(22), s.temp, s.ph, kit.Gap(0)), s.acidity, titrate, titration, noteField(&r.Note))
}

func (s *readDialog) bubble(i int) {
	s.form.rec.Bubbles = new(i)
	s.bubbles.SetChosen(i)
}

func (s *readDialog) smell(i int, smell ferment.Smell) {
	s.form.toggleSmell(smell)
	s.changed()
}

func (s *readDialog) sign(sign ferment.Sign) {
	r := &s.form.rec
	switch sign {
	case ferment.SignMould:
		r.Mould = !r.Mould
	case ferment.SignPinkOrange:
		r.Tint = !r.Tint
	default:
		r.Liquid = !r.Liquid
	}
	s.changed()
}
