package shelf

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/app/past"
	"twinloaf/journal"
)

// comparePick asks with which others a bake is to be compared, the likeliest first.
type comparePick struct {
	pages.Base
	env    *pages.Env
	id     journal.ID
	page   *kit.Page
	grid   *kit.PhotoGrid
	record *past.BakeIndex
	others []likeness
	chosen []journal.ID
}

func newComparePick(env *pages.Env, id journal.ID) (*comparePick, error) {
	b, err := journal.Get[journal.Bake](env.Journal, id)
	if err != nil {
		return nil, fmt.Errorf("comparing bakes: %w", err)
	}
	p := &comparePick{env: env, id: id}
	p.page = kit.NewPage(kit.PageOptions{Fixed: true, Eyebrow: past.Name(b.Name),
		Heading: lang.L("Compare with which bake?")})
	p.Base = pages.Base{Body: p.page, Name: lang.L("Compare with which bake?"), Read: p.load,
		Of: []journal.Kind{journal.KindBake, journal.KindPhoto, journal.KindTrial, journal.KindSettings}}
	p.grid = kit.NewPhotoGrid(env.Thumbs, fyne.NewSize(212, 150), 2, func() int { return len(p.others) }, p.item)
	p.List = p.grid
	p.grid.OnOpen = func(i int) { p.compare(p.others[i].summary.ID) }
	p.grid.OnChoose = p.choose
	p.showActions()
	return p, nil
}

func (p *comparePick) Keys() []kit.Key {
	return []kit.Key{
		{Name: "G", Doc: lang.L("To the pictures: arrows move, Enter opens, Space chooses for comparing"),
			Do: func() { p.env.Window.Canvas().Focus(p.grid) }},
		{Name: "C", Doc: lang.L("Compare what is chosen"), Do: func() { p.compare("") }},
	}
}

// load reads the record away from the main goroutine.
func (p *comparePick) load() {
	var others []likeness
	pages.Load(p.env, &p.Base, func(_ context.Context, j journal.Source) (record *past.BakeIndex, err error) {
		if record, err = past.Of(j); err == nil {
			others, err = likely(j, record, p.id)
		}
		return record, err
	}, func(record *past.BakeIndex) {
		p.record, p.others = record, others
		p.show()
	})
}

func (p *comparePick) show() {
	if len(p.others) == 0 {
		p.page.SetFoot(nil)
		p.page.SetBody(kit.Empty(kit.GoldenLoaf, lang.L("There is no other past bake yet. Two can be laid side by side once a second one is written down."),
			kit.PrimaryButton(lang.L("Back"), p.env.Back), nil))
		return
	}
	p.page.SetFoot(kit.Small(lang.L("Click or Enter compares the two at once. For three or four, choose the others first, by the tick, Space, or Ctrl and a click, then press C.")))
	p.page.SetBody(p.grid)
	p.grid.Refresh()
}

// item is what a cell shows: why the bake stands where it does.
func (p *comparePick) item(i int) kit.PhotoItem {
	if i < 0 || i >= len(p.others) {
		return kit.PhotoItem{}
	}
	o := p.others[i]
	s := wording{record: p.record, units: p.env.Units(), now: p.env.Now()}
	it := kit.PhotoItem{Key: o.summary.Cover, Title: past.Name(o.summary.Name), Loaf: loafOf(o.summary),
		Sub: s.units.Day(o.summary.At, s.now), Chosen: slices.Contains(p.chosen, o.summary.ID), Choosable: true}
	if why := o.words(); why != "" {
		it.Sub = why + " · " + it.Sub
	}
	if o.summary.Score() > 0 {
		it.Right = s.count(o.summary.Score())
	}
	return it
}

// choose takes a bake among those to be compared, or out again.
func (p *comparePick) choose(i int) {
	if i < 0 || i >= len(p.others) {
		return
	}
	id := p.others[i].summary.ID
	switch at := slices.Index(p.chosen, id); {
	case at >= 0:
		p.chosen = slices.Delete(p.chosen, at, at+1)
	case len(p.chosen) == mostCompared-1:
		p.env.Say(lang.L("Four can be compared at a time."), false)
		return
	default:
		p.chosen = append(p.chosen, id)
	}
	p.showActions()
	p.grid.Refresh()
}

