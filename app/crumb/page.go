package crumb

import (
	"errors"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/crumb"
	"twinloaf/journal/measure"
)

// chartSize is the least that shows the sizes of the cells.
var chartSize = fyne.NewSize(300, 380)

// typing is how long a pause in typing a length is waited for before it counts.
const typing = 300 * time.Millisecond

// measurePage measures the crumb of one photo.
type measurePage struct {
	pages.Base
	env     *pages.Env
	id      journal.ID
	units   measure.Units
	page    *kit.Page
	body    *fyne.Container
	session *session
	picture *picture
	figures *figurePanel
	setting *settingPanel
	busy    *kit.Text
	stop    *kit.Button
	told    *kit.Text // of the tool in hand, or of a tapped cell

	loaded  string         // hash of the picture shown
	asked   *journal.Photo // what was last measured, or is being measured
	found   crumb.Outline  // as found by itself, when it was
	summary *crumb.Summary // as shown
	broken  error          // why nothing could be measured
	// saveNext is up while saving waits for the cells to be found.
	saveNext bool
}

func newMeasurePage(env *pages.Env, id journal.ID) (*measurePage, error) {
	if _, err := journal.Get[journal.Photo](env.Journal, id); err != nil {
		return nil, err
	}
	p := &measurePage{env: env, id: id, units: env.Units(), session: &session{env: env}, picture: newPicture(env.Main),
		busy: kit.Small(""), told: kit.Small("")}
	p.stop = kit.QuietButton(lang.L("Stop"), p.halt)
	p.picture.onOutline, p.picture.onLength, p.picture.onCell = p.setOutline, p.setLine, p.tellCell
	p.picture.onCorners, p.picture.onStroke = p.setCorners, p.stroke
	p.page = kit.NewPage(kit.PageOptions{Fixed: true})
	p.Base = pages.Base{Body: p.page, Name: lang.L("Measure the crumb")}
	p.build()
	return p, nil
}

// build puts the page together for the units that are in force.
func (p *measurePage) build() {
	p.setting = newSettingPanel(p)
	p.figures = newFigurePanel(p.env.NewChart(lang.L("cell sizes"), chartSize, nil), p.setting.large,
		kit.NewLink(lang.L("What these figures mean"), p.explain), kit.NewLink(lang.L("All crumb photos"), p.toAll))
	side := newSideScroll(kit.Stack(5, p.setting.box, kit.Rule(), p.figures.box))
	button := func(words, key string, do func()) fyne.CanvasObject { return kit.QuietButton(words, do).WithKey(key) }
	tools := kit.QuietRow(toolGap, button(lang.L("Outline"), "O", p.hold(outlineTool)), button(lang.L("Box"), "B", p.hold(boxTool)), button(lang.L("Find"), "F", p.findAgain),
		button(lang.L("Next"), "N", p.nextOutline), button(lang.L("Length"), "R", p.hold(lengthTool)), button(lang.L("Four corners"), "T", p.hold(cornerTool)),
		button(lang.L("Erase"), "D", p.hold(eraseTool)), button(lang.L("Join"), "J", p.hold(joinTool)), button(lang.L("Split"), "K", p.hold(cutTool)),
		button(lang.L("Add"), "P", p.hold(paintTool)), button(lang.L("Cells"), "C", p.turnCells), button(lang.L("Lines"), "L", p.turnLines))
	foot := kit.Stack(1, kit.RowGrow(2, 0, p.told, p.busy, p.stop), tools)
	p.body = container.New(&beside{ratio: p.picture.ratio, room: p.page.Room, side: side}, p.picture.Object(), foot, side.box)
	p.page.SetBody(p.body)
	p.picture.onRatio = p.body.Refresh
	p.quiet()
}

func (p *measurePage) Keys() []kit.Key {
	return []kit.Key{
		{Name: "O", Doc: lang.L("Draw the outline: drag round it, or click corner after corner"), Do: func() { p.take(outlineTool) }},
		{Name: "B", Doc: lang.L("Draw a box"), Do: func() { p.take(boxTool) }},
		{Name: "R", Doc: lang.L("Draw a line of known length: a ruler, a coin"), Do: func() { p.take(lengthTool) }},
		{Name: "T", Doc: lang.L("Mark the four corners of a sheet of paper, a bank card or a board: they give the scale and take out the tilt"), Do: func() { p.take(cornerTool) }},
		{Name: "V", Doc: lang.L("The straightened picture, or the photo as it was taken"), Do: p.turnFlat},
		{Name: "F", Doc: lang.L("Find the slice by itself"), Do: p.findAgain},
		{Name: "N", Doc: lang.L("The next best outline: from a board to what lies on it"), Do: p.nextOutline},
		{Name: "D", Doc: lang.L("Erase cells that are none: drag over them, or click each"), Do: p.hold(eraseTool)},
		{Name: "J", Doc: lang.L("Join cells that are one: drag from one to the next"), Do: p.hold(joinTool)},
		{Name: "K", Doc: lang.L("Split a cell that is two: drag across it"), Do: p.hold(cutTool)},
		{Name: "P", Doc: lang.L("Add a cell that was missed: drag round it"), Do: p.hold(paintTool)},
		{Name: ".", Doc: lang.L("Widen the outline by a hundredth of the slice's width"), Do: func() { p.widen(1) }},
		{Name: ",", Doc: lang.L("Narrow the outline by as much"), Do: func() { p.widen(-1) }},
		{Name: "-", Doc: lang.L("Less sensitive: only what is clearly a cell"), Do: func() { p.nudge(-1) }},
		{Name: "+", Doc: lang.L("More sensitive: shallow hollows too"), Do: func() { p.nudge(1) }},
		{Name: "=", Do: func() { p.nudge(1) }, Hidden: true},
		{Name: "C", Doc: lang.L("Show or hide the cells"), Do: p.turnCells},
		{Name: "L", Doc: lang.L("Show or hide the outline and the length"), Do: p.turnLines},
		{Name: "M", Doc: lang.L("Measure again"), Do: p.again},
		{Name: "S", Doc: lang.L("Compare with another photo"), Do: p.compare},
		{Name: "A", Doc: lang.L("Another photo of the same slice"), Do: p.retake},
		{Name: "X", Doc: lang.L("Save the figures, the cells or the mask"), Do: p.export},
		{Name: "W", Doc: lang.L("What these figures mean"), Do: p.explain},
		{Name: "G", Doc: lang.L("All crumb photos"), Do: p.toAll},
		{Name: "0", Doc: lang.L("The whole picture"), Do: func() { p.picture.view.SetView(kit.WholePicture) }},
		{Name: "Enter", Doc: lang.L("Close the outline"), Do: func() { p.picture.pad.finish() }, Hidden: true},
		{Name: "Backspace", Doc: lang.L("Remove the last corner"), Do: p.picture.pad.takeBack, Hidden: true},
		{Name: "Esc", Doc: lang.L("Put the tool down and go back"), Do: p.leave},
	}
}

