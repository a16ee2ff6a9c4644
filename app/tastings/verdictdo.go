package tastings

import (
	"io"
	"path/filepath"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/blind"
	"twinloaf/journal/blind/verdict"
	"twinloaf/journal/measure"
	"twinloaf/journal/paper"
)

// again plans the same question for the same two loaves once more.
func (v *verdictSection) again() {
	plan := v.in.Opened.Setting.Plan
	var bakes [2]journal.ID
	for i, l := range plan.Loaves {
		bakes[i] = journal.ID(l.ID)
	}
	planTasting(v.p.env, time.Time{}, v.t.Trial, bakes, plan, v.t.ID)
}

// csv saves the tasting as a table.
func (v *verdictSection) csv() {
	in := v.in
	v.p.env.SaveFile(lang.L("Save as CSV"), fileName(v.t)+".csv", func(w io.Writer) error {
		return verdict.WriteCSV(w, in)
	})
}

// print saves the verdict as a page to print.
func (v *verdictSection) print() {
	in, out, units, style := v.in, v.v, v.p.env.Units(), v.p.env.Paper()
	eyebrow := eyebrowOf(v.t, in.Opened.Setting.Plan, units, v.p.env.Now())
	v.p.env.SaveFile(lang.L("Print"), fileName(v.t)+".pdf", func(w io.Writer) error {
		return writeVerdict(w, eyebrow, in, out, units, style)
	})
}

// printSheets saves the score sheets as they were answered, with what was which.
func (v *verdictSection) printSheets() {
	o, style := v.in.Opened, v.p.env.Paper()
	sheets := scoreSheets{setting: o.Setting, progress: o.Progress, answered: v.t.Answered, rounds: o.Rounds}
	sheets.allergens, sheets.unknown = allergensOf(v.p.env.Journal, o.Setting.Plan), unknownIn(v.p.env.Journal, o.Setting.Plan)
	v.p.env.SaveFile(lang.L("Print the filled sheets"), lang.L("score sheets")+".pdf", func(w io.Writer) error {
		return sheets.write(w, style)
	})
}

// fileName suggests a name for a file of a tasting.
func fileName(t *journal.Tasting) string {
	return strings.Map(func(r rune) rune {
		if r == filepath.Separator || r == '/' || r == '?' || r == ':' {
			return -1
		}
		return r
	}, pages.TastingName(t))
}

// checkSeal shows the text that was sealed, its fingerprint, and how anybody
// can check it.
func (v *verdictSection) checkSeal() {
	o := v.in.Opened
	// A tasting that does not fit its fingerprints has no verdict, and does not come here.
	state := kit.Strong(lang.L("Plan, loaves and answers fit the fingerprints that this journal keeps. Whether it showed these very fingerprints at the time, only your photograph or print tells. Name, day and later corrections are not part of the seal."))
	column := kit.Stack(3, state, kit.Section(lang.L("The fingerprint of the sealing")), newFingerprint(v.t.Commitment, look.TextBody, 32))
	answers := o.AnswerText()
	if answers != "" {
		column.Add(kit.Section(lang.L("The fingerprint of the answers")))
		column.Add(newFingerprint(v.t.Answered, look.TextBody, 32))
	} else {
		column.Add(kit.Body(lang.L("This tasting is of an older version of the program: its seal covers method, loaves, tasters and codes, and its answers have no fingerprint.")))
	}
	column.Add(kit.Section(lang.L("What was sealed")))
	column.Add(kit.NewText(kit.Span{Text: o.Text, Size: look.TextSmall}))
	if answers != "" {
		column.Add(kit.Section(lang.L("What was handed in")))
		column.Add(kit.NewText(kit.Span{Text: answers, Size: look.TextSmall}))
	}
	column.Add(kit.Section(lang.L("How to check it")))
	for _, words := range blind.SealGuide() {
		column.Add(kit.Body(v.p.env.Units().Say(words)))
	}
	var sheet *kit.Dialog
	save := kit.PrimaryButton(lang.L("Save as seal.txt"), func() {
		sheet.Close()
		v.p.env.SaveFile(lang.L("Save the text that was sealed"), "seal.txt", func(w io.Writer) error {
			_, err := io.WriteString(w, o.Text)
			return err
		})
	})
	sheet = kit.ShowDialog(v.p.env.Window, kit.DialogOptions{
		Title: lang.L("Check the seal"), Content: column, Width: 820, Height: 660, Scroll: true,
		Buttons: []fyne.CanvasObject{kit.NewButton(lang.L("Close"), func() { sheet.Close() }), kit.NewButton(lang.L("Print the filled sheets"), func() {
			sheet.Close()
			v.printSheets()
		}), kit.NewButton(lang.L("Save as answers.txt"), func() {
			sheet.Close()
			v.p.env.SaveFile(lang.L("Save what was handed in"), "answers.txt", func(w io.Writer) error {
				_, err := io.WriteString(w, answers)
				return err
			})
		}), save},
	})
}

