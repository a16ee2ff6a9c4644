package tastings

import (
	"context"
	"errors"
	"io"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/blind"
	"twinloaf/journal/measure"
	"twinloaf/journal/say"
)

// sealedSection shows how far the scoring of a sealed tasting has come. It names
// no loaf, and shows no photo and no colour of one.
type sealedSection struct {
	p       *tastingPage
	session *blind.Session
	setting blind.Setting
	locked  bool // the key is on the helper's paper
}

func (v *sealedSection) left() {}

func (v *sealedSection) changed(t *journal.Tasting, s blind.Setting) { v.show(t, s) }

func (v *sealedSection) show(t *journal.Tasting, s blind.Setting) {
	var session *blind.Session
	err := v.p.env.Journal.CheckSeal(t.ID)
	if err == nil {
		session, err = v.p.env.Journal.Session(t.ID)
	}
	if err != nil {
		v.showBroken(t, err)
		return
	}
	v.session, v.setting, v.locked = session, s, t.Locked != ""
	page := v.p.page
	page.SetEyebrow(lang.L("{{.Name}} · sealed {{.When}}", map[string]any{
		"Name": pages.TastingName(t), "When": dayOf(v.p.env.Units(), t.Sealed, v.p.env.Now())}))
	page.SetHeading(sealedHeading(session))
	main, key := v.mainButton()
	page.SetActions(nil, main)
	v.p.keys = []kit.Key{key}
	page.SetBody(kit.WeightedColumns(look.Space(64), []float32{7, 5}, v.progress(), v.seal(t)))
	v.p.env.Retitle()
}

// showBroken says that the seal does not hold, and why.
func (v *sealedSection) showBroken(t *journal.Tasting, err error) {
	page := v.p.page
	page.SetEyebrow(pages.TastingName(t))
	page.SetHeading(lang.L("The seal does not hold"))
	page.SetActions(nil, kit.QuietButton(lang.L("Move to the bin"), v.p.bin))
	page.SetBody(kit.Lead(kit.Span{Text: brokenWords(v.p.env.Units(), err)}))
	v.p.keys = nil
	v.p.env.Retitle()
}

// brokenWords says that something was changed after the sealing.
func brokenWords(u measure.Units, err error) string {
	return u.Say(say.Of("Something was changed after the sealing. {{.Why}} Nobody should taste by it; plan a new tasting.", say.With{"Why": u.ErrorText(err)}))
}

// sealedHeading says how far the scoring is.
func sealedHeading(s *blind.Session) string {
	plan := s.Setting().Plan
	n, of := s.HandedIn(), plan.Answers()
	switch {
	case len(s.SlipsWanted()) > 0:
		return lang.L("Every score is in: turn over the slips")
	case s.Progress().EndedEarly != "":
		return lang.L("Ended early, and sealed still")
	case s.AllHandedIn():
		return lang.L("Every score is in, and it is sealed still")
	case n == 0 && !slices.ContainsFunc(s.Progress().Sheets, underWay):
		return lang.L("Sealed, and ready to taste")
	}
	return lang.L("{{.N}} of {{.Of}} rounds are in", map[string]any{"N": n, "Of": of})
}

func (v *sealedSection) mainButton() (*kit.Button, kit.Key) {
	if v.session.Complete() {
		return kit.InkButton(lang.L("Unseal"), v.unseal).WithKey("U"), kit.Key{Name: "U", Doc: lang.L("Unseal"), Do: v.unseal}
	}
	words := lang.L("Go on tasting")
	switch {
	case len(v.session.SlipsWanted()) > 0:
		words = lang.L("Turn over the slips")
	case v.session.HandedIn() == 0 && !slices.ContainsFunc(v.session.Progress().Sheets, underWay):
		words = lang.L("Begin tasting")
	}
	taste := func() { v.p.env.Go(to(v.p.id, scoring)) }
	return kit.InkButton(words, taste).WithKey("T"), kit.Key{Name: "T", Doc: words, Do: taste}
}

