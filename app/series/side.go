package series

import (
	"fmt"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"
	"fyne.io/fyne/v2/layout"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/jar"
	"twinloaf/journal/measure"
)

// side is the column at the right: the curve, what is known of it, the clock, the originals.
type side struct {
	page      *seriesPage
	object    fyne.CanvasObject
	chart     *kit.ChartFrame
	progress  *kit.Text
	facts     *kit.Text
	clock     *kit.WhenField
	known     *kit.QuantityField
	originals *kit.PhotoStrip
	stored    []*journal.Photo
	left      map[journal.ID]int64 // bytes of the originals that could still be kept, by frame
	keepOne   *kit.Link
	keepAll   *kit.Link
	box       *fyne.Container
	learned   *kit.Text
}

func newSide(p *seriesPage) *side {
	s := &side{page: p, progress: kit.Strong(""), facts: kit.Body("")}
	s.chart = p.env.NewChart(lang.L("rise"), fyne.NewSize(look.Space(80), look.Space(75)), func(m charts.Mark) {})
	s.clock = kit.NewWhenField(kit.WhenOptions{Label: lang.L("The first picture was taken"), Now: p.env.Now, Units: p.env.Units(), OnChanged: p.setFirst})
	s.originals = kit.NewPhotoStrip(p.env.Thumbs, fyne.NewSize(look.Space(24), look.Space(32)), 1, nil)
	s.originals.OnOpen = func(i int) { p.env.Go(pages.At(pages.Photo, s.stored[i].ID)) }
	s.keepOne, s.keepAll = kit.NewLink("", p.keepOriginal), kit.NewLink("", p.keepAll)
	s.box = kit.Stack(2, kit.Section(lang.L("Originals kept")), s.originals, s.keepOne, s.keepAll)
	s.known = kit.NewQuantityField(kit.QuantityOptions{Label: lang.L("A known height"), Measure: p.env.Units().Length(), Keep: p.setKnown, OnDone: p.showKnown})
	s.learned = kit.Small(lang.L("Forecasts of later feedings learn the form of the rise from it. This feeding's own peak is foretold no better from it after two hours than from two readings by hand, as trials on made-up cultures showed."))
	column := kit.Stack(5, s.chart, s.progress, s.facts, s.clock,
		kit.Small(lang.L("Set it by one moment that you know, if the camera's clock was off: all pictures move with it.")),
		s.known, kit.Small(lang.L("How high over the bottom something is that you see in the picture: the rim, or a mark. Then drag its line there, and heights are told as lengths, too.")), s.box, s.learned)
	s.object = container.NewVScroll(container.New(layout.NewCustomPaddedLayout(0, 0, 0, look.Space(4)), column)) // beside the bar
	return s
}

// sync fills the column.
func (s *side) sync(u measure.Units) {
	p := s.page
	s.syncChart(u)
	total := len(p.rec.Files)
	words := ""
	if p.working && p.waiting() {
		words = lang.L("{{.Done}} of {{.Total}} pictures are read.", map[string]any{"Done": len(p.now.frames), "Total": total})
	} else if p.waiting() {
		words = lang.L("{{.Done}} of {{.Total}} pictures were read. Go on reads the others from {{.Folder}}.", map[string]any{"Done": len(p.now.frames), "Total": total, "Folder": p.rec.Folder})
	}
	s.progress.SetText(words)
	s.progress.Hidden = words == ""
	facts := s.words(u)
	s.facts.SetText(facts)
	s.facts.Hidden = facts == ""
	kit.SetVisible(s.clock, len(p.now.frames) > 0)
	if len(p.now.frames) > 0 {
		s.clock.SetTime(p.rec.TakenAt(p.now.frames[0]).In(p.env.Now().Location()))
	}
	s.known.Set(p.rec.Jars[p.jar].KnownMM)
	s.syncOriginals(u)
	s.learned.Hidden = len(p.now.curves) == 0 || p.rec.Jars[p.jar].Feeding == ""
	s.object.Refresh()
}

// syncChart draws the curves, and the picture at hand in them.
func (s *side) syncChart(u measure.Units) {
	p := s.page
	s.chart.Name = pages.FileName(p.rec.Name, lang.L("row of pictures"), "")
	curves := pages.RiseCurves{Curves: p.now.curves, Names: p.names, Looks: pages.LooksOfJars(p.env.Journal, p.rec), At: p.at, Zone: p.env.Now().Location(), Doughs: p.bulks()}
	s.chart.SetSpec(curves.Plot(u))
}

// words tell what the row is and what came of it.
func (s *side) words(u measure.Units) string {
	p := s.page
	if len(p.now.frames) == 0 && p.working {
		return "" // it is not known yet
	}
	if len(p.now.frames) == 0 {
		return lang.L("Nothing is read yet.")
	}
	shots := make([]jar.Shot, len(p.now.frames))
	for i, f := range p.now.frames {
		shots[i] = jar.Shot{Name: f.Name, Taken: p.rec.TakenAt(f)}
	}
	o := jar.Ordered(shots)
	out := lang.L("{{.N}} pictures from {{.From}} to {{.To}}, one every {{.Every}}.", map[string]any{
		"N": len(o.At), "From": u.Moment(o.At[0].In(p.env.Now().Location()), p.env.Now()),
		"To": u.Clock(o.At[len(o.At)-1].In(p.env.Now().Location())), "Every": u.Span(o.Every.Round(time.Minute))})
	add := func(s string) {
		if s != "" {
			out += " " + s
		}
	}
	if n := len(o.Gaps); n > 0 {
		add(lang.N("In {{.N}} places the camera missed some.", n, map[string]any{"N": n}))
	}
	if n := len(p.rec.Refused); n > 0 {
		add(lang.N("{{.N}} files could not be read.", n, map[string]any{"N": n}))
	}
	if p.asking {
		add(lang.L("Where the camera looks down on the surface, draw the level through the middle of what is seen of it, not along its far rim."))
	}
	if p.jar < len(p.now.curves) {
		add(peakWords(p.now.curves[p.jar], p.env.Now().Location(), u))
		add(lostWords(p.now.curves[p.jar]))
		add(lang.L("The heights are worked out from the pictures (method {{.V}}); drag the surface on any picture to correct it, and the rest follows.", map[string]any{"V": fmt.Sprint(jar.MethodVersion)}))
	}
	return out
}

// syncOriginals shows the originals that are kept.
func (s *side) syncOriginals(u measure.Units) {
	p := s.page
	if p.working {
		return // they are looked up among all pictures, once that is over
	}
	stored, err := journal.OriginalsOf(p.env.Journal, p.now.frames)
	if p.env.Failed(err) {
		return
	}
	s.stored = stored
	const most = 12
	s.stored = s.stored[:min(most, len(s.stored))]
	var items []kit.PhotoItem
	for _, ph := range s.stored {
		items = append(items, kit.PhotoItem{Key: ph.Hash, Title: u.Clock(p.rec.TakenAt(ph).In(p.env.Now().Location())), Plain: true})
	}
	s.originals.SetItems(items)
	s.box.Hidden = len(p.now.frames) == 0
	s.lookForOriginals()
}
