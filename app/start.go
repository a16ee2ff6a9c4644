package app

import (
	"context"
	"errors"
	"sync"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/journal"
	"twinloaf/journal/measure"
)

// An Open opens the journal.
type Open func(ctx context.Context) (*journal.Journal, error)

// Start opens the journal off the main goroutine, shows the window, and returns when
// it is closed. A journal that cannot be opened is told in a small window of its own,
// and by the error; nothing is opened on top of it. main takes what comes back from
// other goroutines.
func Start(ctx context.Context, a fyne.App, main kit.Main, open Open) error {
	a.Settings().SetTheme(look.New(look.FollowSystem))
	told := ctx
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	wait := newWaiting(a, main)
	var w *window
	var failed error
	show := func(j *journal.Journal, win fyne.Window) *window {
		if win == nil {
			w = compose(a, j, main)
		} else {
			w = furnish(win, a, j, main)
		}
		return w
	}
	var opening sync.WaitGroup
	var begin func()
	begin = func() {
		opening.Go(func() {
			j, err := open(ctx)
			if ctx.Err() != nil { // the baker did not want to wait
				if j != nil {
					_ = j.Close() // nothing has been typed yet
				}
				return
			}
			main(func() {
				if failed = err; err != nil {
					wait.refuse(err)
					wait.offer(ctx, err, begin)
					return
				}
				reopenable(ctx, show(j, nil), main, open, show, func(err error) { failed = err })
				w.win.Show()
				wait.win.Close()
			})
		})
	}
	a.Lifecycle().SetOnStarted(func() {
		// Only the loop is ended: the toolkit, which is told to end as well, may have done so
		// already, and has no windows then to close.
		context.AfterFunc(told, func() { main(a.Driver().Quit) })
		begin()
	})
	wait.win.ShowAndRun()
	cancel()
	opening.Wait()
	if w != nil { // the toolkit ends its loop by itself when it is told to end, too
		w.leave()
		if w.lost {
			failed = ErrLost
		}
	}
	return failed
}

// waiting is the small window that stands while the journal is being opened.
type waiting struct {
	main kit.Main
	win  fyne.Window
	page *kit.Page
}

func newWaiting(a fyne.App, main kit.Main) *waiting {
	w := &waiting{main: main, win: a.NewWindow("Twinloaf")}
	w.page = kit.NewPage(kit.PageOptions{Eyebrow: "Twinloaf", Heading: lang.L("One moment …")})
	w.win.SetIcon(look.AppIcon())
	w.win.SetPadded(false)
	w.win.SetContent(kit.NewFrame(main, w.page))
	w.win.Resize(fyne.NewSize(720, 320))
	return w
}

// refuse says why there is no journal to show.
func (w *waiting) refuse(err error) { refuse(w.page, err, w.win.Close) }

// refuse says on a page why there is no journal to show.
func refuse(p *kit.Page, err error, done func()) {
	p.SetHeading(lang.L("The journal was not opened"))
	p.SetBody(kit.Stack(4, kit.Body(Refusal(err)), kit.Small(err.Error()),
		kit.Row(2, kit.PrimaryButton(lang.L("Close"), done))))
}

// Refusal words for the baker why a journal was not opened.
func Refusal(err error) string {
	switch {
	case errors.Is(err, journal.ErrInUse):
		return lang.L("This journal is open in another window of Twinloaf already. Nothing was changed.")
	case errors.Is(err, journal.ErrNotJournal):
		return lang.L("The file in this folder is not a Twinloaf journal. It was left untouched.")
	case errors.Is(err, journal.ErrNewer):
		return lang.L("A newer version of Twinloaf wrote this journal. It was left untouched; please use the newer version.")
	case errors.Is(err, journal.ErrDamaged):
		return lang.L("Nothing in this journal can be read any more. The file was left untouched. One of its backups, or a copy on another disk, may still be sound.")
	}
	return measure.Units{}.ErrorText(err)
}
