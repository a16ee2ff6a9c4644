package tastings

import (
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/blind"
	"twinloaf/journal/histories"
)

// beginTastingPage asks which two loaves are tasted: a pair that waits, or any two.
type beginTastingPage struct {
	pages.Base
	env       *pages.Env
	page      *kit.Page
	summaries []*journal.BakeSummary // newest first
	chosen    [2]journal.ID
	begin     *kit.Button
	fields    [2]*kit.SuggestField
	when      *kit.WhenField
	at        time.Time // as the baker gave it; zero: as is proposed
	tiles     map[journal.ID]*kit.PhotoTile
}

// recentLoaves is how many bakes are offered by their pictures; the others by name.
const recentLoaves = 12

var (
	pairSize = fyne.NewSize(132, 99)
	loafSize = fyne.NewSize(150, 118)
)

func newBeginTastingPage(env *pages.Env, bakes []journal.ID) (*beginTastingPage, error) {
	summaries, err := env.Journal.BakeSummaries()
	if err != nil {
		return nil, err
	}
	p := &beginTastingPage{env: env, tiles: map[journal.ID]*kit.PhotoTile{}}
	p.summaries = slices.DeleteFunc(slices.Clone(summaries), func(c *journal.BakeSummary) bool { return c.Binned })
	slices.SortStableFunc(p.summaries, func(a, b *journal.BakeSummary) int { return b.At.Compare(a.At) })
	copy(p.chosen[:], bakes)
	p.begin = kit.PrimaryButton(lang.L("Plan the tasting"), p.plan)
	p.page = kit.NewPage(kit.PageOptions{Eyebrow: lang.L("A new tasting"), Heading: lang.L("Which two loaves?"), Actions: []fyne.CanvasObject{p.begin}})
	p.Base = pages.Base{Body: p.page, Name: lang.L("A new tasting")}
	return p, p.build()
}

func (p *beginTastingPage) Keys() []kit.Key {
	return []kit.Key{{Name: "Enter", Doc: lang.L("Plan the tasting"), Do: func() { p.begin.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn}) }}}
}

func (p *beginTastingPage) build() error {
	if len(p.summaries) < 2 {
		p.begin.Hide()
		p.page.SetHeading(lang.L("Two bakes are needed first"))
		p.page.SetBody(kit.Empty(kit.GoldenLoaf, lang.L("A tasting compares two loaves. Bake a fair pair, or write down two bakes."),
			kit.PrimaryButton(lang.L("Bake a fair pair"), func() { p.env.Go(pages.Route{Name: pages.Trial}) }),
			kit.NewLink(lang.L("Open the demo"), p.env.OpenDemo)))
		return nil
	}
	column := kit.Stack(5)
	pairs, err := p.pairs()
	if err != nil {
		return err
	}
	if pairs != nil {
		column.Add(pairs)
		column.Add(kit.Rule())
	}
	column.Add(kit.Section(lang.L("Any two bakes")))
	p.when = kit.NewWhenField(kit.WhenOptions{Label: lang.L("When"), Units: p.env.Units(), Now: p.env.Now,
		OnChanged: func(at time.Time) { p.at = at }})
	column.Add(kit.Columns(look.Space(50), p.field(0, lang.L("One")), p.field(1, lang.L("The other")), p.when))
	column.Add(p.recent())
	column.Add(kit.Small(lang.L("While the tasting is sealed nothing shows which code is which. Allergens are always shown.")))
	p.page.SetBody(column)
	p.show()
	return nil
}

// pairs are the trials of two that are baked and were never tasted; nil without any.
func (p *beginTastingPage) pairs() (fyne.CanvasObject, error) {
	trials, err := journal.All[journal.Trial](p.env.Journal)
	if err != nil {
		return nil, err
	}
	rows := kit.Stack(4)
	for _, t := range slices.Backward(trials) {
		bakes, err := journal.TrialBakes(p.env.Journal, t)
		if err != nil {
			return nil, err
		}
		tastings, err := journal.Linked[journal.Tasting](p.env.Journal, t.ID)
		if err != nil {
			return nil, err
		}
		baked := !slices.ContainsFunc(bakes, func(b *journal.Bake) bool { return !b.State.Over() || b.InBin() })
		if t.InBin() || len(bakes) != 2 || !baked || len(tastings) > 0 {
			continue
		}
		row, err := p.pair(t, bakes)
		if err != nil {
			return nil, err
		}
		rows.Add(row)
	}
	if len(rows.Objects) == 0 {
		return nil, nil
	}
	return kit.Stack(3, kit.Section(lang.L("Fair pairs that wait to be tasted")), rows), nil
}

