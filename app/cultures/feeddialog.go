package cultures

import (
	"errors"
	"strings"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/ferment"
	"twinloaf/journal/histories"
	"twinloaf/journal/measure"
)

// feedDialog is a feeding being written down, over the window.
type feedDialog struct {
	env    *pages.Env
	life   *histories.CultureHistory
	form   feedForm
	before ferment.State
	known  bool
	edits  journal.ID // the feeding that is altered, or none
	sheet  *kit.Dialog

	kept, flour, water *kit.QuantityField
	discarded          *kit.QuantityField
	ratio              *kit.TextField
	result, doubts     *kit.Text
	ownDiscard         bool // what is discarded was typed: it no longer follows
}

// feed opens the dialog for a new feeding.
func feed(env *pages.Env, l *histories.CultureHistory) *feedDialog {
	now := env.Now()
	s := &feedDialog{env: env, life: l, form: likeLast(l, now)}
	s.show(lang.L("Feed {{.Name}}", map[string]any{"Name": nameOf(l.Culture)}), lang.L("Feed"))
	return s
}

// refeed opens the dialog on a feeding that was written down before.
func refeed(env *pages.Env, l *histories.CultureHistory, f *journal.Feeding) *feedDialog {
	s := &feedDialog{env: env, life: l, form: formOf(f), edits: f.ID, ownDiscard: true}
	s.show(lang.L("The feeding of {{.When}}", map[string]any{"When": env.Units().Moment(f.At, env.Now())}), lang.L("Save"))
	return s
}

// figure makes a field on a figure of the form.
func (s *feedDialog) figure(label string, m measure.Measure, bound kit.Bound[feedForm]) *kit.QuantityField {
	f := kit.NewQuantityField(kit.QuantityOptions{Label: label, Measure: m,
		Keep: func(v *float64) { bound.Set(&s.form, v); s.changed() }})
	f.Set(bound.Get(&s.form))
	return f
}

func (s *feedDialog) weight(label string, at func(*feedForm) *float64) *kit.QuantityField {
	return s.figure(label, s.env.Units().Weight(), kit.NonZero(at, 1))
}

func (s *feedDialog) degrees(label string, at func(*feedForm) **float64) *kit.QuantityField {
	return s.figure(label, s.env.Units().Temperature(), kit.Optional(at))
}

func (s *feedDialog) show(title, yes string) {
	u := s.env.Units()
	kept, usual := kit.NonZero(func(f *feedForm) *float64 { return &f.kept }, 1), s.form.kept
	s.kept = kit.NewQuantityField(kit.QuantityOptions{Label: lang.L("Kept (K)"), Measure: u.Weight(),
		Keep:    func(v *float64) { kept.Set(&s.form, v); s.changed() },
		Instead: func(text string) (float64, bool, error) { return s.ratioOf(text, usual) }})
	s.kept.Set(kept.Get(&s.form))
	s.flour = s.weight(lang.L("Flour"), func(f *feedForm) *float64 { return &f.flour })
	s.water = s.weight(lang.L("Water"), func(f *feedForm) *float64 { return &f.water })
	s.ratio = kit.NewTextField(lang.L("or as a ratio (R)"), "1:2:2")
	s.ratio.SetText(s.form.ratio(u))
	s.ratio.OnChanged, s.ratio.OnDone = s.checkRatio, s.takeRatio
	s.ratio.SelectWhole()
	baked := s.weight(lang.L("Baked with"), func(f *feedForm) *float64 { return &f.baked })
	given := s.weight(lang.L("Given away"), func(f *feedForm) *float64 { return &f.given })
	discarded := kit.NonZero(func(f *feedForm) *float64 { return &f.discarded }, 1)
	s.discarded = s.figure(lang.L("Discarded"), u.Weight(), kit.Bound[feedForm]{Get: discarded.Get, Set: func(f *feedForm, v *float64) {
		discarded.Set(f, v)
		s.ownDiscard = true
	}})
	when := whenField(s.env, &s.form.at, s.changed)
	mark := s.figure(lang.L("Height of the mark"), millimetres(u), kit.Optional(func(f *feedForm) **float64 { return &f.startMM }))
	note := noteField(&s.form.note)
	s.result, s.doubts = kit.Body(""), kit.NewText(kit.Span{Color: look.ColorEmber})
	content := kit.Stack(4,
		kit.Columns(look.Space(18), s.kept, s.flour, s.water, s.ratio),
		s.result, s.doubts,
		kit.Rule(),
		kit.Small(lang.L("Taken out before feeding")),
		kit.Columns(look.Space(18), baked, given, s.discarded),
		kit.Rule(),
		kit.Columns(look.Space(24), when, s.degrees(lang.L("Water temperature"), func(f *feedForm) **float64 { return &f.waterC }), s.degrees(lang.L("Temperature where it stands"), func(f *feedForm) **float64 { return &f.roomC })),
		kit.Columns(look.Space(24), mark, note),
	)
	s.sheet = kit.ShowDialog(s.env.Window, kit.DialogOptions{
		Title: title, Content: content, Width: 640, Scroll: true, Buttons: keepButtons(yes, s.keep, s.edits != "", s.bin), OnEnter: s.keep,
		Aside: kit.Small(u.Say(ferment.RawFlour())),
		Keys:  []kit.Key{{Name: "K", Do: s.kept.Focus}, {Name: "R", Do: s.ratio.Focus}},
	})
	s.changed()
	s.kept.Focus()
}

