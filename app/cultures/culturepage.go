package cultures

import (
	"context"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/ferment"
	"twinloaf/journal/histories"
	"twinloaf/journal/say"
)

// culturePage is one culture's life on one page. Its parts are made once, and each
// shows the portrait anew when the journal has changed.
type culturePage struct {
	pages.Base
	env   *pages.Env
	id    journal.ID
	page  *kit.Page
	now   *portrait // as it is shown; nil until it was first painted
	other journal.ID
	still func()

	words   *wordsSection
	weeks   *weeksSection
	facts   *factsSection
	ready   *readySection
	planned *plannedSection
	crumb   *pages.CrumbSection
	photos  *photosSection
	latest  *latestSection
	about   *aboutSection
	reading *readDialog

	feedButton, readButton *kit.Button
}

// A section is a piece of the page that shows the portrait.
type section interface{ show(p *portrait) }

func openCulture(env *pages.Env, at pages.Route) (pages.Page, error) {
	c, err := journal.Get[journal.Culture](env.Journal, at.ID)
	if err != nil {
		return nil, err
	}
	p := &culturePage{env: env, id: at.ID}
	p.page = kit.NewPage(kit.PageOptions{Eyebrow: " ", Heading: nameOf(c)})
	p.Base = pages.Base{Body: p.page, Read: p.load, Of: shownKinds}
	p.feedButton = kit.PrimaryButton(lang.L("Feed"), p.feed).WithKey("F")
	p.readButton = kit.NewButton(lang.L("Reading"), p.read).WithKey("R")
	p.words = newWordsSection(p)
	p.weeks = newWeeksSection(p)
	p.facts = newFactsSection(p)
	p.ready = newReadySection(p)
	p.planned = newPlannedSection(p)
	p.crumb = pages.NewCrumbSection(env)
	p.photos = newPhotosSection(p)
	p.latest = newLatestSection(p)
	p.about = newAboutSection(p, c)
	p.page.SetBody(kit.Stack(6,
		kit.Beside(
			kit.Stack(6,
				kit.Stack(4, p.words.box, p.weeks.box, p.facts.box),
				kit.Rule(),
				kit.Columns(look.Space(90), p.ready.box, p.planned.box),
			),
			kit.Stack(6, p.crumb.Object(), p.photos.box, p.latest.box),
		),
		kit.Rule(),
		p.about.box,
		kit.Small(env.Units().Say(say.Join(ferment.Standing()...))),
	))
	p.page.Hold()
	return p, nil
}

func (p *culturePage) Title() string {
	if p.now == nil {
		return lang.L("Culture")
	}
	return nameOf(p.now.life.Culture)
}

func (p *culturePage) Keys() []kit.Key {
	if p.now == nil {
		return nil
	}
	l := p.now.life
	return []kit.Key{
		{Name: "F", Doc: lang.L("feed"), Do: p.feed},
		{Name: "G", Doc: lang.L("feed as the last time, at once"), Do: p.feedAgain},
		{Name: "R", Doc: lang.L("take a reading"), Do: p.read},
		{Name: "T", Doc: lang.L("take some out, to bake with or give away"), Do: p.take},
		{Name: "M", Doc: lang.L("move it: refrigerator, counter, warm spot"), Do: p.move},
		{Name: "P", Doc: lang.L("plan a build"), Do: p.plan},
		{Name: "L", Doc: lang.L("import a temperature log"), Do: func() { pickLog(p.env, l.Culture) }},
		{Name: "J", Doc: lang.L("add photos of the jar"), Do: p.photos.pick},
		{Name: "E", Doc: lang.L("everything recorded"), Do: p.history},
		{Name: "C", Doc: lang.L("the curve of the latest feeding"), Do: p.curve},
		{Name: "S", Doc: lang.L("split another from it"), Do: p.split},
		{Name: "X", Doc: lang.L("Print or save…"), Do: p.save},
		{Name: "W", Doc: lang.L("take it away, for another computer or baker"), Do: p.takeAway},
	}
}

func (p *culturePage) Shown() {
	p.Base.Shown()
	p.still = p.env.Every(minute, p.load)
}

func (p *culturePage) Left() {
	p.Base.Left()
	p.still()
	p.planned.stop()
}

// load paints the portrait away from the main goroutine, and shows it.
func (p *culturePage) load() {
	now, other, u := p.env.Now(), p.other, p.env.Units()
	pages.Load(p.env, &p.Base, func(ctx context.Context, _ journal.Source) (*portrait, error) {
		return paint(ctx, p.env.Journal, p.id, other, now, u)
	}, p.show)
}