// Shown loads the photo and measures it.
func (p *measurePage) Shown() {
	p.Base.Shown()
	if u := p.env.Units(); u != p.units {
		p.units = u
		p.build()
	}
	p.refresh(0)
}

// Left lets the picture go.
func (p *measurePage) Left() {
	p.Base.Left()
	p.saveNext = false
	p.picture.begin(noTool)
	p.session.free()
	p.picture.setResult(nil, nil)
	p.picture.view.Clear()
	p.picture.photo, p.picture.flat = nil, false
	p.loaded, p.asked = "", nil
	p.quiet()
}

// Changed measures again when what was said of the slice has changed.
func (p *measurePage) Changed(c journal.Changed) {
	switch {
	case !p.Here():
	case c.TouchesKind(journal.KindSettings):
		if u := p.env.Units(); u != p.units {
			p.units = u
			p.build()
		}
		p.refresh(0)
	case c.Touches(p.id):
		wait := time.Duration(0)
		if c.Typed {
			wait = typing
		}
		p.refresh(wait)
	case c.TouchesKind(journal.KindBake):
		p.refresh(0)
	}
}

// refresh shows the photo as the journal has it, and measures it after wait when it
// is not what was measured.
func (p *measurePage) refresh(wait time.Duration) {
	ph, err := journal.Get[journal.Photo](p.env.Journal, p.id)
	if errors.Is(err, journal.ErrNotFound) {
		p.session.free()
		p.page.SetHeading(lang.L("This photo is no longer in the journal"))
		return
	}
	if p.env.Failed(err) {
		return
	}
	p.page.SetEyebrow(eyebrow(p.env, ph))
	if p.loaded != ph.Hash {
		p.loaded = ph.Hash
		p.load(ph)
	}
	if p.asked == nil || !journal.SameCrumb(p.asked, ph) {
		p.measure(ph, wait)
	}
	p.sync(ph)
}

// sync fills the page from the photo and what was measured of it.
func (p *measurePage) sync(ph *journal.Photo) {
	slice := sliceOf(ph)
	s := p.summaryShown()
	p.setting.sync(slice, p.units)
	p.picture.setSlice(slice, p.outlineFound())
	p.figures.sync(s, p.units)
	p.page.SetHeading(p.heading(s))
	p.page.SetActions(nil, p.actions()...)
	kit.SetVisible(p.figures.box, p.summary != nil)
}

func (p *measurePage) summaryShown() crumb.Summary {
	if p.summary == nil {
		return crumb.Summary{}
	}
	return *p.summary
}

func (p *measurePage) heading(s crumb.Summary) string {
	switch {
	case p.broken != nil:
		return p.env.Units().ErrorText(p.broken)
	case p.summary == nil:
		return lang.L("Measuring the crumb")
	}
	return heading(s, p.units)
}

// actions offer what comes next: to draw where nothing was found, else to compare.
func (p *measurePage) actions() []fyne.CanvasObject {
	if p.summary == nil || len(p.summary.Outline) == 0 {
		return []fyne.CanvasObject{
			kit.PrimaryButton(lang.L("Draw the outline"), func() { p.take(outlineTool) }).WithKey("O"),
			kit.NewButton(lang.L("Draw a box"), func() { p.take(boxTool) }).WithKey("B")}
	}
	return []fyne.CanvasObject{
		kit.PrimaryButton(lang.L("Compare"), p.compare).WithKey("S"),
		kit.NewButton(lang.L("Same slice, retaken"), p.retake).WithKey("A"),
		kit.NewButton(lang.L("Save"), p.export).WithKey("X")}
}

func (p *measurePage) explain() { explain(p.env.Window) }
func (p *measurePage) toAll()   { p.env.Go(pages.Route{Name: pages.Crumb}) }

func (p *measurePage) leave() {
	if p.picture.pad.busy() {
		p.take(noTool)
		return
	}
	p.env.Back()
}
