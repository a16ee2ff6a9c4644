package photos

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"
	"fyne.io/fyne/v2/layout"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
)

// pairPage shows two photos side by side. While they are tied, what one is zoomed
// and moved to the other is too.
type pairPage struct {
	pages.Base
	env   *pages.Env
	ids   [2]journal.ID
	page  *kit.Page
	pair  *kit.PhotoPair
	words [2]*kit.Text
	tie   *kit.Button
	stop  []func()
}

func newPairPage(env *pages.Env, first, second journal.ID) (*pairPage, error) {
	p := &pairPage{env: env, ids: [2]journal.ID{first, second}, pair: kit.NewPhotoPair(env.Main)}
	for i, id := range p.ids {
		if _, err := journal.Get[journal.Photo](env.Journal, id); err != nil {
			return nil, err
		}
		p.words[i] = kit.Small("")
	}
	p.tie = kit.NewButton("", p.toggle).WithKey("T")
	foot := kit.Stack(1, kit.Gap(1), container.NewGridWithColumns(2, container.New(layout.NewCustomPaddedLayout(0, 0, 0, look.Space(3)), p.words[0]), p.words[1]), kit.Gap(2))
	p.page = kit.NewPage(kit.PageOptions{Eyebrow: lang.L("Photos"), Heading: lang.L("Side by side"), Fixed: true,
		Actions: []fyne.CanvasObject{p.tie,
			kit.QuietButton(lang.L("Change the right photo"), p.another).WithKey("S"),
			kit.QuietButton(lang.L("Swap sides"), p.swap).WithKey("X")},
		Body: container.NewBorder(nil, foot, nil, nil, p.pair)})
	p.Base = pages.Base{Body: p.page, Name: lang.L("Photos side by side"), Read: p.load}
	p.sayTie()
	return p, nil
}

func (p *pairPage) Keys() []kit.Key {
	zoom := func(r rune) func() { return func() { p.pair.Left.TypedRune(r) } }
	return []kit.Key{
		{Name: "T", Doc: lang.L("Link or unlink the two photos"), Do: p.toggle},
		{Name: "+", Doc: lang.L("Larger; the wheel does it too, dragging moves"), Do: zoom('+')},
		{Name: "=", Do: zoom('+'), Hidden: true},
		{Name: "-", Doc: lang.L("Smaller"), Do: zoom('-')},
		{Name: "0", Doc: lang.L("The whole pictures"), Do: zoom('0')},
		{Name: "S", Doc: lang.L("Change the right photo"), Do: p.another},
		{Name: "X", Doc: lang.L("Swap sides"), Do: p.swap},
		{Name: "Esc", Doc: lang.L("Back"), Do: p.env.Back},
	}
}

// Left lets both pictures go.
func (p *pairPage) Left() {
	p.Base.Left()
	p.release()
}

func (p *pairPage) release() {
	for _, stop := range p.stop {
		stop()
	}
	p.stop = nil
	p.pair.Left.Clear()
	p.pair.Right.Clear()
}

// Changed writes the words beneath anew.
func (p *pairPage) Changed(c journal.Changed) {
	if p.Here() && c.TouchesKind(journal.KindPhoto, journal.KindBake, journal.KindSettings) {
		p.write()
	}
}

func (p *pairPage) load() {
	p.release()
	for i, view := range []*kit.PhotoView{p.pair.Left, p.pair.Right} {
		ph, err := journal.Get[journal.Photo](p.env.Journal, p.ids[i])
		if err != nil {
			p.env.Fail(err)
			continue
		}
		p.stop = append(p.stop, showLarge(p.env, view, ph))
	}
	p.write()
}

func (p *pairPage) write() {
	for i, id := range p.ids {
		ph, err := journal.Get[journal.Photo](p.env.Journal, id)
		if err != nil {
			p.words[i].SetText(lang.L("This photo is no longer in the journal"))
			continue
		}
		owner, _, err := ownerOf(p.env.Journal, ph.Owner)
		if err != nil {
			owner = ""
		}
		p.words[i].SetText(caption(ph, owner, p.env.Units(), p.env.Now()))
	}
}

func (p *pairPage) toggle() {
	p.pair.SetTied(!p.pair.Tied())
	p.sayTie()
}

func (p *pairPage) sayTie() {
	if p.pair.Tied() {
		p.tie.SetLabel(lang.L("Unlink"))
		return
	}
	p.tie.SetLabel(lang.L("Link"))
}

func (p *pairPage) swap() {
	p.ids[0], p.ids[1] = p.ids[1], p.ids[0]
	p.load()
}

func (p *pairPage) another() {
	pickBeside(p.env, p.ids[0], func(second journal.ID) {
		p.ids[1] = second
		p.load()
	})
}

// pickBeside offers the photos that can be seen beside one, and hands over which
// was picked.
func pickBeside(env *pages.Env, id journal.ID, picked func(journal.ID)) {
	ph, err := journal.Get[journal.Photo](env.Journal, id)
	if env.Failed(err) {
		return
	}
	all, err := candidates(env.Journal, ph, env.Units(), env.Now())
	if env.Failed(err) {
		return
	}
	if len(all) == 0 {
		env.Say(lang.L("There is no other photo yet."), false)
		return
	}
	items := make([]kit.PhotoItem, len(all))
	for i, one := range all {
		items[i] = one.item
	}
	env.PickPhoto(lang.L("Compare with which photo?"), lang.L("Arrow keys move, Enter selects."), items, func(i int) { picked(all[i].id) })
}
