package bakeday

import (
	"errors"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/limit"
	"twinloaf/journal/plan"
	"twinloaf/journal/shorthand"
)

// stepUnderHand is the step that a note goes to, with its title. It says false, and
// tells the baker, when there is none.
func (f *dayStage) stepUnderHand() (s journal.Step, title string, ok bool) {
	at := underHand(f.bake, f.env.Now())
	if at == nil {
		f.env.Fail(errNoStep)
		return journal.Step{}, "", false
	}
	return *at, pages.StepTitle(plan.Kind(at.Kind), at.Name), true
}

// A typed is a field of a dialog.
type typed interface {
	fyne.CanvasObject
	Entry() fyne.Focusable
}

// ask shows a dialog with fields, the cursor in the first; keep is what Enter and the button
// do, for the step that is under hand now, whatever begins meanwhile. The dialog stays, with
// what was typed, where that could not be kept.
func (f *dayStage) ask(title string, fields []typed, keep func(step journal.ID) bool, more ...fyne.CanvasObject) {
	step, words, ok := f.stepUnderHand()
	if !ok {
		return
	}
	var sheet *kit.Dialog
	done := func() {
		if keep(step.ID) {
			sheet.Close()
		}
	}
	row := kit.Columns(look.Space(28))
	for _, field := range fields {
		row.Add(field)
	}
	content := kit.Stack(3, kit.Faint(lang.L("Saved under: {{.Step}}", map[string]any{"Step": words})), row, kit.Stack(1, more...))
	sheet = kit.ShowDialog(f.env.Window, kit.DialogOptions{
		Title: title, Content: content, OnEnter: done,
		Buttons: []fyne.CanvasObject{kit.PrimaryButton(lang.L("Save"), done).WithKey(lang.L("Enter"))},
	})
	f.env.Window.Canvas().Focus(fields[0].Entry())
}

func (f *dayStage) askNote() {
	id := f.bake.ID
	note := kit.NewTextField("", lang.L("what you see, feel or smell"))
	f.ask(lang.L("A note"), []typed{note}, func(step journal.ID) bool { return f.act.note(id, step, note.Text()) })
}

func (f *dayStage) askTemperature() {
	id := f.bake.ID
	step, _, ok := f.stepUnderHand()
	if !ok {
		return
	}
	t := f.env.Units().Temperature()
	field := func(label string) *kit.QuantityField {
		return kit.NewQuantityField(kit.QuantityOptions{Label: label, Measure: t, Large: true})
	}
	dough, air, water := field(lang.L("The dough")), field(lang.L("Ambient")), field(lang.L("The water, as poured"))
	fields, more := []typed{dough, air}, []fyne.CanvasObject{}
	if plan.Kind(step.Kind) == plan.Mix {
		fields = append(fields, water)
		more = append(more, kit.Small(lang.L("The dough right after mixing and the water as poured teach the journal the friction of your mixing.")))
	}
	f.ask(lang.L("A temperature"), fields, func(step journal.ID) bool {
		return f.act.keep(id, step, reading{Dough: celsius(dough), Air: celsius(air), Water: celsius(water)})
	}, more...)
}

func celsius(f *kit.QuantityField) *formula.Celsius {
	if v, ok := f.Value(); ok {
		return new(formula.Celsius(v))
	}
	return nil
}

func (f *dayStage) askRise() {
	id := f.bake.ID
	u := f.env.Units()
	times := u.Number("", 2).In(limit.Rise)
	times.Parse = func(text string) (float64, error) { // "1.5", "50 %", "doubled"
		r, err := u.Shorthand().Rise(text)
		if err == nil && r.Times == 0 {
			err = shorthand.ErrHeight
		}
		if err != nil {
			return 0, errors.New(u.ErrorText(err))
		}
		return r.Times, nil
	}
	rise := kit.NewQuantityField(kit.QuantityOptions{Label: lang.L("Times starting height"), Measure: times, Hint: u.FormatNumber(1.5, 1), Large: true})
	f.ask(lang.L("How far it has risen"), []typed{rise}, func(step journal.ID) bool {
		var r reading
		if v, ok := rise.Value(); ok {
			r.Rise = new(v)
		}
		return f.act.keep(id, step, r)
	}, kit.Small(lang.L("1 is as at the start, 2 is twice as high. A straight glass with some of the dough beside the bowl shows it best.")))
}

func (f *dayStage) askPhoto() {
	owner := journal.Ref{Kind: journal.KindBake, ID: f.bake.ID}
	f.env.PickPictures(func(pictures []journal.Picture) {
		f.env.AddPhotos(owner, journal.RoleDough, pictures, func(o fyne.CanvasObject) { kit.SetOnly(f.adding, o) })
	})
}
