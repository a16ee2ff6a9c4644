package app

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
)

// reopenable lets the pages of w have its journal closed and opened anew. show fills
// the window with a journal; failed is told why there is none to show.
func reopenable(ctx context.Context, w *window, main kit.Main, open Open, show func(*journal.Journal, fyne.Window) *window, failed func(error)) {
	w.env.Reopen = func(between func(context.Context) error, then func(*pages.Env, error)) {
		// Not from within the work in the background that may have asked for it.
		go main(func() {
			if w.closed {
				return
			}
			w.leave()
			line := kit.Faint("")
			page := kit.NewPage(kit.PageOptions{Eyebrow: "Twinloaf", Heading: lang.L("One moment …"), Body: line})
			w.win.SetContent(kit.NewFrame(main, page))
			go func() {
				j := w.env.Journal
				asked := between(ctx)
				var err error
				if j.Closed() {
					j, err = open(ctx)
				}
				main(func() {
					if err != nil {
						failed(err)
						w.win.SetCloseIntercept(nil)
						refuse(page, err, w.win.Close)
						return
					}
					again := show(j, w.win)
					reopenable(ctx, again, main, open, show, failed)
					then(again.env, asked)
				})
			}()
		})
	}
}