// ratioOf takes a ratio that was typed where the weight kept is asked for: that is as usual
// then, and flour and water follow.
func (s *feedDialog) ratioOf(text string, usual float64) (kept float64, is bool, err error) {
	if !strings.Contains(text, ":") {
		return 0, false, nil
	}
	flour, water, err := parseRatio(text, usual, s.env.Units())
	switch {
	case err != nil:
		return 0, true, errors.New(s.env.Units().ErrorText(err))
	case usual <= 0:
		return 0, true, errors.New(lang.L("First say how much is kept."))
	}
	s.form.flour, s.form.water = flour, water
	s.flour.SetValue(flour)
	s.water.SetValue(water)
	return usual, true, nil
}

// checkRatio says what is wrong with a ratio while it is typed. Flour and water stay as
// they are until it is left: what is typed half might be another ratio.
func (s *feedDialog) checkRatio(text string) {
	_, _, err := parseRatio(text, s.form.kept, s.env.Units())
	switch {
	case text == s.form.ratio(s.env.Units()):
		s.ratio.SetProblem("")
	case err != nil:
		s.ratio.SetProblem(s.env.Units().ErrorText(err))
	case s.form.kept <= 0:
		s.ratio.SetProblem(lang.L("First say how much is kept."))
	default:
		s.ratio.SetProblem("")
	}
}

// takeRatio sets flour and water by a ratio that was typed and the weight kept.
func (s *feedDialog) takeRatio(text string) {
	s.checkRatio(text)
	if text == s.form.ratio(s.env.Units()) || !s.ratio.Understood() {
		return
	}
	flour, water, err := parseRatio(text, s.form.kept, s.env.Units())
	if err != nil {
		return
	}
	s.form.flour, s.form.water = flour, water
	s.flour.SetValue(flour)
	s.water.SetValue(water)
	s.changed()
}

// changed brings what follows from the figures up to them.
func (s *feedDialog) changed() {
	if s.sheet == nil {
		return
	}
	u := s.env.Units()
	s.before, s.known = s.life.JarBut(s.edits, s.form.at)
	if s.known && !s.ownDiscard {
		s.form.discarded = max(0, roundGrams(float64(s.before.Mix.Total())-s.form.kept-s.form.baked-s.form.given))
		s.discarded.SetValue(s.form.discarded)
	}
	s.ratio.SetText(s.form.ratio(u))
	s.result.SetText(afterWords(s.form, s.life, s.before, u))
	text := ""
	for _, d := range s.form.doubts(s.before, s.known, u) {
		text = joined(text, d.Sentence)
	}
	s.doubts.Say(text)
	s.sheet.Refresh()
}

// afterWords say what stands in the jar afterwards.
func afterWords(f feedForm, l *histories.CultureHistory, before ferment.State, u measure.Units) string {
	if f.total() <= 0 {
		return lang.L("How much is kept, and how much flour and water go to it?")
	}
	after := f.after(l, before)
	data := map[string]any{
		"Total": grams(u, f.total()), "Hydration": u.FormatNumber(100*after.Mix.Hydration(), 0),
		"Old": shareWords(u, f.kept/f.total()), "First": shareWords(u, after.Original),
	}
	if f.kept <= 0 {
		return lang.L("{{.Total}} in the jar at {{.Hydration}} % hydration, all of it new.", data)
	}
	return lang.L("{{.Total}} in the jar at {{.Hydration}} % hydration, {{.Old}} of it carried over; {{.First}} of the original mix is left.", data)
}

