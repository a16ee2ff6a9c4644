package findings

import (
	"sync/atomic"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
)

// longAsking is how long all questions may take before the page tells how far they are.
const longAsking = 400 * time.Millisecond

// asking shows how many of the questions have been asked, with a way to stop, once they take
// long. What it gives to tell may be called away from the main goroutine; over has to be
// called, on it, when the answer is there.
func (p *page) asking() (tell func(asked, of int), over func()) {
	begun, ended := time.Now(), false
	var bar *kit.Progress
	var all atomic.Int64
	paced := p.env.Paced(func(asked int64) {
		if ended || !p.Here() {
			return
		}
		if bar == nil {
			bar = kit.NewProgress(lang.L("Asking the record everything it can be asked"), func() {
				ended = true
				p.Halt()
				p.showStopped()
			})
			p.page.SetHeading(lang.L("Working it out…"))
			p.page.SetBody(bar)
		}
		bar.Set(int(asked), int(all.Load()), lang.L("questions"))
	})
	tell = func(asked, of int) {
		if time.Since(begun) >= longAsking {
			all.Store(int64(of))
			paced(int64(asked))
		}
	}
	return tell, func() { ended = true }
}

// showStopped says that nothing was worked out, and offers to go on.
func (p *page) showStopped() {
	p.page.SetHeading(lang.L("Stopped"))
	p.page.SetBody(kit.Empty(kit.GoldenLoaf,
		lang.L("Not every question was asked, so nothing is said: one answer means little without the others."),
		kit.PrimaryButton(lang.L("Ask again"), p.load), nil))
}
