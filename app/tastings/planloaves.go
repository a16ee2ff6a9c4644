package tastings

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/blind"
)

// loaves shows what will be tasted, large: each loaf's picture, its mark and its name, and
// when it was baked or will be. A plan that is not sealed has no code yet that a picture
// could give away.
func (v *planSection) loaves(plan blind.Plan) fyne.CanvasObject {
	env := v.p.env
	u, now := env.Units(), env.Now()
	covers, err := coversOf(env.Journal)
	env.Fail(err)
	ids := [2]journal.ID{journal.ID(plan.Loaves[0].ID), journal.ID(plan.Loaves[1].ID)}
	looks := pages.LooksOfBakes(env.Journal, ids[0], ids[1])
	var sides []fyne.CanvasObject
	for i, id := range ids {
		state := kit.Faint(lang.L("no longer in the journal"))
		b, err := journal.Get[journal.Bake](env.Journal, id)
		if err == nil {
			state = kit.Faint(lang.L("baked {{.Day}}", map[string]any{"Day": u.Day(b.At, now)}))
			if at := readyAt(b); !at.IsZero() {
				state = kit.Faint(lang.L("ready {{.When}}", map[string]any{"When": u.When(at, now)}))
				if v.t != nil && v.t.At.Before(at) {
					state = kit.NewText(kit.Span{Text: lang.L("ready {{.When}}, after the time of the tasting", map[string]any{"When": u.When(at, now)}), Color: look.ColorEmber})
				}
			}
		}
		open := func() { env.Go(pages.At(pages.Bake, id)) }
		tile := kit.NewPhotoTile(env.Thumbs, pairSize, 0, open).Filling()
		tile.Set(kit.PhotoItem{Key: covers[id], Loaf: kit.GoldenLoaf})
		name := kit.Marked(looks[i], kit.NewText(kit.Span{Text: named(plan.Loaves[i].Name, lang.L("a bake")), Size: look.TextLarge, Serif: true}))
		sides = append(sides, kit.WeightedColumns(look.Space(20), []float32{2, 3}, kit.Grown(0.75, pairSize.Height, look.Space(80), tile),
			kit.Stack(1, name, state, kit.Row(0, kit.NewLink(lang.L("Open the bake"), open)))))
	}
	return kit.Columns(look.Space(75), sides...)
}

// needs says what has to be at hand.
func needs(p blind.Plan) string {
	bites := p.Method.Samples()
	if p.Method.HasReference() {
		bites++
	}
	all := bites * p.Rounds * max(1, len(p.Tasters))
	words := lang.N("{{.N}} samples of bread in all, {{.Bites}} to a round.", all, map[string]any{"N": all, "Bites": bites})
	if p.Mode == blind.Alone {
		return words + " " + lang.L("Plates, slips of paper to fold, and water to rinse with.")
	}
	return words + " " + lang.L("Plates to write codes on, water to rinse with, and a helper who does not taste.")
}
