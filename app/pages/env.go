package pages

import (
	"context"
	"sync"
	"sync/atomic"
	"time"

	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/assets/words"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/histories"
	"twinloaf/journal/measure"
)

// Env is what the window lends to its pages. One Env serves them all.
type Env struct {
	Journal *journal.Journal
	Window  fyne.Window
	App     fyne.App

	// Go shows a page; Back shows the one before it.
	Go   func(Route)
	Back func()
	// Retitle asks the page that is shown for its title and keys again; Turned also says
	// that it shows another face, so that the keyboard, if it was on the one before or a key
	// asked for this one, goes to where its work begins.
	Retitle, Turned func()

	// Say shows a line at the foot of the window; with undo, the line offers
	// to take back the last change.
	Say func(message string, undo bool)
	// Fail shows a sentence about what went wrong. A nil error is none.
	Fail func(err error)

	// Feed opens the dialog of a feeding of a culture over the page that is shown; FeedAgain
	// feeds it as the last time, at once.
	Feed, FeedAgain func(culture journal.ID)
	// PlanBuild opens the dialog in which a weight of a culture is built up to be ripe at a
	// time, over the page that is shown, with both filled in.
	PlanBuild func(culture journal.ID, amount formula.Grams, ripe time.Time)

	// Histories are those of the cultures, kept while they stay as they are.
	Histories histories.Cache

	// Thumbs loads thumbnails by their hash.
	Thumbs *kit.Loader

	// Reopen closes the window and its journal, has between do, off the main goroutine,
	// what can only be done then, and shows the journal opened anew in the same window.
	// between is to close the journal itself; one that it leaves open is shown again as
	// it is. then is called on the main goroutine with the Env of the new window and
	// what between gave.
	Reopen func(between func(context.Context) error, then func(*Env, error))

	// AskWhere asks where to save a file; nil means in a dialogue over the
	// window. Tests set it.
	AskWhere func(kit.SaveOptions)

	// StartProgram starts this program once more with arguments; nil means for
	// real. Tests set it.
	StartProgram func(args ...string) error

	jobs     sync.WaitGroup // of Run
	begun    atomic.Int64   // how many there were
	tickers  sync.WaitGroup // of Every
	thoughts sync.WaitGroup // of Think, for tests
	ctx      context.Context
	stop     context.CancelFunc
	main     kit.Main
}

// Begin makes the Env ready for background work, whose results main brings back.
func (e *Env) Begin(main kit.Main) {
	e.ctx, e.stop = context.WithCancel(context.Background())
	e.main = main
}

// Now is the time by the journal's clock.
func (e *Env) Now() time.Time { return e.Journal.Now() }

// Units gives the faces put on quantities, by setting or else by locale.
func (e *Env) Units() measure.Units {
	u := measure.LocaleUnits(words.System())
	s, err := e.Journal.Settings()
	if err != nil {
		return u
	}
	if s.Language != "" && words.Spoken(s.Language) != words.Spoken("") {
		// Another language than the computer's writes its numbers, hours and days its own way.
		as := measure.LocaleUnits(words.Spoken(s.Language).Locale)
		u.DecimalComma, u.TwelveHour, u.MonthFirst, u.DoughYield = as.DecimalComma, as.TwelveHour, as.MonthFirst, as.DoughYield
	}
	choose := func(face *bool, set, yes, no string) {
		switch set {
		case yes:
			*face = true
		case no:
			*face = false
		}
	}
	choose(&u.Fahrenheit, s.Temperature, "F", "C")
	choose(&u.Ounces, s.Weight, "oz", "g")
	choose(&u.TwelveHour, s.Clock, "12", "24")
	choose(&u.Letter, s.Paper, "letter", "a4")
	return u
}

// Failed shows what went wrong, as Fail does, and reports whether anything did.
func (e *Env) Failed(err error) bool {
	if err != nil {
		e.Fail(err)
	}
	return err != nil
}

// Run does work off the main goroutine, then calls done on it. The context is
// cancelled when the window closes, and by the function that Run gives; done is
// not called after that. work must not touch a widget.
func (e *Env) Run(work func(ctx context.Context), done func()) (cancel func()) {
	ctx, stop := context.WithCancel(e.ctx)
	var given atomic.Bool // up: nobody waits for the result any more
	e.begun.Add(1)
	e.jobs.Go(func() {
		defer stop()
		work(ctx)
		if ctx.Err() != nil || done == nil {
			return
		}
		e.main(func() {
			if e.ctx.Err() == nil && !given.Load() {
				done()
			}
		})
	})
	return func() { given.Store(true); stop() }
}

// Think does work that only reads and reckons off the main goroutine, on what it was
// handed, then calls done as Run does. It cannot be broken off, and closing does not
// wait for it: its result is dropped then.
func (e *Env) Think(work func(), done func()) (cancel func()) {
	var given atomic.Bool
	e.begun.Add(1)
	e.thoughts.Go(func() {
		work()
		e.main(func() {
			if e.ctx.Err() == nil && !given.Load() && done != nil {
				done()
			}
		})
	})
	return func() { given.Store(true) }
}

// Main runs fn on the main goroutine; it may be called from any.
func (e *Env) Main(fn func()) { e.main(fn) }

// Every calls fn on the main goroutine every so often, by the computer's
// clock, until stop is called.
func (e *Env) Every(d time.Duration, fn func()) (stop func()) {
	ctx, cancel := context.WithCancel(e.ctx)
	e.tickers.Go(func() {
		t := time.NewTicker(d)
		defer t.Stop()
		for {
			select {
			case <-ctx.Done():
				return
			case <-t.C:
				e.main(func() {
					if ctx.Err() == nil {
						fn()
					}
				})
			}
		}
	})
	return cancel
}

// endWithin is how long closing waits for work that was told to end.
const endWithin = 5 * time.Second

// Close tells all work in the background to end and waits for it, the fetching of
// thumbnails too, but for no longer than a few seconds: work that does not heed its
// context, or a disk that does not answer, keeps no window from closing. What is cut off
// then loses nothing that was acknowledged: files get their names when they are whole,
// and the journal is closed under it.
func (e *Env) Close() { e.close(endWithin) }

func (e *Env) close(within time.Duration) {
	e.stop()
	ended := make(chan struct{})
	go func() {
		defer close(ended)
		e.jobs.Wait()
		e.tickers.Wait()
		if e.Thumbs != nil {
			e.Thumbs.Close()
		}
	}()
	select {
	case <-ended:
	case <-time.After(within):
	}
}

// Wait waits for the work in the background, and for what its results set going, for
// tests. What goes on every so often is not waited for.
func (e *Env) Wait() {
	for before := int64(-1); before != e.begun.Load(); {
		before = e.begun.Load()
		e.jobs.Wait()
		e.thoughts.Wait()
		e.main(func() {}) // a test's stand-in for the main goroutine does what waits
	}
}

// Do makes a change to the journal and shows what went wrong, if anything. It
// reports whether the change was made.
func (e *Env) Do(label string, fn func(tx *journal.Tx) error) bool {
	return !e.Failed(e.Journal.Do(label, fn))
}
