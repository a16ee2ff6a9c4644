package crumb

import (
	"context"
	"errors"
	"image"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/journal"
	"twinloaf/journal/crumb"
	"twinloaf/journal/say"
)

// load shows a thumbnail at once, the whole picture when it is read, and the figures
// that were kept.
func (p *measurePage) load(ph *journal.Photo) {
	full := image.Pt(ph.Width, ph.Height)
	p.picture.full = full
	p.picture.onRatio()
	p.summary, p.found, p.broken = nil, nil, nil
	if s, ok, err := journal.CrumbMeasures(p.env.Journal, ph); err == nil && ok {
		p.summary = &s
		if s.FoundByItself {
			p.found = s.Outline
		}
	}
	p.session.load(ph, func(small image.Image) {
		if p.loaded == ph.Hash {
			p.picture.view.SetPreview(small, full)
		}
	}, func(img image.Image, err error) {
		switch {
		case p.loaded != ph.Hash:
		case err != nil:
			p.env.Fail(err)
		default:
			p.picture.setPhoto(img)
			p.picture.setSlice(sliceOf(ph), p.outlineFound())
		}
	})
}

func (p *measurePage) outlineFound() crumb.Outline {
	if p.summary == nil {
		return nil
	}
	return p.summary.Outline
}

// measure measures away from the main goroutine and shows what comes of it.
func (p *measurePage) measure(ph *journal.Photo, wait time.Duration) {
	p.asked = ph
	p.stop.Show()
	p.busy.SetText(lang.L("Measuring"))
	p.session.measure(ph, wait, p.tell, func(o outcome) {
		p.quiet()
		p.show(o)
	})
}

// tell says how far the measuring is: of which stage, or that it is done again where there are
// figures already.
func (p *measurePage) tell(stage say.Line, share float64) {
	words := p.env.Units().Say(stage)
	if p.summary != nil {
		words = lang.L("Measuring again")
	}
	p.busy.SetText(lang.L("{{.Stage}}, {{.Share}} %", map[string]any{"Stage": words, "Share": int(100 * share)}))
}

// show puts what came of measuring on the page.
func (p *measurePage) show(o outcome) {
	if errors.Is(o.err, context.Canceled) {
		return
	}
	p.broken = o.err
	if o.err != nil {
		p.summary = nil
		p.picture.setResult(nil, nil)
		p.sync(o.photo)
		return
	}
	if p.summary != nil {
		if words := nudged(*p.summary, o.result.Summary, p.units); words != "" {
			p.setting.effect.SetText(words)
		}
	}
	s := o.result.Summary
	p.summary = &s
	if s.FoundByItself {
		p.found = s.Outline
	}
	p.picture.setResult(o.result, o.cells)
	p.sync(o.photo)
	if p.saveNext {
		p.told.SetText("")
		p.export()
	}
}

func (p *measurePage) quiet() {
	p.busy.SetText("")
	p.stop.Hide()
}

// halt stops what is being measured; M takes it up again.
func (p *measurePage) halt() {
	p.session.stop()
	p.quiet()
	p.told.SetText(lang.L("Stopped. M measures again."))
}

func (p *measurePage) again() {
	p.asked = nil
	p.told.SetText("")
	p.refresh(0)
}
