package cultures

import (
	"context"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/charts"
	"twinloaf/journal"
	"twinloaf/journal/histories"
)

// openEntry opens one thing that was recorded, to look at it or alter it.
func openEntry(env *pages.Env, l *histories.CultureHistory, ref journal.Ref) {
	switch ref.Kind {
	case journal.KindFeeding:
		for _, f := range l.Feedings {
			switch {
			case f.ID != ref.ID:
			case histories.Taking(f) && len(f.Taken) > 1: // for more than the sheet of a taking asks for
				refeed(env, l, f)
			case histories.Taking(f):
				retake(env, l, f)
			default:
				env.Go(pages.At(pages.Feeding, f.ID))
			}
		}
	case journal.KindReading:
		for _, r := range l.Readings {
			if r.ID == ref.ID {
				reread(env, l, r)
			}
		}
	case journal.KindMove:
		for _, m := range l.Moves {
			if m.ID == ref.ID {
				alterMove(env, l, m)
			}
		}
	case journal.KindTempLog:
		binEntry(env, ref)
	}
}

// binEntry throws one thing that was recorded away.
func binEntry(env *pages.Env, ref journal.Ref) {
	switch ref.Kind {
	case journal.KindFeeding:
		binFeeding(env, ref.ID)
	case journal.KindReading:
		binReading(env, ref.ID)
	case journal.KindMove:
		if env.Do(lang.L("deleting a move"), func(tx *journal.Tx) error { return journal.MoveToBin[journal.Move](tx, ref.ID) }) {
			env.Say(lang.L("The move was deleted."), true)
		}
	case journal.KindTempLog:
		log, err := journal.Get[journal.TempLog](env.Journal, ref.ID)
		if env.Failed(err) {
			return
		}
		u, now := env.Units(), env.Now()
		holds := lang.L("Temperatures from {{.From}} to {{.To}}: {{.N}}.", map[string]any{"From": u.Moment(log.From, now), "To": u.Moment(log.To, now), "N": log.Count})
		kit.Confirm(env.Window, lang.L("Delete this temperature log?"), holds+" "+lang.L("It goes to the bin; you can restore it from there."), lang.L("Delete"), func() {
			if env.Do(lang.L("deleting a temperature log"), func(tx *journal.Tx) error { return journal.MoveToBin[journal.TempLog](tx, ref.ID) }) {
				env.Say(lang.L("The temperature log was deleted."), true)
			}
		})
	}
}

// latestSection shows what was recorded last.
type latestSection struct {
	page *culturePage
	box  *fyne.Container
	said string // what is shown
}

// latestLength is how many entries the page of a culture shows.
const latestLength = 7

func newLatestSection(p *culturePage) *latestSection {
	return &latestSection{page: p, box: kit.Stack(1)}
}

func (t *latestSection) show(p *portrait) {
	u := t.page.env.Units()
	all := p.entries
	said := ""
	for _, e := range all[:min(latestLength, len(all))] {
		said += u.When(e.at, p.now) + e.words + "\n"
	}
	if said == t.said && len(t.box.Objects) > 0 {
		return // the links keep the keyboard's place
	}
	t.said = said
	t.box.Objects = []fyne.CanvasObject{kit.Section(lang.L("Latest entries"))}
	if len(all) == 0 {
		t.box.Add(kit.Faint(lang.L("Nothing yet. Feed it, and look at it some hours later.")))
	}
	for _, e := range all[:min(latestLength, len(all))] {
		words := kit.Span{Text: e.words}
		if e.alarm {
			words.Color = look.ColorEmber
		}
		open := func() { openEntry(t.page.env, t.page.now.life, e.ref) }
		when := kit.NewLinkSpan(kit.Span{Text: u.When(e.at, p.now), Color: look.ColorFaint}, open)
		t.box.Add(kit.RowGrow(4, 1, kit.Width(look.Space(34), when), kit.NewText(words)))
	}
	if len(all) > latestLength {
		t.box.Add(kit.NewLink(lang.L("Full history ({{.N}})", map[string]any{"N": len(all)}), t.page.history))
	}
	t.box.Refresh()
}

// historyPage lists everything that was recorded of a culture, the latest first, a day
// at a time; the pills above narrow it to a sort of entry.
type historyPage struct {
	pages.Base
	env     *pages.Env
	at      pages.Route
	page    *kit.Page
	pick    *fyne.Container // the pills
	offered []string        // what they say
	head    *entryRow       // over the columns
	list    *kit.RowList
	weeks   picture
	chart   *kit.ChartFrame // beside the list
	life    *histories.CultureHistory
	columns entryColumns
	all     []entry
	shown   []entry
	sort    entrySort // shown alone, or everySort
	found   bool      // the entry that was asked for has been shown
}

// everySort narrows to nothing.
const everySort = entrySort(-1)

