package crumb

import (
	"context"
	"errors"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/crumb"
)

// listPage shows every crumb photo, with what is still to be measured first.
type listPage struct {
	pages.Base
	env  *pages.Env
	page *kit.Page
	grid *kit.PhotoGrid
	pick *kit.Segments
	busy *fyne.Container // how far the measuring is
	bare fyne.CanvasObject

	all   []entry
	shown []entry
	which int    // state shown, or -1
	stop  func() // ends the measuring of all
}

func newListPage(env *pages.Env) *listPage {
	p := &listPage{env: env, which: -1, busy: container.NewStack()}
	p.grid = kit.NewPhotoGrid(env.Thumbs, fyne.NewSize(196, 147), 2, func() int { return len(p.shown) }, func(i int) kit.PhotoItem {
		if i < 0 || i >= len(p.shown) {
			return kit.PhotoItem{}
		}
		return p.shown[i].item(env.Units())
	})
	p.grid.OnOpen = func(i int) { env.Go(pages.At(pages.Crumb, p.shown[i].photo.ID)) }
	p.pick = kit.NewSegments("", []string{lang.L("All"), lang.L("Not measured"), lang.L("Outline needed"), lang.L("Measured")}, 0, func(i int) {
		p.which = i - 1
		p.fill()
	})
	p.bare = kit.Empty(kit.GoldenLoaf, lang.L("Photos of a bake that show its crumb stand here, to be measured. Say of a bake's photo that it shows the crumb."),
		kit.PrimaryButton(lang.L("To the bakes"), func() { env.Go(pages.Route{Name: pages.Bakes}) }), kit.NewLink(lang.L("Open the demo"), env.OpenDemo))
	p.bare.Hide()
	p.busy.Hide()
	p.page = kit.NewPage(kit.PageOptions{Eyebrow: lang.L("Crumb"), Heading: " ", Fixed: true,
		Body: container.NewBorder(kit.Stack(3, p.pick, p.busy, p.bare, kit.Small(env.Units().Say(crumb.BeforeTaking())), kit.Gap(1)), nil, nil, nil, p.grid)})
	p.Base = pages.Base{Body: p.page, Name: lang.L("Crumb photos"), Read: p.read}
	return p
}

func (p *listPage) Keys() []kit.Key {
	return []kit.Key{
		{Name: "M", Doc: lang.L("Measure all that wait"), Do: p.measureAll},
		{Name: "Esc", Doc: lang.L("Stop measuring; back"), Do: func() {
			if p.stop != nil {
				p.halt()
				return
			}
			p.env.Back()
		}},
	}
}

// Left stops measuring.
func (p *listPage) Left() {
	p.Base.Left()
	p.halt()
}

// Changed reads the list again.
func (p *listPage) Changed(c journal.Changed) {
	if p.Here() && p.stop == nil && c.TouchesKind(journal.KindPhoto, journal.KindBake, journal.KindSettings) {
		p.read()
	}
}

func (p *listPage) read() {
	pages.Load(p.env, &p.Base, func(_ context.Context, j journal.Source) ([]entry, error) { return entriesOf(j) }, func(all []entry) {
		p.all = all
		p.fill()
	})
}

// fill shows the entries that are chosen.
func (p *listPage) fill() {
	p.shown = shownOf(p.all, p.which)
	p.page.SetHeading(listHeading(p.all))
	kit.SetVisible(p.bare, len(p.all) == 0)
	kit.SetVisible(p.pick, len(p.all) > 0)
	kit.SetVisible(p.grid, len(p.all) > 0)
	var actions []fyne.CanvasObject
	if counts(p.all)[unmeasured] > 0 && p.stop == nil {
		actions = append(actions, kit.PrimaryButton(lang.L("Measure all that wait"), p.measureAll).WithKey("M"))
	}
	p.page.SetActions(nil, actions...)
	p.grid.Refresh()
}

// measureAll measures what waits, one photo after the other, in the background.
func (p *listPage) measureAll() {
	todo := waiting(p.all)
	if len(todo) == 0 || p.stop != nil {
		return
	}
	progress := kit.NewProgress(lang.L("Measuring crumb photos"), p.halt)
	progress.Set(0, len(todo), "")
	p.busy.Objects = []fyne.CanvasObject{progress}
	p.busy.Show()
	p.busy.Refresh()
	var failed []error
	p.stop = p.env.Run(func(ctx context.Context) {
		for i, ph := range todo {
			s, err := p.env.Journal.MeasureCrumb(ctx, ph.ID)
			if ctx.Err() != nil {
				return
			}
			if err != nil && !errors.Is(err, journal.ErrNotFound) {
				failed = append(failed, err)
			}
			p.env.Main(func() {
				if ctx.Err() == nil {
					progress.Set(i+1, len(todo), ownerName(p.env.Journal, ph))
					p.took(ph.ID, s, err)
				}
			})
		}
	}, func() {
		p.finish()
		switch len(failed) {
		case 0:
			p.env.Say(lang.L("All of them are measured."), false)
		case 1:
			p.env.Say(lang.L("One could not be measured: {{.Why}}", map[string]any{"Why": p.env.Units().ErrorText(failed[0])}), false)
		default:
			p.env.Say(lang.L("{{.N}} could not be measured. The first: {{.Why}}", map[string]any{"N": len(failed), "Why": p.env.Units().ErrorText(failed[0])}), false)
		}
	})
	p.fill()
}

// took shows what came of measuring one photo.
func (p *listPage) took(id journal.ID, s crumb.Summary, err error) {
	i := slices.IndexFunc(p.all, func(e entry) bool { return e.photo.ID == id })
	if i >= 0 && err == nil {
		p.all[i] = p.all[i].with(s)
		p.fill()
	}
}

// halt stops measuring; what has been measured stays.
func (p *listPage) halt() {
	if p.stop != nil {
		p.stop()
		p.finish()
	}
}

func (p *listPage) finish() {
	p.stop = nil
	p.busy.Hide()
	p.busy.Objects = nil
	if p.Here() {
		p.read()
	}
}