// correct adds a correction: the answer that should have been noted, and why.
func (v *verdictSection) correct() { v.correctRound(0) }

func (v *verdictSection) correctRound(at int) {
	o := v.in.Opened
	if len(o.Rounds) == 0 {
		return
	}
	var sheet *kit.Dialog
	names := make([]string, len(o.Rounds))
	for i, r := range o.Rounds {
		names[i] = lang.L("{{.Who}}, round {{.N}}", map[string]any{"Who": o.Who(r), "N": r.Round + 1})
	}
	r := o.Rounds[at]
	serving, _ := o.Setting.Serving(r.Taster, r.Round)
	var which *kit.ChoiceField
	which = kit.NewChoiceField(lang.L("Which round"), "", names, func(i int) {
		if i != at {
			which.SetChosen(at) // until it is left
			sheet.Leave(func() { v.correctRound(i) })
		}
	})
	which.SetChosen(at)
	form := newAnswerForm(o.Setting, serving)
	reason := kit.NewTextField(lang.L("Reason"), lang.L("why it should have been noted so"))
	add := kit.PrimaryButton(lang.L("Add the correction"), func() {
		answer, err := form.result()
		if err == nil {
			err = v.p.env.Journal.Correct(v.t.ID, r.Taster, r.Round, answer, reason.Text())
		}
		if v.p.env.Failed(err) {
			return
		}
		sheet.Close()
	})
	sheet = kit.ShowDialog(v.p.env.Window, kit.DialogOptions{
		Title: lang.L("Add a correction"), Width: 620, Height: 640, Scroll: true, Holds: form.chosen,
		Content: kit.Stack(4, kit.Body(lang.L("What was handed in stands, and the verdict with it. The correction is shown beside it, with its reason.")), which, form.box, reason),
		Buttons: []fyne.CanvasObject{add},
	})
}

// writeVerdict prints a verdict: words first, then what was which, the figures,
// and the text that was sealed.
func writeVerdict(w io.Writer, eyebrow string, in verdict.Input, v verdict.Verdict, u measure.Units, style paper.Style) error {
	plan := in.Opened.Setting.Plan
	d := paper.New(headline(v, u), style)
	d.Small(eyebrow)
	d.Title(headline(v, u))
	for _, s := range u.SayAll(v.Words) {
		d.Words(s)
	}
	d.Section(lang.L("What was which"))
	for i, l := range plan.Loaves {
		if codes := codesOf(in.Opened, i+1); len(codes) > 0 {
			d.Words(lang.L("{{.Loaf}} was {{.Codes}}.", map[string]any{"Loaf": l.Name, "Codes": strings.Join(codes, ", ")}))
		} else {
			d.Words(lang.L("{{.Loaf}} was not tasted.", map[string]any{"Loaf": l.Name}))
		}
	}
	if len(v.Attributes) > 0 {
		rows := make([][]string, len(v.Attributes))
		for i, a := range v.Attributes {
			rows[i] = []string{a.Attribute.Name, u.FormatNumber(a.Mean1, 1), u.FormatNumber(a.Mean2, 1), pWords(a.Adjusted, u)}
		}
		d.Section(lang.L("Mean scores"))
		d.Table([]float64{1.4, 1.2, 1.2, 0.8}, []string{"", plan.Loaves[0].Name, plan.Loaves[1].Name, ""}, rows, 1, 2, 3)
	} else {
		rows := make([][]string, len(v.Tally.PerTaster))
		for i, s := range v.Tally.PerTaster {
			rows[i] = []string{s.Taster, lang.L("{{.N}} of {{.Of}}", map[string]any{"N": s.Agreeing, "Of": s.Counted})}
		}
		d.Section(countsTitle(plan))
		d.Table([]float64{1, 1}, nil, rows)
	}
	bakes, others := u.SayAll(v.Unfair), u.SayAll(v.Cautions)
	if len(bakes) > 0 {
		d.Section(lang.L("Was it a fair pair?"))
		for _, s := range bakes {
			d.Words(s)
		}
	}
	d.Section(lang.L("The figures"))
	for _, s := range append(figuresOf(in, v, u), others...) {
		d.Words(s)
	}
	d.Section(lang.L("The seal"))
	d.Small(lang.L("Fingerprint of the sealing: {{.Seal}}", map[string]any{"Seal": inFours(in.Opened.Setting.Commitment)}))
	answers := in.Opened.AnswerText()
	if answers != "" {
		d.Small(lang.L("Fingerprint of the answers: {{.Seal}}", map[string]any{"Seal": inFours(blind.Commitment(answers))}))
	}
	d.Small(in.Opened.Text)
	d.Small(answers)
	for _, s := range blind.SealGuide() {
		d.Small(u.Say(s))
	}
	return d.Write(w)
}
