package cultures

import (
	"slices"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/ferment"
	"twinloaf/journal/histories"
	"twinloaf/journal/measure"
)

// A takeForm is some of a culture being taken off without feeding it.
type takeForm struct {
	at    time.Time
	grams float64
	why   string // of journal's: baked, given, discarded
	note  string
}

// write puts the form into a record; left is what stays in the jar.
func (f takeForm) write(rec *journal.Feeding, before ferment.State) {
	rec.At, rec.Note, rec.Flour, rec.Water = f.at, f.note, 0, 0
	rec.Kept = before.Mix.Take(ferment.Grams(f.grams)).Left
	rec.Taken = takenFor(rec.Taken, f.grams, f.why)
}

// words say what stays, and warn when it is nothing.
func (f takeForm) words(before ferment.State, known bool, u measure.Units) (sentence string, ends bool) {
	if !known {
		return lang.L("No feeding tells how much is in the jar."), false
	}
	t := before.Mix.Take(ferment.Grams(f.grams))
	data := map[string]any{"Left": grams(u, t.Left), "Have": grams(u, before.Mix.Total()), "Short": grams(u, t.Short)}
	switch {
	case t.AllGone && t.Short > 1:
		return lang.L("Only {{.Have}} are in the jar by the record: {{.Short}} are missing, and nothing would be kept back.", data), true
	case t.AllGone:
		return lang.L("Everything is used up and nothing is kept back: the culture ends here. A spoonful is enough to go on with."), true
	}
	return lang.L("{{.Left}} of {{.Have}} stay in the jar.", data), false
}

// takeDialog is a taking being written down.
type takeDialog struct {
	env    *pages.Env
	life   *histories.CultureHistory
	form   takeForm
	before ferment.State
	known  bool
	edits  journal.ID
	sheet  *kit.Dialog
	amount *kit.QuantityField
	left   *kit.Text
}

func take(env *pages.Env, l *histories.CultureHistory) *takeDialog {
	s := &takeDialog{env: env, life: l, form: takeForm{at: env.Now(), why: journal.Baked}}
	s.show(lang.L("Take from {{.Name}}", map[string]any{"Name": nameOf(l.Culture)}), lang.L("Record it"))
	return s
}

// retake opens the dialog on a taking that was written down before.
func retake(env *pages.Env, l *histories.CultureHistory, f *journal.Feeding) *takeDialog {
	s := &takeDialog{env: env, life: l, edits: f.ID, form: takeForm{at: f.At, note: f.Note, why: journal.Discarded}}
	for _, t := range f.Taken {
		s.form.grams += float64(t.Grams)
		s.form.why = t.For
	}
	s.show(lang.L("Taken {{.When}}", map[string]any{"When": env.Units().Moment(f.At, env.Now())}), lang.L("Save"))
	return s
}

func (s *takeDialog) show(title, yes string) {
	u := s.env.Units()
	s.amount = kit.NewQuantityField(kit.QuantityOptions{Label: lang.L("How much"), Measure: u.Weight(), Large: true,
		Keep: func(v *float64) { s.form.grams = max(0, kit.OrZero(v)); s.changed() }})
	if s.form.grams > 0 {
		s.amount.SetValue(s.form.grams)
	}
	whys := []string{journal.Baked, journal.Given, journal.Discarded}
	chosen := max(0, slices.Index(whys, s.form.why))
	what := kit.NewSegments("", []string{lang.L("for a bake"), lang.L("given away"), lang.L("discarded")}, chosen, func(i int) { s.form.why = whys[i] })
	when := whenField(s.env, &s.form.at, s.changed)
	note := noteField(&s.form.note)
	s.left = kit.Body("")
	bin := func() { s.sheet.Close(); binFeeding(s.env, s.edits) }
	s.sheet = kit.ShowDialog(s.env.Window, kit.DialogOptions{Title: title, Buttons: keepButtons(yes, s.keep, s.edits != "", bin), OnEnter: s.keep, Width: 520,
		Content: kit.Stack(4, s.amount, what, s.left, kit.Columns(look.Space(30), when, note))})
	s.changed()
	s.env.Window.Canvas().Focus(s.amount.Entry()) // the field is not drawn yet, and knows no canvas
}

func (s *takeDialog) changed() {
	if s.sheet == nil {
		return
	}
	s.before, s.known = s.life.JarBut(s.edits, s.form.at)
	words, ends := s.form.words(s.before, s.known, s.env.Units())
	span := kit.Span{Text: words}
	if ends {
		span.Color = look.ColorEmber
	}
	s.left.SetSpans(span)
	s.sheet.Refresh()
}

// keep writes the taking down, after asking if the culture would end with it.
func (s *takeDialog) keep() {
	if s.sheet == nil || !s.sheet.Ready() {
		return
	}
	if s.form.grams <= 0 {
		s.left.SetText(lang.L("Say how much is taken."))
		s.sheet.Refresh()
		return
	}
	if words, ends := s.form.words(s.before, s.known, s.env.Units()); ends && s.edits == "" {
		kit.ConfirmLoss(s.env.Window, lang.L("Keep nothing back?"), words, lang.L("Take it all"), s.write)
		return
	}
	s.write()
}

func (s *takeDialog) write() {
	ok := s.env.Do(lang.L("taking from {{.Name}}", map[string]any{"Name": nameOf(s.life.Culture)}), func(tx *journal.Tx) error {
		if s.edits != "" {
			return journal.Change(tx, s.edits, func(f *journal.Feeding) { s.form.write(f, s.before) })
		}
		f := &journal.Feeding{Culture: s.life.Culture.ID}
		s.form.write(f, s.before)
		return journal.Put(tx, f)
	})
	if ok {
		s.sheet.Close()
		s.env.Say(lang.L("{{.G}} taken.", map[string]any{"G": grams(s.env.Units(), s.form.grams)}), true)
	}
}
