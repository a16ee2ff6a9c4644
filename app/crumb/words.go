package crumb

import (
	"cmp"
	"errors"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/app/past"
	"twinloaf/journal"
	"twinloaf/journal/crumb"
)

// ownerName is what a photo's bake is called.
func ownerName(j journal.Reader, ph *journal.Photo) string {
	if ph.Owner.Kind != journal.KindBake {
		return lang.L("A photo of no bake")
	}
	b, err := journal.Get[journal.Bake](j, ph.Owner.ID)
	if errors.Is(err, journal.ErrNotFound) {
		return lang.L("A bake that is gone")
	}
	if err != nil {
		return ""
	}
	return past.Name(b.Name)
}

// eyebrow says whose crumb it is, and when it was taken.
func eyebrow(env *pages.Env, ph *journal.Photo) string {
	return ownerName(env.Journal, ph) + " · " + env.Units().Moment(ph.When(), env.Now())
}

// explain shows what every figure means, how it is worked out and where that was
// published, and how the whole comes about.
func explain(win fyne.Window) {
	lines := kit.Stack(3)
	for _, d := range crumb.Definitions() {
		unit := cmp.Or(unitWord(d, false), lang.L("no unit"))
		lines.Add(kit.Stack(0, kit.NewText(kit.Span{Text: lang.L(d.Name), Bold: true}, kit.Span{Text: "  " + unit, Size: look.TextSmall, Color: look.ColorFaint}),
			kit.Body(lang.L(d.Means)), kit.Small(lang.L(d.Defined)), kit.Small(lang.L("Source: {{.Source}}", map[string]any{"Source": lang.L(d.Source)}))))
	}
	lines.Add(kit.Section(lang.L("How the cells are found")))
	for _, s := range crumb.MethodSources() {
		lines.Add(kit.Small(lang.L(s)))
	}
	kit.ShowDialog(win, kit.DialogOptions{Title: lang.L("What these figures mean"), Content: lines, Scroll: true, Width: 640, Height: 620})
}
