package crumb

import (
	"slices"
	"unicode/utf8"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/crumb"
	"twinloaf/journal/limit"
	"twinloaf/journal/measure"
)

// figurePanel shows the figures of one photo.
type figurePanel struct {
	box    *fyne.Container
	faults *fyne.Container
	rows   map[crumb.MeasureID]*kit.Readout
	chart  *kit.ChartFrame
	taken  *kit.Text
	shown  []row
	more   *fyne.Container // the figures that matter less
	rest   *kit.Link       // unfolds those of them that are withheld
	whole  bool            // they are unfolded
}

// mostUnit is how many letters of a unit fit beside a figure; a longer one stands with its name.
const mostUnit = 16

// mostGreat is mostUnit beside a large figure.
const mostGreat = 4

// great are the measures that matter first.
var great = []crumb.MeasureID{crumb.Porosity, crumb.CellDensity}

// lesser are the others, in the order in which they are read.
var lesser = []crumb.MeasureID{crumb.MeanArea, crumb.MedianArea, crumb.MeanDiameter, crumb.MedianDiameter, crumb.LargestArea, crumb.WallThickness,
	crumb.LargeShare, crumb.SmallToLarge, crumb.Elongation, crumb.Direction, crumb.Alignment, crumb.EdgeToMiddle, crumb.TopToBottom,
	crumb.SureVoids, crumb.TextureWidth, crumb.CorrelationMM}

func newFigurePanel(chart *kit.ChartFrame, large fyne.CanvasObject, links ...fyne.CanvasObject) *figurePanel {
	p := &figurePanel{faults: kit.Stack(2), rows: map[crumb.MeasureID]*kit.Readout{}, chart: chart, taken: kit.Small("")}
	for _, d := range crumb.Definitions() {
		isGreat := slices.Contains(great, d.ID)
		p.rows[d.ID] = kit.NewReadout(lang.L(d.Name), isGreat)
	}
	p.more = kit.Tiles(look.Space(36), 6)
	for _, id := range lesser {
		p.more.Add(p.rows[id])
	}
	p.rest = kit.NewLink("", func() { p.whole = true; p.fold() })
	p.box = kit.Stack(3, p.faults, kit.Columns(look.Space(30), p.rows[great[0]], p.rows[great[1]]), p.more, kit.Row(0, p.rest), large,
		p.chart, p.taken,
		kit.Small(lang.L("What a cut face shows are openings, not bubbles: no figure here is the loaf's true porosity. Compare your own loaves, in the same light.")),
		kit.Flow(4, links...))
	return p
}

// fold leaves out the figures that are withheld until they are asked for.
func (p *figurePanel) fold() {
	n := 0
	for _, r := range p.shown {
		folds := r.trust == crumb.Withheld && !p.whole && slices.Contains(lesser, r.id)
		if folds {
			n++
		}
		kit.SetVisible(p.rows[r.id], !folds)
	}
	p.rest.SetText(lang.N("{{.N}} figures withheld", n, map[string]any{"N": n}))
	kit.SetVisible(p.rest, n > 0)
	p.more.Refresh()
}

// sync shows a summary.
func (p *figurePanel) sync(s crumb.Summary, u measure.Units) {
	p.shown = rowsOf(s, u)
	for _, r := range p.shown {
		label, unit := r.label(), r.unit
		most := mostUnit
		if slices.Contains(great, r.id) {
			most = mostGreat
		}
		if utf8.RuneCountInString(unit) > most {
			label, unit = label+" · "+unit, ""
		}
		p.rows[r.id].SetLabel(label)
		p.rows[r.id].Set(r.value, unit, "", r.tip)
	}
	p.fold()
	p.faults.Objects = nil
	if s.Method > 0 {
		p.faults.Add(kit.Strong(fitnessHead(s)))
	}
	for _, f := range faultsOf(s, u) {
		color := look.ColorInk
		if f.severity == crumb.Withheld {
			color = look.ColorEmber
		}
		spans := []kit.Span{{Text: f.reason + " ", Color: color}}
		if f.do != "" {
			spans = append(spans, kit.Span{Text: f.do + " "})
		}
		p.faults.Add(kit.NewText(append(spans, kit.Span{Text: f.follows, Color: look.ColorFaint, Size: look.TextSmall})...))
	}
	if s.Corrected > 0 {
		p.faults.Add(kit.Small(lang.N("A hand helped: {{.N}} corrections of the cells.", s.Corrected, map[string]any{"N": s.Corrected})))
	}
	if len(p.faults.Objects) > 0 {
		p.faults.Add(kit.Rule())
	}
	p.faults.Refresh()
	kit.SetVisible(p.faults, len(p.faults.Objects) > 0)
	showSizes(p.chart, pages.CrumbSizes([]pages.CrumbSeries{{Sizes: s}}, u), chartSize)
	p.taken.SetText(taken(s, u))
}