func (p *culturePage) show(por *portrait) {
	p.now = por
	u := p.env.Units()
	p.page.SetEyebrow(eyebrowOf(por, u))
	p.page.SetHeading(headingOf(por.life, por.now))
	var hint fyne.CanvasObject
	if last := likeLast(por.life, por.now); last.total() > 0 {
		hint = kit.NewKeyHint("G", lang.L("at once: {{.Amounts}}", map[string]any{"Amounts": last.amountsWords(u)}))
	}
	saveButton := kit.QuietButton(lang.L("Print or save…"), p.save).WithKey("X")
	switch {
	case !por.life.Culture.Ended.IsZero():
		p.page.SetActions(nil, saveButton)
	case por.guide.Stage == ferment.StageDanger:
		p.page.SetActions(nil, p.readButton, kit.QuietButton(lang.L("It was something else"), p.clear), saveButton)
	default:
		p.page.SetActions(hint, p.feedButton, p.readButton, saveButton)
	}
	for _, part := range []section{p.words, p.weeks, p.facts, p.ready, p.planned, p.photos, p.latest, p.about} {
		part.show(por)
	}
	p.crumb.Show(pages.LookOf(por.life.Culture), func(r journal.Reader) ([]*journal.Bake, error) { return journal.Linked[journal.Bake](r, p.id) })
	p.page.Release()
}

// use does something with the culture, unless it is one with mould or a tint, or one that has
// ended, which is not used any more.
func (p *culturePage) use(do func(*histories.CultureHistory)) {
	if p.now != nil && !refused(p.env, p.now.life) {
		do(p.now.life)
	}
}

func (p *culturePage) feed()      { p.use(func(l *histories.CultureHistory) { feed(p.env, l) }) }
func (p *culturePage) feedAgain() { p.use(func(l *histories.CultureHistory) { feedAgain(p.env, l) }) }
func (p *culturePage) take()      { p.use(func(l *histories.CultureHistory) { take(p.env, l) }) }
func (p *culturePage) plan()      { p.use(func(l *histories.CultureHistory) { planBuild(p.env, l) }) }

// clear lets the baker say that what was seen was no mould and no tint.
func (p *culturePage) clear() {
	if p.now == nil {
		return
	}
	if _, condemned := p.now.life.Condemned(p.env.Now()); !condemned {
		return
	}
	kit.ConfirmLoss(p.env.Window, lang.L("Was it something else?"),
		lang.L("Only if you are sure: a smear of flour, a shadow on a photo, a slip of the finger. Mould that was scraped off, or that cannot be seen today, is still in the jar. When in doubt, throw the culture away."),
		lang.L("It was something else"), func() {
			p.env.Do(lang.L("it was something else"), func(tx *journal.Tx) error {
				return journal.Change(tx, p.id, func(c *journal.Culture) { c.Cleared = p.env.Now() })
			})
		})
}

func (p *culturePage) read() {
	if p.now != nil {
		p.reading = read(p.env, p.now.life)
	}
}

// split begins another culture with a piece of this one.
func (p *culturePage) split() {
	if p.now != nil && refused(p.env, p.now.life) {
		return
	}
	newCulture(p.env, p.id, func(id journal.ID) { p.env.Go(pages.At(pages.Culture, id)) })
}

// takeAway makes an archive of the culture with its diary.
func (p *culturePage) takeAway() {
	if p.now != nil {
		c := p.now.life.Culture
		p.env.TakeAway(nameOf(c), journal.RefOf(c))
	}
}

// move opens the dialog of a move.
func (p *culturePage) move() {
	if p.now != nil {
		moveCulture(p.env, p.now.life)
	}
}

func (p *culturePage) history() {
	p.env.Go(pages.Route{Name: pages.History, ID: p.id})
}

func (p *culturePage) curve() {
	if c, ok := p.now.life.Current(p.now.now); ok && c.Feeding.ID != string(p.id) {
		p.env.Go(pages.At(pages.Feeding, journal.ID(c.Feeding.ID)))
	}
}

// TakePictures takes what was dropped on the page: photos, of which one goes with the
// reading that is being written down, and temperature logs.
func (p *culturePage) TakePictures(pictures []journal.Picture) {
	if p.now == nil {
		return
	}
	var rest []journal.Picture
	for _, pic := range pictures {
		if slices.Contains(logEndings, strings.ToLower(filepath.Ext(pic.Name))) {
			openLog(p.env, p.now.life.Culture, pic.Path)
			continue
		}
		rest = append(rest, pic)
	}
	switch {
	case len(rest) == 0:
	case p.reading != nil && p.reading.sheet.Open():
		p.reading.takePicture(rest[0])
	default:
		p.photos.take(rest)
	}
}
