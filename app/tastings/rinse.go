package tastings

import (
	"fmt"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/journal/blind"
)

// rinse is the pause between two samples: a clock that runs down, and a button
// that cuts it short, which is noted, or goes on once it is over.
type rinse struct {
	left *kit.Text
	act  *kit.Button
	next string
}

// tell shows how long the pause still lasts.
func (r *rinse) tell(left time.Duration) {
	left = max(0, left.Round(time.Second))
	r.left.SetText(fmt.Sprintf("%d:%02d", int(left.Minutes()), int(left.Seconds())%60))
	if left > 0 {
		r.act.SetLabel(lang.L("Skip the pause"))
		return
	}
	r.act.SetLabel(lang.L("Go on to {{.Next}}", map[string]any{"Next": r.next}))
}

func (p *scorePage) showRinse(step blind.Turn) {
	p.rinseUntil = p.env.Now().Add(rinseFor)
	r := &rinse{next: label(step.Label), left: kit.NewLine(kit.Span{Size: look.TextCode, Serif: true})}
	r.act = kit.InkButton("", func() {
		skipped := p.env.Now().Before(p.rinseUntil)
		p.step(func(s *blind.Session) error { return s.Rinsed(p.taster, skipped) })
	})
	column := kit.Stack(0, kit.NewText(kit.Span{Text: lang.L("Rinse"), Size: look.TextLead, Color: look.ColorFaint}),
		r.left, kit.Gap(4),
		kit.NewText(kit.Span{Text: lang.L("Water, or a plain cracker. Wait until the taste is gone.") + " " + cleanser(), Size: look.TextLead, Color: look.ColorFaint}),
		kit.Gap(8), p.row(step, plateToCome))
	r.tell(rinseFor)
	p.put(p.roundWords(step), column, p.wayOut(kit.Faint(lang.L("A pause that is cut short is noted. Next: {{.Next}}", map[string]any{"Next": r.next}))), r.act)
	p.stop = p.env.Every(time.Second, func() {
		left := p.rinseUntil.Sub(p.env.Now())
		if r.tell(left); left <= 0 && p.env.Window.Canvas().Overlays().Top() == nil { // the next is shown by itself
			p.step(func(s *blind.Session) error { return s.Rinsed(p.taster, false) })
		}
	})
}

func (p *scorePage) stopRinse() {
	if p.stop != nil {
		p.stop()
	}
	p.stop = nil
}