// pair is one trial that waits: its loaves, what differs, and the way to taste them.
func (p *beginTastingPage) pair(t *journal.Trial, bakes []*journal.Bake) (fyne.CanvasObject, error) {
	pictures := kit.Row(2)
	for _, b := range bakes {
		photos, err := journal.Photos(p.env.Journal, b.ID)
		if err != nil {
			return nil, err
		}
		if ph := pages.MainPhoto(photos); ph != nil {
			cell := kit.NewPhotoCell(p.env.Thumbs, pairSize, 0)
			cell.Set(kit.PhotoItem{Key: ph.Hash}, false)
			pictures.Add(cell)
		}
	}
	words := kit.Stack(1, kit.Subheading(trialName(t)),
		kit.Body(lang.L("They differ in {{.What}}.", map[string]any{"What": variedWord(t.Varied)})),
		kit.Faint(lang.L("baked {{.Day}}", map[string]any{"Day": p.env.Units().Day(bakes[0].At, p.env.Now())})))
	take := kit.NewButton(lang.L("Taste this pair"), func() {
		planTasting(p.env, p.at, t.ID, [2]journal.ID{bakes[0].ID, bakes[1].ID}, blind.Plan{}, "")
	})
	return kit.RowGrow(6, 1, pictures, words, take), nil
}

// field takes one of the two by its name.
func (p *beginTastingPage) field(n int, label string) fyne.CanvasObject {
	words, _ := bakeNames(p.summaries, p.env.Units(), p.env.Now())
	f := kit.NewSuggestField(label, lang.L("the name of a bake"), func(text string) []string { return fitting(words, text) })
	f.OnTaken = func(s string) {
		if i := slices.Index(words, s); i >= 0 {
			p.chosen[n] = p.summaries[i].ID
			p.show()
			p.goOn()
		}
	}
	p.fields[n] = f
	return f
}

// recent are the last bakes that are over, to be chosen by their pictures.
func (p *beginTastingPage) recent() fyne.CanvasObject {
	grid := kit.Tiles(loafSize.Width, 4)
	for _, c := range p.summaries {
		if len(grid.Objects) == recentLoaves {
			break
		}
		if !c.State.Over() {
			continue
		}
		tile := kit.NewPhotoTile(p.env.Thumbs, loafSize, 2, func() { p.choose(c.ID) }).Filling()
		p.tiles[c.ID] = tile
		grid.Add(tile)
	}
	return grid
}

// choose takes a loaf as one of the two, or no longer; a third takes the place of the
// second.
func (p *beginTastingPage) choose(id journal.ID) {
	switch id {
	case p.chosen[0]:
		p.chosen[0] = ""
	case p.chosen[1]:
		p.chosen[1] = ""
	default:
		n := 1
		if p.chosen[0] == "" {
			n = 0
		}
		p.chosen[n] = id
	}
	p.show()
	p.goOn()
}

// goOn has Enter plan the tasting once both are known.
func (p *beginTastingPage) goOn() {
	if !p.begin.Disabled() {
		p.env.Window.Canvas().Focus(p.begin)
	}
}

// show marks what is chosen, and names it.
func (p *beginTastingPage) show() {
	u, now := p.env.Units(), p.env.Now()
	names := map[journal.ID]string{}
	words, whens := bakeNames(p.summaries, u, now)
	for i, c := range p.summaries {
		names[c.ID] = words[i]
		if tile := p.tiles[c.ID]; tile != nil {
			tile.Set(kit.PhotoItem{Key: c.Cover, Loaf: pages.LoafTone(c), Title: named(c.Name, lang.L("a bake")), Sub: whens[i],
				Chosen: slices.Contains(p.chosen[:], c.ID), Choosable: true})
		}
	}
	for n, id := range p.chosen {
		if !p.fields[n].Editing() {
			p.fields[n].SetText(names[id])
		}
	}
	if p.at.IsZero() {
		p.when.SetTime(proposedTime(p.env.Journal, p.chosen, now))
	}
	if p.chosen[0] == "" || p.chosen[1] == "" || p.chosen[0] == p.chosen[1] {
		p.begin.Disable()
		p.page.SetActions(kit.Small(lang.L("Choose two bakes.")), p.begin)
		return
	}
	p.begin.Enable()
	p.page.SetActions(nil, p.begin)
}

func (p *beginTastingPage) plan() {
	planTasting(p.env, p.at, "", p.chosen, blind.Plan{}, "")
}

// planTasting puts a tasting of two bakes into the journal and shows its plan.
// A plan without a method asks whether they can be told apart. Two bakes of one
// trial are tasted as a part of it, wherever they were chosen. Without a time it is
// the one that is proposed.
func planTasting(env *pages.Env, at time.Time, trial journal.ID, bakes [2]journal.ID, plan blind.Plan, again journal.ID) {
	if at.IsZero() {
		at = proposedTime(env.Journal, bakes, env.Now())
	}
	var id journal.ID
	ok := env.Do(lang.L("planning a tasting"), func(tx *journal.Tx) error {
		if err := histories.BarredLoaves(tx, bakes[:]...); err != nil {
			return err
		}
		t, err := journal.NewTasting(tx, journal.TastingPlan{At: at, Trial: trial, Bakes: bakes, Plan: plan, Again: again})
		if err == nil {
			id = t.ID
		}
		return err
	})
	if ok {
		env.Go(to(id, ""))
	}
}
