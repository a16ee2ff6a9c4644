package tastings

import (
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/blind"
)

// closedSection shows a tasting that was ended without being opened: its paper was
// lost. It tells no loaf, for nobody knows.
type closedSection struct{ p *tastingPage }

func newClosedPart(p *tastingPage) *closedSection { return &closedSection{p: p} }

func (v *closedSection) left()                                       {}
func (v *closedSection) changed(t *journal.Tasting, s blind.Setting) { v.show(t, s) }

func (v *closedSection) show(t *journal.Tasting, s blind.Setting) {
	page := v.p.page
	page.SetEyebrow(lang.L("{{.Name}} · ended {{.When}}", map[string]any{"Name": pages.TastingName(t), "When": dayOf(v.p.env.Units(), t.Closed, v.p.env.Now())}))
	page.SetHeading(lang.L("Ended without being opened"))
	page.SetActions(nil, kit.QuietButton(lang.L("Move to the bin"), v.p.bin))
	page.SetBody(kit.Lead(kit.Span{Text: lang.L("The key was on the helper's paper, and the paper was lost. Which code was which loaf is not known to anybody, and what was said of the codes says nothing of the loaves. The scores stay in the journal.")}))
	v.p.keys = nil
}
