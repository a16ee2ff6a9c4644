package findings

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/past"
	"twinloaf/journal/measure"
	"twinloaf/journal/shelf"
	"twinloaf/journal/shelf/finding"
)

// mostListed is how many factors are listed.
const mostListed = 8

// showSurvey lists what goes with the outcome that is asked about.
func (p *page) showSurvey(u measure.Units) {
	p.list.Objects = nil
	found := p.answer.survey.With(string(p.answer.outcome.Key))
	if len(found) > 1 {
		p.list.Add(kit.Section(lang.L("What goes with {{.Outcome}} here", map[string]any{"Outcome": p.answer.outcome.Name})))
		columns := new(surveyColumns)
		p.list.Add(columns.row(small(""), small(lang.L("strength")), small(lang.L("bakes")), small(""), small("p"), small("")))
		var rows []fyne.CanvasObject
		for _, f := range found[:min(len(found), mostListed)] {
			rows = append(rows, p.surveyRow(columns, f, u))
		}
		p.list.Add(p.rows)
		p.rows.Set(rows...) // where it is: the keyboard stays at its row
		p.list.Add(kit.Small(lang.L("Strongest first, from −1 to 1, among bakes alike in flour. To go along with something is not to be its cause.")))
	}
	p.list.Refresh()
}

func (p *page) surveyRow(columns *surveyColumns, f finding.Found, u measure.Units) fyne.CanvasObject {
	style := kit.Span{Text: surveyName(f, p.nameOf(shelf.Metric(f.Factor))), Color: look.ColorFaint}
	sure := lang.L("may be chance")
	if f.Told() {
		style.Color, style.Bold, sure = look.ColorInk, true, ""
	}
	count := func(n int) string { return u.FormatNumber(float64(n), 0) }
	line := columns.row(kit.NewText(style), kit.NewLine(kit.Span{Text: signed(f.Strength, 2, u)}), kit.NewLine(kit.Span{Text: count(f.N)}),
		small(lang.L("of {{.All}}", map[string]any{"All": count(p.record.Len())})), kit.NewLine(kit.Span{Text: pInColumn(f.Adjusted, u)}), small(sure))
	return kit.NewOpenRow(string(f.Factor), nil, line, func() { p.wantX = shelf.Metric(f.Factor); p.ask() })
}

// small is a line of a head, or of what stands behind a figure.
func small(words string) *kit.Text {
	return kit.NewLine(kit.Span{Text: words, Size: look.TextSmall, Color: look.ColorFaint})
}

// surveyName is what goes with the outcome and, of words of which one can be told from another, which.
func surveyName(f finding.Found, name string) string {
	data := map[string]any{"Name": past.Titled(name), "First": f.First, "Second": f.Second}
	switch {
	case f.First == "" || !f.Told():
		return past.Titled(name)
	case f.Strength > 0:
		return lang.L("{{.Name}}: more with {{.First}} than {{.Second}}", data)
	}
	return lang.L("{{.Name}}: less with {{.First}} than {{.Second}}", data)
}

// pInColumn writes a chance with the decimals of those above and below it.
func pInColumn(p float64, u measure.Units) string {
	if p < leastP || p > 0.05 && p < 0.0505 {
		return pWords(p, u)
	}
	return u.FixedNumber(p, 3)
}

// surveyColumns line up what is said in rows that are each pressed by themselves: the name has the
// room that the others leave.
type surveyColumns struct{ widths [surveyFigures]float32 }

// surveyFigures is how many columns follow the name: strength, bakes, of how many, p, and how sure.
const surveyFigures = 5

// widestSurvey is how wide the rows are read at most: further apart a name and its figures are not
// seen together.
var widestSurvey = look.Space(200)

// rightAligned says of each whether it is a figure, and gapsBefore how far it is from the one before.
var (
	rightAligned = [surveyFigures]bool{true, true, false, true, false}
	gapsBefore   = [surveyFigures]float32{24, 24, 6, 24, 12}
)

// row makes a row of texts.
func (c *surveyColumns) row(texts ...*kit.Text) fyne.CanvasObject {
	cells := make([]fyne.CanvasObject, len(texts))
	for i, t := range texts {
		if i > 0 {
			c.widths[i-1] = max(c.widths[i-1], t.MinSize().Width)
		}
		cells[i] = t
	}
	return container.New(surveyLayout{c}, cells...)
}

type surveyLayout struct{ columns *surveyColumns }

func (l surveyLayout) MinSize(things []fyne.CanvasObject) (s fyne.Size) {
	for _, o := range things {
		s = s.Max(o.MinSize())
	}
	return fyne.NewSize(look.Space(80), s.Height)
}

func (l surveyLayout) Layout(things []fyne.CanvasObject, size fyne.Size) {
	x := min(size.Width, widestSurvey)
	for i := surveyFigures - 1; i >= 0; i-- {
		o, w := things[i+1], things[i+1].MinSize()
		x -= l.columns.widths[i]
		at := x
		if rightAligned[i] {
			at += l.columns.widths[i] - w.Width
		}
		kit.Put(o, fyne.NewPos(at, (size.Height-w.Height)/2), w)
		x -= gapsBefore[i]
	}
	high := kit.FitHeight(things[0], max(0, x))
	things[0].Move(fyne.NewPos(0, (size.Height-high)/2))
}
