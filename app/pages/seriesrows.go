package pages

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/journal"
)

// SeriesRows are the links to rows of pictures, each a sentence; without any, the invitation to
// make one.
func (e *Env) SeriesRows(all []*journal.Series, invite string) []fyne.CanvasObject {
	u, now := e.Units(), e.Now()
	var out []fyne.CanvasObject
	for _, s := range all {
		words := lang.L("“{{.Name}}”, from {{.When}}.", map[string]any{"Name": s.Name, "When": u.Moment(s.From.Add(-s.Ahead).In(now.Location()), now)})
		if s.Reading() {
			words += " " + lang.L("Not all was read yet; it goes on when you open it.")
		}
		out = append(out, kit.NewLinkSpan(kit.Span{Text: words}, func() { e.Go(At(Series, s.ID)) }))
	}
	if len(all) == 0 {
		out = append(out, kit.NewText(kit.Span{Color: look.ColorFaint, Text: invite}))
	}
	return out
}
