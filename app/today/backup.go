package today

import (
	"errors"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal/backup"
)

// neglected says that there was no backup for a week, and what to do; nil while there
// is nothing to say.
func (p *page) neglected() fyne.CanvasObject {
	s := p.env.Journal.Backups().Status()
	now := p.env.Now()
	if !s.Neglected(now) {
		return nil
	}
	data := map[string]any{"Day": p.env.Units().Day(s.Since().In(now.Location()), now), "Folder": s.Folder}
	var words string
	switch {
	case errors.Is(s.Problem, backup.ErrGone):
		words = lang.L("There has been no backup since {{.Day}}: plug in the disk of {{.Folder}}, or choose another folder.", data)
	case errors.Is(s.Problem, backup.ErrNoRoom):
		words = lang.L("There has been no backup since {{.Day}}: free some space on the disk of {{.Folder}}, or choose another folder.", data)
	default:
		words = lang.L("There has been no backup since {{.Day}}: {{.Folder}} does not take one; choose another folder.", data)
	}
	return kit.Stack(0.5, kit.NewText(kit.Span{Text: words, Color: look.ColorEmber}),
		kit.NewLink(lang.L("See the backups"), func() { p.env.Go(pages.Route{Name: pages.Safekeeping}) }))
}
