package tastings

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/journal/blind"
)

// name is who has a taster's place now.
func (p *scorePage) name(taster int) string { return nameNow(p.session, taster) }

// nameNow is who has a taster's place now.
func nameNow(s *blind.Session, taster int) string {
	progress := s.Progress()
	return progress.Name(s.Setting().Plan, taster, progress.Sheets[taster].Round)
}

// wayOut is the way out that stands on every step: nobody has to taste.
func (p *scorePage) wayOut(hint fyne.CanvasObject) fyne.CanvasObject {
	return kit.Stack(1, hint, kit.Row(0, inkLink(lang.L("Stop, or hand over…"), p.askLeaving)))
}

// askLeaving lets whoever tastes stop, hand over to somebody else, or let somebody
// else go first.
func (p *scorePage) askLeaving() {
	var sheet *kit.Dialog
	reason := kit.NewTextField(lang.L("Why, if you like to say"), lang.L("nobody has to"))
	stop := kit.InkButton(lang.L("Stop tasting"), func() {
		if p.leaveBy(func(s *blind.Session) error { return s.Stop(p.taster, reason.Text()) }) {
			sheet.Close()
		}
	})
	content := kit.Stack(4, kit.Body(lang.L("Nobody has to taste. What was handed in stands, this round counts for nothing, and the others go on.")), reason)
	var buttons []fyne.CanvasObject
	if p.plan.Mode == blind.WithHelper {
		who := kit.NewTextField(lang.L("Who takes over, if anybody"), lang.L("a name"))
		over := kit.NewButton(lang.L("Hand over"), func() {
			if p.leaveBy(func(s *blind.Session) error { return s.HandOver(p.taster, who.Text()) }) {
				sheet.Close()
			}
		})
		over.Disable()
		who.OnChanged = func(words string) { kit.SetEnabled(over, strings.TrimSpace(words) != "") }
		content.Add(who)
		content.Add(kit.Small(lang.L("Whoever takes over is shown the allergens and begins this round anew, so it needs fresh pieces on the plates.")))
		buttons = append(buttons, over)
	}
	for i, other := range p.session.Progress().Sheets {
		if i != p.taster && !other.Over() {
			content.Add(kit.Row(0, inkLink(lang.L("{{.Who}} first; this goes on later", map[string]any{"Who": p.name(i)}), func() {
				sheet.Close()
				p.taster, p.handover = i, true
				p.refresh()
			})))
		}
	}
	sheet = kit.ShowDialog(p.env.Window, kit.DialogOptions{
		Title:   lang.L("{{.Who}} does not go on?", map[string]any{"Who": p.name(p.taster)}),
		Content: content, Buttons: append(buttons, stop), Width: 560,
	})
}

// leaveBy does it and goes on to whoever is next; it reports whether it was done.
func (p *scorePage) leaveBy(do func(*blind.Session) error) bool {
	return p.afterRound(p.env.Journal.Score(p.id, do))
}

// decline ends the tasting for somebody who has not begun.
func (p *scorePage) decline() {
	kit.Confirm(p.env.Window, lang.L("Not taste?"),
		lang.L("Nobody has to, and no reason is asked for. The others go on without {{.Who}}.", map[string]any{"Who": p.name(p.taster)}),
		lang.L("I will not taste"), func() {
			p.leaveBy(func(s *blind.Session) error { return s.Stop(p.taster, "") })
		})
}
