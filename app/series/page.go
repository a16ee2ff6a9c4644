package series

import (
	"context"
	"errors"
	"image"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/app/past"
	"twinloaf/journal"
	"twinloaf/journal/jar"
	"twinloaf/journal/measure"
)

// seriesPage shows one row of pictures: the picture at hand with what was found drawn over
// it, the film, and the curve.
type seriesPage struct {
	pages.Base
	env     *pages.Env
	id      journal.ID
	page    *kit.Page
	view    *kit.PhotoView
	lines   *lines
	film    *filmstrip
	told    *kit.Text
	side    *side
	rec     *journal.Series
	names   []string // of what is in the jars
	from    []time.Time
	doughs  []*journal.Bake // whose dough is in the jars; nil for a culture
	mm      []float64       // how high the levels lie, in millimetres; 0 where that is not known
	now     state
	at      int // the picture shown
	jar     int // the jar at hand
	asking  bool
	loaded  string // hash of the picture shown
	working bool
	why     error // why it stopped
	session *session
	stops   []func()
	loading func()
}

func open(env *pages.Env, at pages.Route) (pages.Page, error) {
	if _, err := journal.Get[journal.Series](env.Journal, at.ID); err != nil {
		return nil, err
	}
	p := &seriesPage{env: env, id: at.ID, view: kit.NewPhotoView(env.Main), told: kit.Small(" ")}
	p.lines = newLines(p.view)
	p.lines.changed, p.lines.drawn = p.setLines, p.draw
	p.film = newFilmstrip(p.goTo)
	p.side = newSide(p)
	left := container.New(overFilm{}, p.view, p.film, p.told)
	p.page = kit.NewPage(kit.PageOptions{Eyebrow: " ", Heading: " ", Fixed: true,
		Body: container.New(&beside{}, left, p.side.object)})
	p.Base = pages.Base{Body: p.page, Name: lang.L("A row of pictures")}
	return p, nil
}

func (p *seriesPage) Keys() []kit.Key {
	return []kit.Key{
		{Name: "Left", Doc: lang.L("the picture before"), Do: func() { p.step(-1) }},
		{Name: "Right", Doc: lang.L("the picture after"), Do: func() { p.step(1) }},
		{Name: "Up", Doc: lang.L("ten pictures back"), Do: func() { p.step(-10) }},
		{Name: "Down", Doc: lang.L("ten pictures on"), Do: func() { p.step(10) }},
		{Name: "N", Doc: lang.L("the next gap in the curve"), Do: p.nextGap},
		{Name: "L", Doc: lang.L("lines of the jar, or the surface"), Do: p.turnLines},
		{Name: "D", Doc: lang.L("forget what was drawn on this picture"), Do: func() { p.draw(0) }},
		{Name: "O", Doc: lang.L("keep the original of this picture"), Do: p.keepOriginal},
		{Name: "J", Doc: lang.L("the other jar, or another one"), Do: p.otherJar},
		{Name: "W", Doc: lang.L("stop, or go on"), Do: p.turnWork},
		{Name: "X", Doc: lang.L("save the figures, the film or the chart"), Do: p.save},
		{Name: "Delete", Doc: lang.L("move this row of pictures to the bin"), Do: p.bin},
		{Name: "B", Doc: lang.L("back to the feeding or the bake"), Do: p.back},
	}
}

// Shown has the row worked through.
func (p *seriesPage) Shown() {
	p.Base.Shown()
	p.read(true)
}

// Left stops the work, which goes on when the page is shown again, and lets the picture go.
func (p *seriesPage) Left() {
	p.Base.Left()
	p.halt()
	p.view.Clear()
	p.loaded = ""
}

func (p *seriesPage) halt() {
	for _, stop := range p.stops {
		stop()
	}
	p.stops, p.working = nil, false
}

// Changed reads the record again. Other lines, another jar and another clock begin the
// work anew; a height that was drawn only has the curve found again.
func (p *seriesPage) Changed(c journal.Changed) {
	switch {
	case !p.Here():
	case c.Touches(p.id), c.TouchesKind(journal.KindSettings, journal.KindCulture, journal.KindFeeding, journal.KindBake):
		p.read(false)
	}
}