// settingPanel is what the baker can say of the slice.
type settingPanel struct {
	box     *fyne.Container
	setting *kit.Text
	effect  *kit.Text
	length  *kit.QuantityField
	of      *kit.Segments
	sheet   *sheetPart
	goes    *kit.Segments
	large   *kit.QuantityField
}

func newSettingPanel(page *measurePage) *settingPanel {
	u := page.units
	p := &settingPanel{setting: kit.Strong(""), effect: kit.Small(lang.L("Halfway between wall and cell. Adjust with − and +; the effect is shown here."))}
	p.length = kit.NewQuantityField(kit.QuantityOptions{Label: lang.L("Known length"), Measure: lengthMeasure(u), Hint: lang.L("none: sizes are relative"),
		Derived: lang.L("How wide the slice is in truth, or a ruler or coin beside it: it turns pixels into millimetres."),
		Keep:    func(v *float64) { page.setLength(kit.OrZero(v)) }})
	p.of = kit.NewSegments(lang.L("Scale"), []string{lang.L("the slice's width"), lang.L("a drawn line"), lang.L("four corners")}, 0,
		func(i int) { page.setScaleFrom(scaleSource(i)) })
	p.sheet = newSheetPart(page)
	p.goes = kit.NewSegments(lang.L("The outline holds"), []string{lang.L("the slice"), lang.L("crumb only")}, 0, func(i int) {
		page.write(lang.L("what the outline of a slice holds"), func(s *journal.Slice) { s.CrumbOnly = i == 1 })
	})
	p.large = kit.NewQuantityField(kit.QuantityOptions{Label: lang.L("A cell is large from a diameter of"), Measure: u.Number(lang.L("mm"), 2).In(limit.Length),
		Keep: func(v *float64) { page.setLarge(kit.OrZero(v)) }})
	p.box = kit.Stack(2,
		kit.Row(3, kit.Small(lang.L("Sensitivity")), kit.QuietButton(lang.L("lower"), func() { page.nudge(-1) }).WithKey("−"), p.setting,
			kit.QuietButton(lang.L("higher"), func() { page.nudge(1) }).WithKey("+")),
		p.effect, p.length, p.of, p.sheet.box, p.goes)
	return p
}

// lengthMeasure is how lengths of a slice are written: in millimetres or inches.
func lengthMeasure(u measure.Units) measure.Measure {
	if u.Ounces {
		return u.Length()
	}
	return u.Number(lang.L("mm"), 1).In(limit.Length)
}

// sync shows what was said of the slice.
func (p *settingPanel) sync(s journal.Slice, u measure.Units) {
	sheet, laid := s.Sheet()
	relative := s.LengthMM <= 0 && !laid
	p.setting.SetText(settingWord(s.Sensitivity, u))
	if s.LengthMM > 0 {
		p.length.SetValue(s.LengthMM)
	} else {
		p.length.Clear()
	}
	of := fromWidth
	switch {
	case laid:
		of = fromSheet
	case s.From != s.To:
		of = fromLine
	}
	p.of.SetChosen(int(of))
	kit.SetVisible(p.length, !laid)
	kit.SetVisible(p.sheet.box, laid)
	if laid {
		p.sheet.sync(sheet, u)
	}
	kit.SetVisible(p.goes, len(s.Outline) > 0)
	p.goes.SetChosen(0)
	if s.CrumbOnly {
		p.goes.SetChosen(1)
	}
	face := u.Number(lang.L("mm"), 2)
	if relative {
		face = u.Number(lang.L("% of width"), 2)
	}
	if !p.large.Editing() {
		p.large.SetMeasure(face)
	}
	p.large.SetValue(largeFrom(s))
}

// largeFrom is how wide a cell counts as large.
func largeFrom(s journal.Slice) float64 {
	if s.LargeFromMM > 0 {
		return s.LargeFromMM
	}
	return crumb.LargeFromMM
}

// showSizes shows a chart of cells' sizes at its least size. A sentence that stands for it
// takes the room of one.
func showSizes(chart *kit.ChartFrame, spec charts.Spec, least fyne.Size) {
	if plot, ok := spec.(charts.Plot); ok && plot.Empty != "" {
		least.Height = look.Space(16)
	}
	chart.SetLeast(least)
	chart.SetSpec(spec)
}