func (p *comparePick) showActions() {
	if len(p.chosen) == 0 {
		p.page.SetActions(nil)
		return
	}
	p.page.SetActions(nil, kit.PrimaryButton(lang.L("Compare {{.N}}", map[string]any{"N": len(p.chosen) + 1}), func() { p.compare("") }).WithKey("C"))
}

// compare lays the bake beside those that are chosen and one more, if it is given.
func (p *comparePick) compare(more journal.ID) {
	ids := append([]journal.ID{p.id}, p.chosen...)
	if more != "" && !slices.Contains(ids, more) {
		ids = append(ids, more)
	}
	switch {
	case len(ids) < 2:
		p.env.Say(lang.L("Choose a bake first: Space, the tick, or Ctrl and a click."), false)
	case len(ids) > mostCompared:
		p.env.Say(lang.L("Four can be compared at a time."), false)
	default:
		p.env.Go(comparePlace(ids...))
	}
}

// likeness is a bake with what it has in common with another.
type likeness struct {
	summary        *journal.BakeSummary
	formula, trial bool
	flour          float64 // how much of the flour is the same, in percent of it
}

// likely lists the past bakes beside one, those first that are most worth laying beside
// it: of the same formula in any version, of the same trial, of the same flour, then the
// nearest in time.
func likely(j journal.Source, record *past.BakeIndex, id journal.ID) ([]likeness, error) {
	b, err := journal.Get[journal.Bake](j, id)
	if err != nil {
		return nil, err
	}
	formulas, err := journal.All[journal.Formula](j)
	if err != nil {
		return nil, err
	}
	family := map[journal.ID]journal.ID{}
	for _, f := range formulas {
		family[f.ID] = f.Family
	}
	kin := func(f journal.ID) journal.ID {
		if of, ok := family[f]; ok && of != "" {
			return of
		}
		return f
	}
	var own *journal.BakeSummary
	summaries, err := j.BakeSummaries()
	if err != nil {
		return nil, err
	}
	for _, c := range summaries {
		if c.ID == id {
			own = c
		}
	}
	var out []likeness
	for _, c := range record.Bakes {
		if c.ID == id {
			continue
		}
		l := likeness{summary: c,
			formula: b.Formula != "" && kin(c.Formula) == kin(b.Formula) || b.From == c.ID,
			trial:   b.Trial != "" && c.Trial == b.Trial}
		if own != nil {
			l.flour = sharedFlour(own, c)
		}
		out = append(out, l)
	}
	slices.SortStableFunc(out, func(x, y likeness) int {
		if d := y.rank() - x.rank(); d != 0 {
			return d
		}
		return int(x.summary.At.Sub(b.At).Abs().Hours()) - int(y.summary.At.Sub(b.At).Abs().Hours())
	})
	return out, nil
}

// rank orders bakes by what they have in common; flour counts in tenths.
func (l likeness) rank() int {
	n := int(l.flour / 10)
	if l.trial {
		n += 20
	}
	if l.formula {
		n += 40
	}
	return n
}

// words say what is the same.
func (l likeness) words() string {
	var parts []string
	if l.formula {
		parts = append(parts, lang.L("same formula"))
	}
	if l.trial {
		parts = append(parts, lang.L("same trial"))
	}
	if len(parts) == 0 && l.flour >= 90 {
		parts = append(parts, lang.L("same flour"))
	}
	return strings.Join(parts, ", ")
}

// sharedFlour is how much of the flour two bakes have in common, in percent.
func sharedFlour(a, b *journal.BakeSummary) float64 {
	sum := 0.0
	for _, f := range a.Flours {
		for _, g := range b.Flours {
			if f.Key == g.Key {
				sum += float64(min(f.Share, g.Share))
			}
		}
	}
	return sum
}