// progress is a line for each taster: how many rounds are in.
func (v *sealedSection) progress() fyne.CanvasObject {
	column := kit.Stack(3, kit.Section(lang.L("Who has tasted")))
	for i, sheet := range v.session.Progress().Sheets {
		dots := kit.Flow(1.5)
		for round := range v.setting.Plan.Rounds {
			state := plateToCome
			switch {
			case round < len(sheet.Answers):
				state = plateChosen
			case round == sheet.Round && underWay(sheet):
				state = plateDone
			}
			dots.Add(newPlate("", state, 16))
		}
		column.Add(kit.Row(4, kit.Width(look.Space(30), kit.Body(nameNow(v.session, i))), kit.Width(dotsWidth(v.setting.Plan.Rounds), dots),
			kit.NewLine(kit.Span{Text: roundsIn(sheet, v.setting.Plan.Rounds), Color: look.ColorFaint})))
	}
	if reason := v.session.Progress().EndedEarly; reason != "" {
		column.Add(kit.Strong(lang.L("Ended early: {{.Why}}", map[string]any{"Why": reason})))
	}
	column.Add(kit.Gap(2))
	if v.session.Complete() {
		column.Add(kit.Row(0, kit.NewButton(lang.L("Print the filled sheets"), v.print)))
		return column
	}
	if v.session.AllHandedIn() || v.session.Progress().EndedEarly != "" {
		return column // the slips are still to be turned over
	}
	row := kit.Flow(2)
	if v.setting.Plan.Mode == blind.WithHelper {
		row.Add(kit.NewButton(lang.L("Print score sheets"), v.print))
	}
	row.Add(kit.NewButton(lang.L("Type in a sheet"), v.typeIn))
	row.Add(kit.NewButton(lang.L("End early…"), v.endEarly))
	column.Add(row)
	return column
}

// seal shows what is told of a sealed tasting: its fingerprint and the allergens.
func (v *sealedSection) seal(t *journal.Tasting) fyne.CanvasObject {
	column := kit.Stack(3, kit.Section(lang.L("The seal")),
		newFingerprint(t.Commitment, look.TextBody, 16),
		kit.Small(lang.L("The fingerprint of the plan and of which code is which loaf, with a random number. If you photographed it, it proves after unsealing that nothing of that was changed.")))
	if v.session.Complete() && t.Answered != "" {
		column.Add(kit.Section(lang.L("The answers")))
		column.Add(newFingerprint(t.Answered, look.TextBody, 16))
		column.Add(kit.Small(lang.L("The fingerprint of the answers. Photograph it before unsealing, or print the filled sheets, which bear both: it proves that none was changed.")))
	}
	column.Add(kit.Small(sealSentence(v.locked)))
	for _, o := range []fyne.CanvasObject{
		kit.Gap(2), kit.Section(lang.L("Allergens")), containing(allergensOf(v.p.env.Journal, v.setting.Plan)),
	} {
		column.Add(o)
	}
	if unknown := unknownIn(v.p.env.Journal, v.setting.Plan); len(unknown) > 0 {
		column.Add(kit.Strong(lang.L("Nothing certain can be said of {{.What}}: read the label.", map[string]any{"What": listed(unknown)})))
	}
	return column
}

func (v *sealedSection) unseal() {
	if v.locked {
		v.unsealByPaper()
		return
	}
	kit.Confirm(v.p.env.Window, lang.L("Unseal the tasting?"),
		lang.L("Everybody who looks will see which code is which loaf. From then on scores are fixed."),
		lang.L("Unseal"), func() { v.p.env.Fail(v.p.env.Journal.Unseal(v.p.id, "")) })
}

// unsealByPaper asks for the code on the helper's paper.
func (v *sealedSection) unsealByPaper() {
	var sheet *kit.Dialog
	told := kit.NewText(kit.Span{Color: look.ColorEmber})
	code := kit.NewTextField(lang.L("Code on the helper's card"), "XXXXX-XXXXX")
	opened := func(err error) {
		switch {
		case errors.Is(err, blind.ErrCode):
			told.SetText(lang.L("That is not the code, or the journal's file was changed. Letters and digits count, gaps and case do not."))
		case err != nil:
			sheet.Close()
			v.p.env.Fail(err)
		default:
			sheet.Close()
		}
	}
	// To make the key of a code takes a while on purpose: nobody should try many.
	trying := false
	open := func() {
		if trying {
			return
		}
		trying = true
		typed := code.Text()
		told.SetText(lang.L("Unsealing…"))
		pages.Try(v.p.env, func(ctx context.Context) error {
			if err := ctx.Err(); err != nil {
				return err
			}
			return v.p.env.Journal.Unseal(v.p.id, typed) // once begun it is finished
		}, func(err error) {
			trying = false
			opened(err)
		})
	}
	code.OnEnter(open)
	lost := kit.NewLink(lang.L("The paper is lost…"), func() {
		sheet.Close()
		kit.ConfirmLoss(v.p.env.Window, lang.L("End it without opening?"),
			lang.L("Without the code nobody can tell which code was which loaf, and the tasting can only be ended. This cannot be undone."),
			lang.L("End it unopened"), func() { v.p.env.Fail(v.p.env.Journal.CloseUnopened(v.p.id)) })
	})
	sheet = kit.ShowDialog(v.p.env.Window, kit.DialogOptions{
		Title: lang.L("Unseal the tasting?"),
		Content: kit.Stack(4, kit.Body(lang.L("Everybody who looks will see which code is which loaf. From then on scores are fixed.")),
			code, told, kit.Row(0, lost)),
		Buttons: []fyne.CanvasObject{kit.InkButton(lang.L("Unseal"), open)}, Width: 520,
	})
	code.Focus()
}

