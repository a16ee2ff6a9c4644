package tastings

import (
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/lives"
	"twinloaf/app/look"
	"twinloaf/app/room"
	"twinloaf/journal"
	"twinloaf/journal/blind"
)

// beginTastingPage asks which two loaves are tasted.
type beginTastingPage struct {
	env    *room.Env
	page   *kit.Page
	cards  []*journal.Card
	chosen [2]journal.ID
	begin  *kit.Button
}

func newBeginTastingPage(env *room.Env, bakes []journal.ID) (*beginTastingPage, error) {
	cards, err := env.Journal.Cards()
	if err != nil {
		return nil, err
	}
	p := &beginTastingPage{env: env}
	for _, c := range cards {
		if !c.Binned {
			p.cards = append(p.cards, c)
		}
	}
	copy(p.chosen[:], bakes)
	p.begin = kit.PrimaryButton(lang.L("Plan the tasting"), p.plan)
	p.page = kit.NewPage(kit.PageOptions{Eyebrow: lang.L("A new tasting"), Heading: lang.L("Which two loaves?"), Actions: []fyne.CanvasObject{p.begin}, MaxWidth: 860})
	p.build()
	return p, nil
}

func (p *beginTastingPage) Object() fyne.CanvasObject { return p.page }
func (p *beginTastingPage) Title() string             { return lang.L("A new tasting") }
func (p *beginTastingPage) Keys() []kit.Key {
	return []kit.Key{{Name: "Enter", Doc: lang.L("Plan the tasting"), Do: func() { p.begin.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn}) }}}
}
func (p *beginTastingPage) Shown()                  {}
func (p *beginTastingPage) Left()                   {}
func (p *beginTastingPage) Changed(journal.Changed) {}

func bakeWords(c *journal.Card, u kit.Units, now time.Time) string {
	return lang.L("{{.Name}} · {{.Day}}", map[string]any{"Name": named(c.Name, lang.L("a bake")), "Day": u.Day(c.At, now)})
}

func (p *beginTastingPage) build() {
	if len(p.cards) < 2 {
		p.begin.Hide()
		p.page.SetHeading(lang.L("Two bakes are needed first"))
		p.page.SetBody(kit.Empty(lang.L("A tasting compares two loaves. Bake a fair pair, or write down two bakes."),
			kit.PrimaryButton(lang.L("Bake a fair pair"), func() { p.env.Go(room.Place{Name: room.Trial}) }), nil))
		return
	}
	u, now := p.env.Units(), p.env.Now()
	words := make([]string, len(p.cards))
	for i, c := range p.cards {
		words[i] = bakeWords(c, u, now)
	}
	side := func(n int, label string) fyne.CanvasObject {
		photo := kit.NewPhotoCell(p.env.Thumbs, fyne.NewSize(300, 220), 1)
		photo.Hide() // an empty frame says nothing
		set := func(i int) {
			p.chosen[n] = p.cards[i].ID
			photo.Set(kit.PhotoItem{Key: p.cards[i].Cover, Title: named(p.cards[i].Name, lang.L("a bake"))}, false)
			if p.cards[i].Cover != "" {
				photo.Show()
			} else {
				photo.Hide()
			}
			p.check()
		}
		field := kit.NewSuggestField(label, lang.L("the name of a bake"), func(text string) []string { return fitting(words, text) })
		field.OnTaken = func(s string) {
			if i := slices.Index(words, s); i >= 0 {
				set(i)
			}
		}
		if i := slices.IndexFunc(p.cards, func(c *journal.Card) bool { return c.ID == p.chosen[n] }); i >= 0 {
			field.SetText(words[i])
			set(i)
		}
		return kit.Stack(3, field, photo)
	}
	p.page.SetBody(kit.Stack(5, kit.Columns(look.Space(60), side(0, lang.L("One")), side(1, lang.L("The other"))),
		kit.Small(lang.L("While the tasting is sealed nothing tells which code is which. Allergens are always told."))))
	p.check()
}

func (p *beginTastingPage) check() {
	if p.chosen[0] == "" || p.chosen[1] == "" || p.chosen[0] == p.chosen[1] {
		p.begin.Disable()
		return
	}
	p.begin.Enable()
}

func (p *beginTastingPage) plan() {
	planTasting(p.env, "", p.chosen, blind.Plan{}, "")
}

// planTasting puts a tasting of two bakes into the journal and shows its plan.
// A plan without a method asks whether they can be told apart. Two bakes of one
// trial are tasted as a part of it, wherever they were chosen.
func planTasting(env *room.Env, trial journal.ID, bakes [2]journal.ID, plan blind.Plan, again journal.ID) {
	var id journal.ID
	ok := env.Do(lang.L("planning a tasting"), func(tx *journal.Tx) error {
		if err := lives.BarredLoaves(tx, bakes[:]...); err != nil {
			return err
		}
		t, err := journal.NewTasting(tx, journal.TastingPlan{At: env.Now(), Trial: trial, Bakes: bakes, Plan: plan, Again: again})
		if err == nil {
			id = t.ID
		}
		return err
	})
	if ok {
		env.Go(to(id, ""))
	}
}