func openHistory(env *pages.Env, at pages.Route) (pages.Page, error) {
	c, err := journal.Get[journal.Culture](env.Journal, at.ID)
	if err != nil {
		return nil, err
	}
	h := &historyPage{env: env, at: at, sort: everySort, pick: container.NewStack()}
	h.head = newEntryRow(&h.columns)
	h.list = kit.NewRowList(func() int { return len(h.shown) }, func() fyne.CanvasObject { return newEntryRow(&h.columns) }, h.fill)
	h.list.Plain = true // a rule parts days
	h.list.Least = h.columns.high
	h.list.OnOpen = func(i int) {
		if i < len(h.shown) {
			openEntry(env, h.life, h.shown[i].ref)
		}
	}
	h.list.OnDelete = func(i int) {
		if i < len(h.shown) {
			binEntry(env, h.shown[i].ref)
		}
	}
	h.chart = env.NewChart(lang.L("four weeks"), weeksSize(), func(m charts.Mark) {
		if place, ok := h.weeks.leads(m); ok {
			env.Go(place)
		}
	})
	back := kit.NewButton(lang.L("Back to {{.Name}}", map[string]any{"Name": kit.Fit(kit.Span{Text: nameOf(c)}, look.Space(45))}), func() { env.Go(pages.At(pages.Culture, at.ID)) })
	h.page = kit.NewPage(kit.PageOptions{
		Eyebrow: nameOf(c), Heading: lang.L("Full history"), Fixed: true,
		Body: container.NewBorder(kit.Stack(3, h.pick, kit.Gap(0)), nil, nil, nil,
			kit.BesideList(container.NewBorder(h.head, nil, nil, nil, h.list),
				kit.Stack(0, kit.Grown(1, weeksSize().Height, look.Space(120), h.chart)))),
		Actions: []fyne.CanvasObject{back},
		Hint:    kit.Small(lang.L("Enter opens an entry, Del moves it to the bin.")),
	})
	h.Base = pages.Base{Body: h.page, Name: lang.L("Full history"), Read: h.load, Of: shownKinds}
	return h, nil
}

// Start puts the keyboard in the list.
func (h *historyPage) Start() fyne.Focusable { return h.list }

func (h *historyPage) load() {
	now, u := h.env.Now(), h.env.Units()
	var entries []entry
	var weeks picture
	pages.Load(h.env, &h.Base, func(_ context.Context, j journal.Source) (*histories.CultureHistory, error) {
		l, err := histories.Of(j, h.at.ID)
		if err == nil {
			entries, weeks = entriesOf(l, now, u), fourWeeks([]*portrait{sketch(l, now)}, now, u)
		}
		return l, err
	}, func(l *histories.CultureHistory) {
		h.life, h.all, h.weeks = l, entries, weeks
		kit.SetVisible(h.chart, len(weeks.places) > 0)
		h.chart.SetSpec(weeks.figure)
		h.show()
		if !h.found {
			h.found = true
			i := slices.IndexFunc(h.shown, func(e entry) bool { return string(e.ref.ID) == h.at.More })
			h.list.SetCursor(max(0, i))
		}
	})
}

// show lists what the chosen pill lets through.
func (h *historyPage) show() {
	counts := [entrySorts]int{}
	for _, e := range h.all {
		counts[e.sort]++
	}
	if h.sort != everySort && counts[h.sort] == 0 {
		h.sort = everySort // its last entry went to the bin
	}
	h.showPills(counts)
	h.shown = h.all
	if h.sort != everySort {
		h.shown = slices.DeleteFunc(slices.Clone(h.all), func(e entry) bool { return e.sort != h.sort })
	}
	h.columns = columnsOf(h.shown, h.env.Units())
	h.head.setHeads()
	kit.SetVisible(h.head, len(h.shown) > 0)
	h.list.Refresh()
}

// showPills offers the sorts of which there is something.
func (h *historyPage) showPills(counts [entrySorts]int) {
	names := [entrySorts]string{fedEntry: lang.L("Feedings"), takenEntry: lang.L("Taken out and put back"), readEntry: lang.L("Readings"), movedEntry: lang.L("Moves"), loggedEntry: lang.L("Temperature logs")}
	words, sorts := []string{lang.L("All {{.N}}", map[string]any{"N": len(h.all)})}, []entrySort{everySort}
	for sort, n := range counts {
		if n > 0 {
			words = append(words, lang.L("{{.What}} {{.N}}", map[string]any{"What": names[sort], "N": n}))
			sorts = append(sorts, entrySort(sort))
		}
	}
	if slices.Equal(words, h.offered) {
		return // the pills keep the keyboard's place
	}
	h.offered = words
	if len(words) < 3 {
		kit.SetOnly(h.pick, nil)
		return
	}
	kit.SetOnly(h.pick, kit.NewSegments("", words, slices.Index(sorts, h.sort), func(i int) {
		h.sort = sorts[i]
		h.show()
		h.list.SetCursor(0)
	}))
}

func (h *historyPage) fill(i int, o fyne.CanvasObject) {
	r, ok := o.(*entryRow)
	if !ok || i >= len(h.shown) {
		return
	}
	day := h.shown[i].day
	if i > 0 && day == h.shown[i-1].day {
		day = ""
	}
	r.set(h.shown[i], day, i > 0 && day != "", h.env.Units())
}