// roundsIn says how many rounds of a taster are in, and whether more will come.
func roundsIn(s blind.ScoreSheet, of int) string {
	with := map[string]any{"N": len(s.Answers), "Of": of}
	switch {
	case s.Phase == blind.PhaseStopped && len(s.Answers) == 0:
		return lang.L("chose not to taste")
	case s.Phase == blind.PhaseStopped:
		return lang.L("stopped after {{.N}} of {{.Of}}", with)
	}
	return lang.L("{{.N}} of {{.Of}}", with)
}

// sealSentence says what the seal cannot keep off.
func sealSentence(locked bool) string {
	if locked {
		return lang.L("The key is on the helper's paper: not even a copy of the journal opens the tasting without it.")
	}
	return lang.L("The seal keeps the answer off every page, but a copy of the journal's folder can be opened without a trace: to rule that out, plan with the key on the helper's paper.")
}

func (v *sealedSection) endEarly() {
	askReason(v.p.env.Window, lang.L("End before all is in?"),
		lang.L("Scores handed in stand; an unfinished round is not counted. The verdict will say that it ended early, and why."),
		lang.L("such as: the ferry left"), lang.L("End early"), func(reason string) bool {
			err := v.p.env.Journal.Score(v.p.id, func(s *blind.Session) error { return s.EndEarly(reason) })
			v.p.env.Fail(err)
			return err == nil
		})
}

// print saves the score sheets, filled in once every score is in.
func (v *sealedSection) print() {
	sheets, style := scoreSheets{setting: v.setting}, v.p.env.Paper()
	sheets.allergens, sheets.unknown = allergensOf(v.p.env.Journal, v.setting.Plan), unknownIn(v.p.env.Journal, v.setting.Plan)
	if v.session.Complete() {
		sheets.progress, sheets.answered = v.session.Progress(), v.session.Fingerprint()
	}
	v.p.env.SaveFile(lang.L("Print score sheets"), lang.L("score sheets")+".pdf", func(w io.Writer) error {
		return sheets.write(w, style)
	})
}

// typeIn takes down a printed sheet, one round at a time.
func (v *sealedSection) typeIn() {
	var waiting []int
	var names []string
	for i, sheet := range v.session.Progress().Sheets {
		if !sheet.Over() && sheet.Sample == 0 && sheet.Phase != blind.PhaseAnswer {
			waiting = append(waiting, i)
			names = append(names, nameNow(v.session, i))
		}
	}
	if len(waiting) == 0 {
		v.p.env.Say(lang.L("No round can be typed in now: finish the one that is being tasted."), false)
		return
	}
	v.typeInFor(waiting, names, 0)
}

func (v *sealedSection) typeInFor(waiting []int, names []string, at int) {
	var sheet *kit.Dialog
	taster := waiting[at]
	step, err := v.session.At(taster)
	if v.p.env.Failed(err) {
		return
	}
	form := newAnswerForm(v.setting, step.Serving)
	var who *kit.ChoiceField
	who = kit.NewChoiceField(lang.L("Whose sheet"), "", names, func(i int) {
		if i != at {
			who.SetChosen(at) // until it is left
			sheet.Leave(func() { v.typeInFor(waiting, names, i) })
		}
	})
	who.SetChosen(at)
	title := lang.L("{{.Who}}, round {{.N}}", map[string]any{"Who": names[at], "N": step.Round + 1})
	enter := func() {
		answer, err := form.result()
		if v.p.env.Failed(err) {
			return
		}
		if v.p.env.Failed(v.p.env.Journal.Score(v.p.id, func(s *blind.Session) error { return s.TypeIn(taster, answer) })) {
			return
		}
		sheet.Close()
		// The page has been told; go on with the next sheet, if there is one.
		if !v.session.AllHandedIn() {
			v.typeIn()
		}
	}
	content := kit.Stack(4, who, form.box)
	sheet = kit.ShowDialog(v.p.env.Window, kit.DialogOptions{
		Title: title, Content: content, Width: 620, Scroll: true, Height: 640, Holds: form.chosen,
		Buttons: []fyne.CanvasObject{kit.InkButton(lang.L("Hand in"), enter)},
	})
}