// read reads the record; begin has it worked through.
func (p *seriesPage) read(begin bool) {
	rec, err := journal.Get[journal.Series](p.env.Journal, p.id)
	if err != nil || rec.InBin() {
		p.halt()
		if err != nil && !errors.Is(err, journal.ErrNotFound) {
			p.env.Fail(err)
		}
		p.page.SetHeading(lang.L("This row of pictures is no longer in the journal"))
		return
	}
	before := p.rec
	p.rec = rec
	p.jar = min(p.jar, max(0, len(rec.Jars)-1))
	p.readNames()
	switch {
	case begin, p.session == nil, !p.session.suits(rec):
		p.asking = p.asking || slices.ContainsFunc(rec.Jars, func(j journal.SeriesJar) bool { return j.Found || !j.Marked() })
		p.begin()
	case before != nil && !sameDrawn(before, rec):
		p.again()
	case before != nil && unlooked(before) && !unlooked(rec) && !p.working:
		p.finish()
	}
	p.sync()
}

func sameDrawn(a, b *journal.Series) bool {
	return slices.EqualFunc(a.Jars, b.Jars, func(x, y journal.SeriesJar) bool {
		return slices.EqualFunc(x.Drawn, y.Drawn, func(d, e journal.DrawnRise) bool { return d.Photo == e.Photo && d.Rise == e.Rise })
	})
}

// readNames reads what is in the jars, and since when.
func (p *seriesPage) readNames() {
	p.names, p.from, p.doughs, p.mm = nil, nil, nil, nil
	for _, j := range p.rec.Jars {
		name, from := lang.L("dough"), p.rec.From.Add(-p.rec.Ahead)
		mm, _ := j.LevelMM()
		if c, err := journal.Get[journal.Culture](p.env.Journal, j.Culture); err == nil {
			name = c.Name
		}
		if f, err := journal.Get[journal.Feeding](p.env.Journal, j.Feeding); err == nil {
			from = f.At
			if mm == 0 && f.StartMM != nil {
				mm = *f.StartMM
			}
		}
		var dough *journal.Bake
		if b, err := journal.Get[journal.Bake](p.env.Journal, j.Bake); err == nil {
			dough, name = b, past.Name(b.Name)
			if d, ok := b.Bulk(); ok {
				from = d.Began
			}
		}
		p.names, p.from, p.doughs, p.mm = append(p.names, name), append(p.from, from), append(p.doughs, dough), append(p.mm, mm)
	}
}

// sync fills the page from what is known.
func (p *seriesPage) sync() {
	u := p.env.Units()
	p.page.SetEyebrow(lang.L("{{.What}} · row of pictures “{{.Name}}”", map[string]any{"What": strings.Join(p.names, " · "), "Name": p.rec.Name}))
	p.page.SetHeading(p.heading(u))
	p.page.SetActions(nil, p.actions()...)
	n := len(p.now.frames)
	p.at = max(0, min(p.at, n-1))
	var film image.Image
	lost := make([]bool, n)
	if p.jar < len(p.now.films) {
		film = p.now.films[p.jar]
		for i, point := range p.now.curves[p.jar].Points {
			lost[i] = point.Lost != jar.Kept
		}
	}
	p.film.set(film, n, lost)
	p.film.show(p.at)
	p.side.sync(u)
	p.page.Refresh()
	p.showPicture()
}

func (p *seriesPage) heading(u measure.Units) string {
	switch {
	case p.why != nil:
		return u.ErrorText(p.why)
	case p.asking && p.rec.Jars[p.jar].Found:
		return lang.L("Do the lines lie right?")
	case p.working && p.waiting():
		return lang.L("The pictures are being read")
	case p.working:
		return lang.L("The pictures are being looked at")
	case p.waiting():
		return lang.L("Not all pictures were read yet")
	case p.jar >= len(p.now.curves):
		return lang.L("A row of pictures")
	}
	out := curveHeading(p.now.curves[p.jar], p.from[p.jar], u)
	if d, ok := p.bulk(p.jar); ok {
		out = bulkHeading(d, out, u)
	}
	if len(p.names) > 1 {
		out = p.names[p.jar] + ": " + out
	}
	return out
}

