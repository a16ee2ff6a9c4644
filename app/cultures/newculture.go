package cultures

import (
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/ferment"
	"twinloaf/journal/histories"
	"twinloaf/journal/measure"
)

// birthDialog is a new culture being written down.
type birthDialog struct {
	env     *pages.Env
	birth   birth
	all     []*journal.Culture
	sheet   *kit.Dialog
	done    func(journal.ID)
	problem *kit.Text
	// rows that belong to some origins only
	when, mix, split fyne.CanvasObject
}

// newCulture opens the dialog for a new culture, split from another if parent is one.
func newCulture(env *pages.Env, parent journal.ID, done func(journal.ID)) *birthDialog {
	s := &birthDialog{env: env, done: done}
	var err error
	if s.all, err = journal.All[journal.Culture](env.Journal); err != nil {
		env.Fail(err)
		return s
	}
	var l *histories.CultureHistory
	if parent != "" {
		if l, err = histories.Of(env.Journal, parent); err != nil {
			env.Fail(err)
			return s
		}
	}
	s.birth = begin(l, env.Now())
	s.show()
	return s
}

func (s *birthDialog) show() {
	u, b := s.env.Units(), &s.birth
	words := []string{lang.L("from flour and water"), lang.L("one that I have")}
	if len(s.all) > 0 {
		words = append(words, lang.L("split from another"))
	}
	how := kit.NewSegments("", words, int(b.origin), func(i int) { b.origin = origin(i); s.arrange() })
	name := kit.NewTextField(lang.L("Name"), lang.L("what you call it"))
	name.OnChanged = func(t string) { b.name = t; s.problem.SetText("") }
	flours := kit.NewTextField(lang.L("Flours, with their shares"), lang.L("strong white 80, whole rye 20"))
	flours.SetText(b.flours)
	flours.OnChanged = func(t string) { b.flours = t }
	hydration := s.figure(lang.L("Hydration"), u.Percent(0), b.hydration, func(v float64) { b.hydration = v })
	usual := kit.NewQuantityField(kit.QuantityOptions{Label: lang.L("Temperature there"), Measure: u.Temperature(), Keep: func(v *float64) { b.usual = v }})
	if set, err := s.env.Journal.Settings(); err == nil && set.Kitchen != nil {
		b.usual = new(float64(*set.Kitchen))
		usual.SetValue(*b.usual)
	}
	home := kit.NewSegments(lang.L("Place"), homeLabels(), 0, func(i int) { b.home = homes()[i] })
	when := kit.NewWhenField(kit.WhenOptions{Label: lang.L("Begun"), Hint: lang.L("not known"), Units: u, Now: s.env.Now,
		OnChanged: func(t time.Time) { b.born = t }, OnCleared: func() { b.born = time.Time{} }})
	when.SetTime(b.born)
	sure := kit.NewSegments("", []string{lang.L("to the day"), lang.L("about")}, 0, func(i int) { b.about = i == 1 })
	s.when = kit.Row(6, when, sure)
	s.mix = kit.Columns(look.Space(24),
		s.figure(lang.L("Flour"), u.Weight(), b.flour, func(v float64) { b.flour = v }),
		s.figure(lang.L("Water"), u.Weight(), b.water, func(v float64) { b.water = v }))
	s.split = kit.Row(6, s.parentField(), s.figure(lang.L("Taken from it"), u.Weight(), b.split, func(v float64) { b.split = v }))
	s.problem = kit.NewText(kit.Span{Color: look.ColorEmber})
	s.sheet = kit.ShowDialog(s.env.Window, kit.DialogOptions{
		Title: lang.L("New culture"), Width: 640, Scroll: true, OnEnter: s.keep,
		Content: kit.Stack(4, how, name, s.when, s.split, s.mix, kit.Rule(),
			kit.WeightedColumns(look.Space(24), []float32{3, 1}, flours, hydration), home, usual, s.problem),
		Buttons: []fyne.CanvasObject{kit.PrimaryButton(lang.L("Begin"), s.keep).WithKey(lang.L("Enter"))},
		Keys:    []kit.Key{{Name: "N", Do: name.Focus}},
		Aside:   kit.Small(u.Say(ferment.RawFlour())),
	})
	s.arrange()
	s.env.Window.Canvas().Focus(name.Entry()) // the field is not drawn yet, and knows no canvas
}

func (s *birthDialog) figure(label string, m measure.Measure, v float64, set func(float64)) *kit.QuantityField {
	f := kit.NewQuantityField(kit.QuantityOptions{Label: label, Measure: m, Keep: func(v *float64) { set(max(0, kit.OrZero(v))) }})
	if v > 0 {
		f.SetValue(v)
	}
	return f
}

func (s *birthDialog) parentField() *kit.ChoiceField {
	var names []string
	for _, c := range s.all {
		names = append(names, nameOf(c))
	}
	f := kit.NewChoiceField(lang.L("Split from"), lang.L("choose"), names, func(i int) { s.birth.parent = s.all[i].ID })
	f.SetChosen(slices.IndexFunc(s.all, func(c *journal.Culture) bool { return c.ID == s.birth.parent }))
	return f
}

// arrange shows the rows that belong to the origin.
func (s *birthDialog) arrange() {
	o := s.birth.origin
	kit.SetVisible(s.when, o == already)
	kit.SetVisible(s.split, o == splitOff)
	kit.SetVisible(s.mix, o != already)
	s.sheet.Refresh()
}

// keep writes the culture down and goes to it.
func (s *birthDialog) keep() {
	if s.sheet == nil || !s.sheet.Ready() {
		return
	}
	now := s.env.Now()
	if words := s.birth.problem(now); words != "" {
		s.problem.SetText(words)
		s.sheet.Refresh()
		return
	}
	var parent *histories.CultureHistory
	if s.birth.origin == splitOff {
		var err error
		if parent, err = histories.Of(s.env.Journal, s.birth.parent); err != nil {
			s.env.Fail(err)
			return
		}
		if s.env.Failed(histories.Barred(s.env.Journal, s.birth.parent, now)) {
			return
		}
		before, known := parent.Jar(now)
		if words, ends := (takeForm{grams: s.birth.split}).words(before, known, s.env.Units()); ends {
			kit.ConfirmLoss(s.env.Window, lang.L("Keep nothing back?"), words, lang.L("Take it all"), func() { s.write(parent, now) })
			return
		}
	}
	s.write(parent, now)
}

func (s *birthDialog) write(parent *histories.CultureHistory, now time.Time) {
	var id journal.ID
	ok := s.env.Do(lang.L("beginning {{.Name}}", map[string]any{"Name": s.birth.name}), func(tx *journal.Tx) (err error) {
		id, err = s.birth.write(tx, now, journal.FreeMark(s.all), parent)
		return err
	})
	if ok {
		s.sheet.Close()
		s.done(id)
	}
}