func joined(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + " " + b
}

// keep writes the feeding down, after asking if it would end the culture.
func (s *feedDialog) keep() {
	if s.sheet == nil || !s.sheet.Ready() {
		return
	}
	if s.form.total() <= 0 && s.form.takenOff() <= 0 {
		s.doubts.Say(lang.L("Say how much flour and water it gets."))
		s.sheet.Refresh()
		return
	}
	for _, d := range s.form.doubts(s.before, s.known, s.env.Units()) {
		if d.Ends && s.edits == "" {
			kit.ConfirmLoss(s.env.Window, lang.L("Keep nothing back?"), d.Sentence, lang.L("Nothing is kept"), s.write)
			return
		}
	}
	s.write()
}

func (s *feedDialog) write() {
	label := lang.L("feeding {{.Name}}", map[string]any{"Name": nameOf(s.life.Culture)})
	ok := s.env.Do(label, func(tx *journal.Tx) error {
		if s.edits != "" {
			return journal.Change(tx, s.edits, func(f *journal.Feeding) { s.form.write(f) })
		}
		f := &journal.Feeding{Culture: s.life.Culture.ID}
		s.form.write(f)
		return journal.Put(tx, f)
	})
	if !ok {
		return
	}
	s.sheet.Close()
	if s.edits == "" {
		s.env.Say(lang.L("Fed {{.Name}}: {{.Amounts}}.", map[string]any{"Name": nameOf(s.life.Culture), "Amounts": s.form.amountsWords(s.env.Units())}), true)
	}
}

func (s *feedDialog) bin() {
	s.sheet.Close()
	binFeeding(s.env, s.edits)
}

// Feed opens the dialog of a feeding over whatever page is shown.
func Feed(env *pages.Env, id journal.ID) {
	if l := feedable(env, id); l != nil {
		feed(env, l)
	}
}

// FeedAgain feeds a culture as the last time, at once; one that was never fed it asks how.
func FeedAgain(env *pages.Env, id journal.ID) {
	if l := feedable(env, id); l != nil {
		feedAgain(env, l)
	}
}

// feedable is a culture that may be fed; nil, and said why, for one that may not.
func feedable(env *pages.Env, id journal.ID) *histories.CultureHistory {
	l, err := histories.Of(env.Journal, id)
	if env.Failed(err) {
		return nil
	}
	if refused(env, l) {
		return nil
	}
	return l
}

// refused says that a culture with mould or a tint, or one that has ended, is not fed on.
func refused(env *pages.Env, l *histories.CultureHistory) bool {
	if !l.Culture.Ended.IsZero() {
		env.Say(lang.L("{{.Name}} is retired; its record stays.", map[string]any{"Name": nameOf(l.Culture)}), false)
		return true
	}
	if _, condemned := l.Condemned(env.Now()); !condemned {
		return false
	}
	kit.Message(env.Window, lang.L("Throw it away"), env.Units().Say(ferment.ThrowAway()))
	return true
}

// binFeeding throws a feeding away, to be brought back from the bin.
func binFeeding(env *pages.Env, id journal.ID) {
	if env.Do(lang.L("deleting a feeding"), func(tx *journal.Tx) error { return journal.MoveToBin[journal.Feeding](tx, id) }) {
		env.Say(lang.L("The feeding was deleted."), true)
	}
}

// feedAgain feeds as the last time, at once.
func feedAgain(env *pages.Env, l *histories.CultureHistory) {
	f := likeLast(l, env.Now())
	if f.total() <= 0 {
		feed(env, l)
		return
	}
	label := lang.L("feeding {{.Name}}", map[string]any{"Name": nameOf(l.Culture)})
	ok := env.Do(label, func(tx *journal.Tx) error {
		rec := &journal.Feeding{Culture: l.Culture.ID}
		f.write(rec)
		return journal.Put(tx, rec)
	})
	if ok {
		env.Say(lang.L("Fed {{.Name}}: {{.Amounts}}.", map[string]any{"Name": nameOf(l.Culture), "Amounts": f.amountsWords(env.Units())}), true)
	}
}