// actions offer what comes next.
func (p *seriesPage) actions() []fyne.CanvasObject {
	var out []fyne.CanvasObject
	switch {
	case len(p.now.frames) == 0:
	case p.asking && p.rec.Jars[p.jar].Found:
		out = append(out, kit.PrimaryButton(lang.L("They lie right"), p.turnLines).WithKey("L"))
	case p.asking:
		out = append(out, kit.PrimaryButton(lang.L("The lines are drawn"), p.turnLines).WithKey("L"))
	}
	switch {
	case p.working:
		out = append(out, kit.NewButton(lang.L("Stop"), p.turnWork).WithKey("W"))
	case p.waiting() || p.why != nil:
		out = append(out, kit.NewButton(lang.L("Go on"), p.turnWork).WithKey("W"))
	}
	if !p.asking {
		out = append(out, kit.NewButton(lang.L("Lines of the jar"), p.turnLines).WithKey("L"))
	}
	other := lang.L("Another jar")
	if len(p.rec.Jars) > 1 {
		other = lang.L("The other jar")
	}
	return append(out, kit.NewButton(other, p.otherJar).WithKey("J"), kit.NewButton(lang.L("Save"), p.save).WithKey("X"))
}

// point is that of the picture shown, in the jar at hand.
func (p *seriesPage) point() (journal.SeriesPoint, bool) {
	if p.jar >= len(p.now.curves) || p.at >= len(p.now.curves[p.jar].Points) {
		return journal.SeriesPoint{Move: jar.Move{Zoom: 1}}, false
	}
	return p.now.curves[p.jar].Points[p.at], true
}

// showPicture shows the picture at hand and what was found in it.
func (p *seriesPage) showPicture() {
	if len(p.now.frames) == 0 {
		p.told.SetText(" ")
		return
	}
	if p.asking {
		p.at = 0 // the lines are drawn on the first
		p.film.show(0)
	}
	f := p.now.frames[p.at]
	point, known := p.point()
	overlay := func() {
		if p.asking && p.lines.amiss {
			return // they are being dragged
		}
		one := p.rec.Jars[p.jar]
		p.lines.known = 0
		if one.KnownMM != nil {
			p.lines.known = one.Known
		}
		p.lines.show(one.Marks(), point.Move, point.Rise, p.asking)
	}
	p.told.SetText(p.wordsAt(f, point, known))
	if p.loaded == f.Hash {
		overlay()
		return
	}
	kit.End(&p.loading)
	p.loading = pages.Fetch(p.env, func(ctx context.Context) (*image.RGBA, error) { return p.env.Journal.FullSize(ctx, f.Hash, 0) }, func(img *image.RGBA, err error) {
		if p.env.Failed(err) {
			return
		}
		p.loaded = f.Hash
		p.view.SetPicture(img)
		overlay()
	})
}

// wordsAt says when a picture was taken and what was found in it.
func (p *seriesPage) wordsAt(f *journal.Photo, point journal.SeriesPoint, known bool) string {
	u := p.env.Units()
	at := p.rec.TakenAt(f).In(p.env.Now().Location())
	when := u.Moment(at, p.env.Now())
	if after := at.Sub(p.from[p.jar]).Round(time.Minute); after > 0 {
		when = lang.L("{{.When}}, after {{.Span}}", map[string]any{"When": when, "Span": u.Span(after)})
	}
	what := ""
	if known {
		what = heightWords(point, p.mm[p.jar], u)
	}
	if f.Taken.IsZero() {
		what += " " + lang.L("The time is only that of its file.")
	}
	return lang.L("Picture {{.I}} of {{.N}}, {{.When}}: {{.What}}", map[string]any{"I": p.at + 1, "N": len(p.now.frames), "When": when, "What": what})
}

func (p *seriesPage) step(by int) { p.goTo(p.at + by) }

func (p *seriesPage) goTo(i int) {
	if i < 0 || i >= len(p.now.frames) {
		return
	}
	p.asking = p.asking && i == 0
	p.at = i
	p.film.show(i)
	p.side.syncChart(p.env.Units())
	p.side.offerOriginals(p.env.Units())
	p.showPicture()
	p.page.SetActions(nil, p.actions()...)
	p.page.SetHeading(p.heading(p.env.Units()))
}

// nextGap goes to the next picture without a height.
func (p *seriesPage) nextGap() {
	if p.jar >= len(p.now.curves) {
		return
	}
	points := p.now.curves[p.jar].Points
	for k := range points {
		if i := (p.at + 1 + k) % len(points); points[i].Lost != jar.Kept {
			p.goTo(i)
			return
		}
	}
	p.env.Say(lang.L("The curve has no gap."), false)
}

func (p *seriesPage) back() {
	if p.rec == nil { // it has not been read yet
		p.env.Back()
		return
	}
	j := p.rec.Jars[p.jar]
	if j.Feeding != "" {
		p.env.Go(pages.At(pages.Feeding, j.Feeding))
		return
	}
	p.env.Go(pages.At(pages.Bake, j.Bake))
}
