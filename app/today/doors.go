package today

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
)

// doors are the ways into an empty journal: two that are equal, and the demo to look around
// in first.
func (p *page) doors() fyne.CanvasObject {
	return kit.Stack(6,
		kit.Lead(kit.Span{Text: lang.L("Begin with what is on your bench; what you type is saved at once.")}),
		kit.Doors(
			kit.Door{
				Title:  lang.L("A culture"),
				Leads:  lang.L("From flour and water, or the one in your jar. Write down its feedings and how high it rises; Twinloaf follows its first weeks, and says when to feed it and when it should be ripe."),
				Button: kit.PrimaryButton(lang.L("Begin a culture"), p.newCulture).WithKey("C"),
			},
			kit.Door{
				Title:  lang.L("A bake"),
				Leads:  lang.L("What went in, line by line, and how the loaf came out: weights, photos, a score. From then on you can find it, compare it, plan it again, and taste two loaves blind."),
				Button: kit.PrimaryButton(lang.L("Write down a bake"), p.newBake).WithKey("N"),
			}),
		kit.Rule(),
		kit.Stack(2,
			kit.Body(lang.L("Or look around first: the demo is the journal of an invented cook, in a window of its own. It is gone when you close it, and your journal stays as it is. In a terminal, twinloaf\u00a0-demo opens it too.")),
			kit.Row(0, kit.NewButton(lang.L("Open the demo"), p.openDemo).WithKey("D"))))
}
